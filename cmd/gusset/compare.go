package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/compare"
	"gusset/internal/docket"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/sheet"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// compareCmd lays two versions of a garment over each other.
type compareCmd struct {
	docketArg
	Other   string `arg:"" optional:"" help:"Another docket, to compare with." type:"path"`
	From    string `help:"The first version: printed (the nearest printed size), size:LABEL, sized (the body's sizes), changed, or the name of a step, after which to look." placeholder:"VERSION"`
	To      string `help:"The second version, in the same words; of the other docket where there is one." placeholder:"VERSION"`
	Level   string `help:"Lay the pieces on each other at this level; else they lie as drawn."`
	Since   bool   `help:"Compare with the docket of the make that this one follows." xor:"other"`
	All     bool   `help:"Print what does not differ as well."`
	digest  string // of the second version
	Picture string `help:"Draw them over each other into FILE.svg, FILE.png or FILE.pdf." placeholder:"FILE" type:"path"`
}

// leastTold is the difference, in mm, from which a measure is printed.
const leastTold = 0.05

func (c *compareCmd) Run(s *session) error {
	if ending := filepath.Ext(c.Picture); c.Picture != "" && ending != ".pdf" && pictures[ending] == nil {
		return fmt.Errorf("%s: a picture's file ends in .svg, .png or .pdf", c.Picture)
	}
	second := c.docketArg
	from, to := "sized", "changed"
	if c.Other != "" {
		second.Docket, from = c.Other, "changed"
	}
	if c.From != "" {
		from = c.From
	}
	if c.To != "" {
		to = c.To
	}
	if c.Since {
		if err := c.since(&second); err != nil {
			return err
		}
		from = "changed"
	}
	first := c.docketArg
	if c.Since {
		first, second = second, first
	}
	in, a, found, err := c.version(s, first, from)
	if err != nil {
		return err
	}
	other, b, more, err := c.version(s, second, to)
	if err != nil {
		return err
	}
	two := c.Other != "" || c.Since
	if two {
		a.Name, b.Name = "docket "+in.Docket.Name+", "+a.Name, "docket "+docketName(second.Docket)+", "+b.Name
	}
	found = append(found, more...)
	if found.Stops() > 0 && (len(a.Garment.Pieces) == 0 || len(b.Garment.Pieces) == 0) {
		return findings(s, c.JSON, found)
	}
	r := compare.Compare(a, b, c.Level)
	if c.JSON {
		err = printJSON(s, compareWords(r))
	} else {
		printComparison(s.out, r, c.All)
		if two {
			inWords(s, in.Docket, other.Docket)
		}
	}
	if err == nil && c.Picture != "" {
		err = c.draw(s, in, r)
	}
	if err != nil {
		return err
	}
	// A step that was refused is not in the version that it was asked for.
	stops := finding.List(slices.DeleteFunc(slices.Clone(found), func(f finding.Finding) bool { return f.Severity() != finding.Stop }))
	return findings(s, c.JSON, stops)
}

// version makes a docket as far as a version of its pieces.
func (c *compareCmd) version(s *session, d docketArg, word string) (making.Inputs, compare.Version, finding.List, error) {
	in, found, err := d.open()
	if err != nil || found.Stops() > 0 {
		return in, compare.Version{}, found, err
	}
	v := compare.Version{Name: word}
	switch label, sized := strings.CutPrefix(word, "size:"); {
	case sized:
		in.Docket.Size, in.Docket.Changes, v.Name = docket.Size{All: label}, nil, "size "+label
	case word == "printed":
		r := making.Run(s.ctx, in, making.Fit, making.Effort{}, nil)
		zones := r.Sized.Zones()
		if len(zones) == 0 {
			return in, v, r.Findings, nil
		}
		label := zones[0].Nearest
		for _, z := range zones {
			if z.From == "chart" && string(in.Pattern.Choose) == z.Zone {
				label = z.Nearest
			}
		}
		in.Docket.Size, in.Docket.Changes, v.Name = docket.Size{All: label}, nil, "printed size "+label
	case word == "sized":
		in.Docket.Changes, v.Name = nil, "sized for "+in.Body.Title
	case word == "changed":
	default:
		k := slices.IndexFunc(in.Docket.Changes, func(x docket.Change) bool { return x.ID == word })
		if k < 0 {
			return in, v, nil, fmt.Errorf("docket %s has no step called %s: say printed, size:LABEL, sized, changed or a step", in.Docket.Name, word)
		}
		in.Docket.Changes, v.Name = in.Docket.Changes[:k+1], "after "+word
	}
	r := making.Run(s.ctx, in, making.Change, making.Effort{}, nil)
	v.Garment = titled(r.Changed.Garment())
	c.digest = r.Digest
	return in, v, append(found, r.Findings...), nil
}

// titled gives each piece its title where it has none.
func titled(g pattern.Garment) pattern.Garment {
	g = g.Clone()
	for name, p := range g.Pieces {
		if p.Title == "" {
			p.Title = name
			g.Pieces[name] = p
		}
	}
	return g
}

