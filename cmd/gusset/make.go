package main

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/making"
	"gusset/internal/source"
)

// makeCmd runs everything and writes the sheets.
type makeCmd struct {
	docketArg
	effort
	Out   string `help:"Folder for the sheets; a folder for each docket is made in it." default:"out" type:"path"`
	Paper string `help:"Paper for lay, work card, needs and docket: a4 or letter." enum:"a4,letter" default:"a4"`
}

var papers = map[string]draw.Paper{"a4": draw.A4, "letter": draw.Letter}

func (c *makeCmd) Run(s *session) error {
	in, r, err := c.run(s, making.Needs, c.making())
	if err != nil {
		return err
	}
	var files map[string][]byte
	if r.Findings.Stops() == 0 {
		drawn, found, err := making.Sheets(in, r, papers[c.Paper])
		if err != nil {
			return err
		}
		files = drawn
		r.Findings = append(r.Findings, found...)
	}
	dir := filepath.Join(c.Out, in.Docket.Name)
	if c.JSON {
		if err := printJSON(s, map[string]any{"digest": r.Digest, "sheets": slices.Sorted(maps.Keys(files)), "findings": r.Findings}); err != nil {
			return err
		}
	} else {
		report(s.out, in, r)
		if err := findings(s, false, r.Findings); err != nil {
			return err
		}
	}
	if r.Findings.Stops() > 0 {
		return errStops
	}
	if err := source.WriteAll(dir, files); err != nil {
		return err
	}
	if !c.JSON {
		fmt.Fprintf(s.out, "\nsheets   %s/{%s}.pdf\n", dir, strings.ReplaceAll(strings.Join(slices.Sorted(maps.Keys(files)), ","), ".pdf", ""))
	}
	return nil
}
