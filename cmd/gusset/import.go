package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/exchange"
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// importCmd takes pieces in from open formats.
type importCmd struct {
	Files     []string          `arg:"" help:"DXF, SVG or PDF files, or taped pieces (.yaml)."`
	To        string            `help:"The folder for the pattern: WORKROOM/patterns/NAME. What is there already is not touched." required:""`
	Title     string            `help:"What the pattern is called."`
	Unit      string            `help:"Unit of a DXF that does not say it: mm, cm or in." enum:",mm,cm,in" default:""`
	Sizes     []string          `help:"Take in these sizes only; one label for a file that names none."`
	Line      string            `help:"What the outlines are, where the file does not say: stitching or cutting." enum:",stitching,cutting" default:""`
	Allowance string            `help:"With --line cutting: the allowance inside the outline, such as 15mm."`
	Tiles     string            `help:"Of a PDF whose drawing was cut at the borders of its sheets: how they lie, columns x rows, such as 4x3."`
	Window    string            `help:"With --tiles: the part of each sheet, in its middle, that shows the drawing, such as 190mmx277mm."`
	Name      map[string]string `help:"Call an edge otherwise than proposed: front:right=outseam." mapsep:","`
	Preview   string            `help:"The picture (.png) of what comes in; without it, it stands beside the folder." type:"path"`
	JSON      bool              `name:"json" help:"Print JSON."`
}

func (c *importCmd) Run(s *session) error {
	said, err := c.said()
	if err != nil {
		return err
	}
	if _, err := os.Stat(c.To); err == nil {
		return fmt.Errorf("%s is there already: take pieces into a folder of their own", c.To)
	}
	style, found, err := c.read()
	if err != nil {
		return err
	}
	var pieces []exchange.Graded
	var sizes []string
	if found.Stops() == 0 {
		var told finding.List
		pieces, sizes, told = exchange.Grade(style, c.Sizes, c.Name)
		found = append(found, told...)
	}
	if said.Title == "" {
		said.Title = style.Title
	}
	if said.Title == "" {
		said.Title = strings.ReplaceAll(filepath.Base(c.To), "-", " ")
	}
	if found.Stops() == 0 {
		if err := source.WriteAll(c.To, exchange.Folder(pieces, sizes, said)); err != nil {
			return err
		}
		picture, err := exchange.Preview(pieces, sizes)
		if err != nil {
			return err
		}
		if err := source.WriteFile(c.preview(), picture); err != nil {
			return err
		}
	}
	if c.JSON {
		if err := printJSON(s, importReport(c.To, pieces, sizes, found)); err != nil {
			return err
		}
		return ended(found)
	}
	if found.Stops() == 0 {
		c.print(s, pieces, sizes)
	}
	return findings(s, false, found)
}

// preview is where the picture goes.
func (c *importCmd) preview() string {
	if c.Preview != "" {
		return c.Preview
	}
	return filepath.Clean(c.To) + "-preview.png"
}

// said is what the flags say of the pieces.
func (c *importCmd) said() (exchange.Said, error) {
	var from []string
	for _, f := range c.Files {
		from = append(from, filepath.Base(f))
	}
	said := exchange.Said{Title: c.Title, From: strings.Join(from, ", "), Line: c.Line}
	if (c.Line == "cutting") != (c.Allowance != "") {
		return said, fmt.Errorf("--line cutting and --allowance go together")
	}
	if c.Allowance != "" {
		a, err := unit.Parse(c.Allowance, "")
		if err != nil {
			return said, fmt.Errorf("--allowance: %w", err)
		}
		if a.MM() < 0 || a.MM() > 300 {
			return said, fmt.Errorf("--allowance %s: it must be between 0 and 300 mm", a)
		}
		said.Allowance = a
	}
	return said, nil
}