// since names the docket that this one follows.
func (c *compareCmd) since(d *docketArg) error {
	in, found, err := c.open()
	switch {
	case err != nil:
		return err
	case in.Docket.After == "":
		return fmt.Errorf("docket %s follows no other: it has no after (%d findings)", docketName(c.Docket), len(found))
	}
	d.Docket = filepath.Join(filepath.Dir(c.Docket), in.Docket.After+".yaml")
	return nil
}

func docketName(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}

func printComparison(w io.Writer, r compare.Report, all bool) {
	fmt.Fprintf(w, "A  %s\nB  %s\n", r.A, r.B)
	rows := func(head string, list []compare.Row, least float64) bool {
		any := false
		for _, x := range list {
			if !all && !x.Differs(least) {
				continue
			}
			any = true
			fmt.Fprintf(w, "  %-28s %10s %10s %10s\n", head+x.What, measure(x.A), measure(x.B), signed(x.By()))
		}
		return any
	}
	fmt.Fprintf(w, "\n%-30s %10s %10s %10s\n", "in mm", "A", "B", "B - A")
	fmt.Fprintln(w, "girth, measured round")
	if !rows("", r.Girths, leastTold) {
		fmt.Fprintln(w, "  no girth differs")
	}
	var same []string
	for _, p := range r.Pieces {
		switch only := p.Only(); {
		case only != "":
			fmt.Fprintf(w, "%s: only in %s\n", p.Title, only)
			continue
		case p.Same(leastTold) && !all:
			same = append(same, p.Name)
			continue
		}
		fmt.Fprintf(w, "%s: %s\n", p.Title, howApart(p))
		if p.Whole != "" {
			continue
		}
		rows("across at ", p.Levels, leastTold)
		rows("above the hem, ", p.Heights, leastTold)
		rows("along ", p.Edges, leastTold)
	}
	if len(same) > 0 {
		fmt.Fprintf(w, "the same in both: %s\n", strings.Join(same, ", "))
	}
}

// howApart says in one line how two versions of a piece differ.
func howApart(p compare.Piece) string {
	words := p.Otherwise()
	switch {
	case p.Whole != "":
		words = append([]string{"a part of " + p.Whole + " as it was"}, words...)
	case p.Apart >= leastTold || len(words) == 0:
		words = append([]string{fmt.Sprintf("up to %.1f mm apart, at %s", p.Apart, p.Edge)}, words...)
	}
	return strings.Join(words, "; ")
}

func measure(mm float64) string {
	if math.IsNaN(mm) {
		return "-"
	}
	return fmt.Sprintf("%.1f", mm)
}

func signed(mm float64) string {
	if math.IsNaN(mm) {
		return "-"
	}
	if math.Abs(mm) < 0.05 {
		return "0.0"
	}
	return fmt.Sprintf("%+.1f", mm)
}

// compareWords is the comparison as JSON has it; a measure that one version
// lacks is left out.
func compareWords(r compare.Report) map[string]any {
	row := func(list []compare.Row) []map[string]any {
		out := []map[string]any{}
		for _, x := range list {
			m := map[string]any{"what": x.What}
			for key, v := range map[string]float64{"a": x.A, "b": x.B, "by": x.By()} {
				if !math.IsNaN(v) {
					m[key] = v
				}
			}
			out = append(out, m)
		}
		return out
	}
	var pieces []map[string]any
	for _, p := range r.Pieces {
		m := map[string]any{"piece": p.Name, "title": p.Title}
		if only := p.Only(); only != "" {
			m["only"] = only
		} else {
			m["apart"], m["edge"] = p.Apart, p.Edge
			m["allowances"], m["part-of"] = row(p.Allowances), p.Whole
			if p.Cut[0] != p.Cut[1] {
				m["cut"] = p.Cut[:]
			}
			m["levels"], m["heights"], m["edges"] = row(p.Levels), row(p.Heights), row(p.Edges)
		}
		pieces = append(pieces, m)
	}
	return map[string]any{"a": r.A, "b": r.B, "girths": row(r.Girths), "pieces": pieces}
}

// draw draws the comparison into the picture's file.
func (c *compareCmd) draw(s *session, in making.Inputs, r compare.Report) error {
	page := sheet.Comparison(sheet.Heading{Docket: in.Docket.Title, Digest: c.digest, Unit: unit.Millimetre}, r, draw.A4)
	var b bytes.Buffer
	var err error
	if ending := filepath.Ext(c.Picture); ending == ".pdf" {
		err = draw.PDF(&b, draw.Doc{Title: "Comparison: " + in.Docket.Title, Pages: []draw.Page{page}})
	} else {
		err = pictures[ending](&b, page)
	}
	if err != nil {
		return err
	}
	if err := source.WriteFile(c.Picture, b.Bytes()); err != nil {
		return errors.Join(fmt.Errorf("picture %s cannot be written", c.Picture), err)
	}
	fmt.Fprintf(s.err, "picture %s\n", c.Picture)
	return nil
}
