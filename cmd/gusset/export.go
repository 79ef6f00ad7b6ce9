package main

import (
	"bytes"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"

	"gusset/internal/exchange"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// exportCmd gives pieces out in an open format.
type exportCmd struct {
	What   string   `arg:"" help:"A docket (WORKROOM/dockets/NAME.yaml), for its cut pieces, or a pattern's folder, for all its sizes."`
	Format string   `help:"dxf (ASTM D6673), svg or pdf." enum:"dxf,svg,pdf" required:""`
	To     string   `help:"The file to write; NAME.FORMAT in the folder out when left out."`
	Unit   string   `help:"Unit of a DXF: mm or in." enum:"mm,in" default:"mm"`
	Sizes  []string `help:"Of a pattern, these sizes only."`
	Paper  string   `help:"Paper of a PDF: roll (one large page), a4 or letter." enum:"roll,a4,letter" default:"roll"`
	JSON   bool     `name:"json" help:"Print JSON."`
}

func (c *exportCmd) Run(s *session) error {
	style, name, found, err := c.style(s)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if found.Stops() == 0 {
		switch c.Format {
		case "dxf":
			err = exchange.WriteDXF(&b, style, unit.Unit(c.Unit))
		case "svg":
			err = exchange.WriteSVG(&b, style)
		case "pdf":
			err = exchange.WritePDF(&b, style, papers[c.Paper]) // the roll has no paper of its own
		}
		if err != nil {
			return err
		}
	}
	to := c.To
	if to == "" {
		to = filepath.Join("out", name+"."+c.Format)
	}
	if found.Stops() == 0 {
		if err := source.WriteAll(filepath.Dir(to), map[string][]byte{filepath.Base(to): b.Bytes()}); err != nil {
			return err
		}
	}
	if c.JSON {
		if err := printJSON(s, map[string]any{"file": to, "pieces": len(style.Parts), "sizes": style.Sizes, "findings": found}); err != nil {
			return err
		}
		return ended(found)
	}
	if found.Stops() == 0 {
		fmt.Fprintf(s.out, "%s  %d outlines, size %s\n", to, len(style.Parts), strings.Join(style.Sizes, ", "))
	}
	return findings(s, false, found)
}

// style is what is to go out, with a name for its file.
func (c *exportCmd) style(s *session) (exchange.Style, string, finding.List, error) {
	info, err := os.Stat(c.What)
	if err != nil {
		return exchange.Style{}, "", nil, fmt.Errorf("there is no %s", c.What)
	}
	if info.IsDir() {
		return c.pattern(c.What)
	}
	if filepath.Base(c.What) == "pattern.yaml" {
		return c.pattern(filepath.Dir(c.What))
	}
	if len(c.Sizes) > 0 {
		return exchange.Style{}, "", nil, fmt.Errorf("--sizes is for a pattern's folder: a docket has the size it chose")
	}
	in, r, err := docketArg{Docket: c.What}.run(s, making.Finish, making.Effort{})
	if err != nil || r.Findings.Stops() > 0 {
		return exchange.Style{}, "", r.Findings, err
	}
	title, size := madeSize(in, r)
	return exchange.OfCuts(title, size, r.Cut.Pieces()), in.Docket.Name, r.Findings.AtLeast(finding.Stop), nil
}

// madeSize is the title and the size of what goes out: one label where all zones
// agree, otherwise a word, with the label of each zone in the title.
func madeSize(in making.Inputs, r making.Result) (title, size string) {
	zones := r.Sized.Zones()
	var parts []string
	for _, z := range zones {
		if z.Label != zones[0].Label {
			size = ownSize
		}
		parts = append(parts, z.Zone+" "+z.Label)
	}
	if size == "" && len(zones) > 0 {
		return in.Docket.Title, zones[0].Label
	}
	return in.Docket.Title + ", " + strings.Join(parts, ", "), ownSize
}

// ownSize is the label of pieces whose size differs from level to level.
const ownSize = "own"

func (c *exportCmd) pattern(folder string) (exchange.Style, string, finding.List, error) {
	p, found, err := openPattern(folder)
	if err != nil || found.Stops() > 0 {
		return exchange.Style{}, "", found, err
	}
	for _, size := range c.Sizes {
		if p.SizeIndex(size) < 0 {
			return exchange.Style{}, "", nil, fmt.Errorf("%s has no size %s: it has %s", p.Name, size, strings.Join(p.Sizes, ", "))
		}
	}
	style, told := exchange.OfPattern(p, c.Sizes)
	return style, p.Name, append(found, told...), nil
}

// openPattern reads a pattern by its folder.
func openPattern(folder string) (pattern.Pattern, finding.List, error) {
	name := filepath.Base(filepath.Clean(folder))
	read := func(file string) (source.File, error) {
		return source.Read(filepath.Join(folder, file), path.Join("patterns", name, file))
	}
	f, err := read("pattern.yaml")
	if err != nil {
		return pattern.Pattern{}, nil, fmt.Errorf("%s is no pattern's folder: %w", folder, err)
	}
	p, found := pattern.Load(f, read)
	return p, found, nil
}
