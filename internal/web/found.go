package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
)

// foundLine is a finding as a page shows it: Leaf is where it belongs on the
// docket's sheet, Link leads to its place.
type foundLine struct {
	Severity, Code, Text, Mend, Where, Leaf, Link, Spot string
	Notes                                               []string
}

// leafOf says on which leaf a finding is shown, by the stage that made it.
var leafOf = map[string]string{
	"body": "body", "fit": "body", "pattern": "pieces", "svg": "pieces", "piece": "pieces", "finish": "pieces", "change": "changes",
	"seam": "seams", "construct": "order", "method": "order", "cloth": "cloth", "lay": "cloth", "referee": "cloth", "nest": "cloth",
	"order": "order", "reach": "order", "machine": "order", "needs": "needs", "sheet": "sheets",
}

func lineOf(f finding.Finding) foundLine {
	l := foundLine{Severity: f.Severity().String(), Code: f.Code(), Text: f.Text(), Mend: f.Mend(), Where: f.Place.Source()}
	for _, n := range f.Notes {
		text := n.Text
		if at := n.Place.Source(); at != "" {
			text += " (" + at + ")"
		}
		l.Notes = append(l.Notes, text)
	}
	if on := f.Place.OnGarment(); on != "" {
		l.Where = strings.TrimPrefix(l.Where+", "+on, ", ")
	}
	stage, _, _ := strings.Cut(f.Code(), ".")
	l.Leaf = leafOf[stage]
	switch {
	case f.Place.Step != "":
		l.Leaf = "changes"
		l.Spot = "#change-" + f.Place.Step
	case f.Place.Piece != "" && l.Leaf != "cloth":
		l.Leaf = "pieces"
		l.Spot = "#piece-" + f.Place.Piece
	}
	switch {
	case l.Spot != "":
		l.Link = l.Spot
	case f.Place.File != "":
		l.Link = "/file/" + (&url.URL{Path: f.Place.File}).EscapedPath() + fmt.Sprintf("?line=%d#line", f.Place.Line)
	case l.Leaf != "":
		l.Link = "#" + l.Leaf
	}
	return l
}

// worst gives the heaviest severity found on each leaf.
func worst(list []foundLine) map[string]string {
	heavy := []string{"", "advice", "warn", "stop"}
	out := map[string]string{}
	for _, l := range list {
		if slices.Index(heavy, l.Severity) > slices.Index(heavy, out[l.Leaf]) {
			out[l.Leaf] = l.Severity
		}
	}
	return out
}

// about picks the findings whose place is the given spot of the sheet.
func about(list []foundLine, spot string) []foundLine {
	var out []foundLine
	for _, l := range list {
		if l.Spot == spot {
			out = append(out, l)
		}
	}
	return out
}

func sortedRoles(d docket.Docket) []cloth.Role {
	var out []cloth.Role
	for _, r := range cloth.Roles {
		if _, ok := d.Cloths[r]; ok {
			out = append(out, r)
		}
	}
	return out
}
