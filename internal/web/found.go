package web

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/seam"
	"gusset/internal/sheet"
)

// foundLine is a finding as a page shows it: Leaf is where it belongs on the
// docket's sheet, Link leads to its place.
type foundLine struct {
	Severity, Code, Text, Mend, Where, Leaf, Link, Spot string
	Mark                                                string // its number on the drawing of a piece
	Weight, Lang, MendLang                              string // the severity in words; the languages of Text and Mend
	Notes                                               []string
	file                                                string // leads to the file that it speaks of
}

// leafOf says on which leaf a finding is shown, by the stage that made it.
var leafOf = map[string]string{
	"body": "body", "fit": "body", "pattern": "pieces", "svg": "pieces", "piece": "pieces", "finish": "pieces", "change": "changes",
	"seam": "seams", "construct": "order", "method": "order", "cloth": "cloth", "lay": "cloth", "referee": "cloth", "nest": "cloth",
	"order": "order", "reach": "order", "machine": "order", "needs": "needs", "sheet": "sheets",
}

func lineOf(who reader, f finding.Finding) foundLine {
	text, mend := who.said(f)
	l := foundLine{Severity: f.Severity().String(), Weight: who.T("weight." + f.Severity().String()), Code: f.Code(), Text: text.Text, Lang: text.Lang, Mend: mend.Text, MendLang: mend.Lang, Where: f.Place.Source()}
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
	if f.Place.File != "" {
		l.file = "/file/" + (&url.URL{Path: f.Place.File}).EscapedPath() + fmt.Sprintf("?line=%d#line", f.Place.Line)
	}
	switch {
	case l.Spot != "":
		l.Link = l.Spot
	case l.file != "":
		l.Link = l.file
	case l.Leaf != "":
		l.Link = "#" + l.Leaf
	}
	return l
}

// marked is a finding with its number on the drawings, where it lies on a piece;
// its notes are marked with the same.
func (p *docketPage) marked(f finding.Finding, seams []seam.Report) foundLine {
	l := lineOf(p.reader, f)
	n := 1
	if k := len(p.spots); k > 0 {
		n = p.spots[k-1].Number + 1
	}
	places := []finding.Place{f.Place}
	for _, note := range f.Notes {
		places = append(places, note.Place)
	}
	if on := ofSeam(f, seams); len(on) > 0 && f.Place.Piece == "" {
		places = append(places, on...)
		l.Spot = "#piece-" + on[0].Piece
		l.Link = l.Spot
	}
	for _, at := range places {
		if at.Piece != "" && l.Leaf != "cloth" {
			p.spots = append(p.spots, sheet.Spot{Number: n, Heavy: f.Severity() == finding.Stop, Place: at})
			l.Mark = strconv.Itoa(n)
		}
	}
	return l
}

// ofSeam are the places of a finding that speaks of a seam: the middle of each of
// its sides.
func ofSeam(f finding.Finding, seams []seam.Report) []finding.Place {
	var out []finding.Place
	for _, w := range seams {
		if !strings.HasPrefix(f.Code(), "seam.") || !slices.Contains(f.Args, any(w.Seam.ID)) {
			continue
		}
		for _, side := range w.Seam.Sides {
			if len(side) > 0 && !side[0].Inside {
				s := side[0]
				out = append(out, f.Place.OnPiece(s.Piece, string(s.Copy), s.Edge).AtMM(s.Along(s.Length()/2)))
			}
		}
	}
	return out
}

// aim leads findings elsewhere whose place is not on the sheet: a piece that is
// not drawn, a change that is not there.
func (p *docketPage) aim() {
	there := map[string]bool{}
	for _, f := range p.Pieces {
		there["#"+f.ID] = true
	}
	for i, l := range p.Findings {
		if strings.HasPrefix(l.Spot, "#piece-") && !there[l.Spot] {
			p.Findings[i].Link, p.Findings[i].Mark = elsewhere(l), ""
		}
	}
}

func elsewhere(l foundLine) string {
	if l.file != "" {
		return l.file
	}
	return "#" + l.Leaf
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

// Advice are the findings that may be ignored, to be shown folded away.
func (p docketPage) Advice() []foundLine {
	var out []foundLine
	for _, l := range p.Findings {
		if l.Severity == "advice" {
			out = append(out, l)
		}
	}
	return out
}