// tiles is how the sheets of a PDF lie.
func (c *importCmd) tiles() (exchange.Tiles, error) {
	var t exchange.Tiles
	if (c.Tiles == "") != (c.Window == "") {
		return t, fmt.Errorf("--tiles and --window go together")
	}
	if c.Tiles == "" {
		return t, nil
	}
	if n, err := fmt.Sscanf(c.Tiles, "%dx%d", &t.Columns, &t.Rows); n != 2 || err != nil || t.Columns < 1 || t.Rows < 1 || t.Columns > 100 || t.Rows > 100 {
		return t, fmt.Errorf("--tiles %s: write columns x rows, such as 4x3", c.Tiles)
	}
	w, h, ok := strings.Cut(c.Window, "x")
	a, err1 := unit.Parse(w, unit.Millimetre)
	b, err2 := unit.Parse(h, unit.Millimetre)
	if !ok || err1 != nil || err2 != nil || a.MM() < 20 || b.MM() < 20 {
		return t, fmt.Errorf("--window %s: write its width and height, such as 190mmx277mm", c.Window)
	}
	t.Width, t.Height = a.MM(), b.MM()
	return t, nil
}

// read reads every file by its ending, as one style.
func (c *importCmd) read() (exchange.Style, finding.List, error) {
	var style exchange.Style
	var found finding.List
	for _, name := range c.Files {
		f, err := exchange.ReadFile(name)
		if err != nil {
			return style, found, err
		}
		tiles, err := c.tiles()
		if err != nil {
			return style, found, err
		}
		one, told, ok := exchange.Read(f, exchange.Options{Unit: unit.Unit(c.Unit), Tiles: tiles})
		if !ok {
			return style, found, fmt.Errorf("%s: pieces are read from .dxf, .svg, .pdf and .yaml files", name)
		}
		found = append(found, told...)
		style = style.With(one)
	}
	return style, found, nil
}

func (c *importCmd) print(s *session, pieces []exchange.Graded, sizes []string) {
	many := "pieces"
	if len(pieces) == 1 {
		many = "piece"
	}
	fmt.Fprintf(s.out, "%s  %d %s, size %s\n\n", c.To, len(pieces), many, strings.Join(sizes, ", "))
	fmt.Fprintf(s.out, "%-18s %-9s %s\n", "piece", "line", "edges, counter-clockwise")
	for _, p := range pieces {
		line := "?"
		if p.Sewn {
			line = "stitching"
		}
		fmt.Fprintf(s.out, "%-18s %-9s %s\n", p.Name, line, strings.Join(edgeList(p), ", "))
	}
	if joins := exchange.Propose(pieces); len(joins) > 0 {
		fmt.Fprintf(s.out, "\njoins that the shapes suggest (none is taken as sewn until you say so in pattern.yaml)\n")
		for _, j := range joins {
			fmt.Fprintf(s.out, "%-44s %s\n", j.Side(0)+" with "+j.Side(1), j.Why())
		}
	}
	fmt.Fprintf(s.out, "\npreview  %s\nnow say in %s what is marked SAY\n", c.preview(), filepath.Join(c.To, "pattern.yaml"))
}

// edgeList are the edges of a piece with their lengths in the middle size.
func edgeList(p exchange.Graded) []string {
	var out []string
	for i, e := range p.In[len(p.In)/2].Edges {
		name := e.Name
		if !p.Own[i] {
			name += "?"
		}
		out = append(out, fmt.Sprintf("%s %.1f", name, e.Curve.Length()))
	}
	return out
}

func importReport(to string, pieces []exchange.Graded, sizes []string, found finding.List) map[string]any {
	list := []map[string]any{}
	for _, p := range pieces {
		list = append(list, map[string]any{"piece": p.Name, "edges": p.In[0].EdgeNames(), "stitching": p.Sewn, "fold-edge": p.FoldEdge})
	}
	joins := []map[string]any{}
	for _, j := range exchange.Propose(pieces) {
		joins = append(joins, map[string]any{"sew": []string{j.Side(0), j.Side(1)}, "ease": j.Ease(), "why": j.Why()})
	}
	return map[string]any{"folder": to, "sizes": slices.Clone(sizes), "pieces": list, "proposed": joins, "findings": found}
}
