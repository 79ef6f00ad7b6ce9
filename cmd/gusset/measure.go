package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"gusset/internal/body"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/sheet"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// measureCmd says how measures are taken, or what is to be thought of those of
// a body.
type measureCmd struct {
	Body    string `arg:"" optional:"" help:"A body file; without one, how every measure is taken."`
	Pattern string `help:"A pattern.yaml: only the measures that it asks for."`
	Out     string `help:"Folder to write measures.pdf to: the figures, how each measure is taken and room for readings." type:"path"`
	Paper   string `help:"Paper of the sheet: a4 or letter." enum:"a4,letter" default:"a4"`
	Unit    string `help:"Unit of blank readings and of estimates: cm or in." enum:"cm,in" default:"cm"`
	JSON    bool   `name:"json" help:"Print JSON."`
}

func (c *measureCmd) Run(s *session) error {
	var b body.Body
	var found finding.List
	if c.Body != "" {
		f, err := readFile(c.Body)
		if err != nil {
			return err
		}
		b, found = body.Load(f)
	}
	asked, patternFound, err := c.asked()
	if err != nil {
		return err
	}
	found = append(found, patternFound...)
	if err := c.print(s, b, asked, found); err != nil {
		return err
	}
	if c.Out != "" && found.Stops() == 0 {
		if err := c.sheet(s, b, asked); err != nil {
			return err
		}
	}
	return findings(s, c.JSON, found)
}

// asked lists the measures that the pattern asks for, all without one.
func (c *measureCmd) asked() ([]body.Measure, finding.List, error) {
	if c.Pattern == "" {
		return body.Measures(), nil, nil
	}
	f, err := readFile(c.Pattern)
	if err != nil {
		return nil, nil, err
	}
	dir := filepath.Dir(c.Pattern)
	p, found := pattern.Load(f, func(name string) (source.File, error) { return readFile(filepath.Join(dir, name)) })
	return p.Asks(), found.AtLeast(finding.Stop), nil
}

// readFile reads a file that the user names, no more of it than is needed to
// refuse it for its size.
func readFile(name string) (source.File, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return source.File{}, fmt.Errorf("there is no file %s", name)
	} else if err != nil {
		return source.File{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, source.MaxSVG+1))
	return source.File{Path: filepath.ToSlash(name), Data: data}, err
}

func (c *measureCmd) print(s *session, b body.Body, asked []body.Measure, found finding.List) error {
	compared := body.Compare(b)
	if c.JSON {
		return printJSON(s, map[string]any{"takings": takings(asked), "rows": compared.Rows, "groups": compared.Groups, "findings": found})
	}
	if c.Body == "" {
		printTakings(s.out, asked)
		return nil
	}
	printCompared(s.out, b, compared, asked, unit.Unit(c.Unit))
	return nil
}

func takings(asked []body.Measure) []body.Taking {
	return slices.DeleteFunc(slices.Clone(body.Takings), func(t body.Taking) bool { return !slices.Contains(asked, t.Measure) })
}

// printTakings says how measures are taken.
func printTakings(w io.Writer, asked []body.Measure) {
	for _, line := range wrapped(body.Preparing, 100) {
		fmt.Fprintln(w, line)
	}
	for _, t := range takings(asked) {
		times := ""
		if slices.Contains(body.ReadTwice, t.Measure) {
			times = ", read twice"
		}
		fmt.Fprintf(w, "\n%2d  %s (%s)%s\n", body.NumberOf(t.Measure), t.Measure, t.Title, times)
		for _, line := range wrapped(t.How, 92) {
			fmt.Fprintf(w, "    %s\n", line)
		}
		if t.Slip != "" {
			fmt.Fprintf(w, "    beware: %s\n", t.Slip)
		}
		fmt.Fprintf(w, "    source: %s\n", t.Source)
	}
}

// printCompared holds the body's measures against the figures.
func printCompared(w io.Writer, b body.Body, c body.Comparison, asked []body.Measure, u unit.Unit) {
	against := "a child, not held against figures"
	if len(c.Groups) > 0 {
		against = "held against figures of " + strings.Join(c.Groups, " and ")
	}
	fmt.Fprintf(w, "%s, %s\n\n%-20s %-14s %-24s %s\n", b.Title, against, "measure", "measured", "beside the others", "")
	var missing []string
	for _, t := range takings(asked) {
		r := c.Row(t.Measure)
		if r.Verdict == body.MeasureIt {
			missing = append(missing, string(t.Measure))
			continue
		}
		fmt.Fprintln(w, strings.TrimRight(comparedLine(b, r, u), " "))
	}
	if len(missing) > 0 {
		fmt.Fprintln(w)
		for _, line := range wrapped("measure this, no estimate is good enough: "+strings.Join(missing, ", "), 100) {
			fmt.Fprintln(w, line)
		}
	}
	fmt.Fprintln(w, "\nOf ten adults with the other measures, nine lie within ±.")
	for _, line := range wrapped(body.SurveyNote, 100) {
		fmt.Fprintln(w, line)
	}
}

// comparedLine is one measure in the unit it was read in, or that asked for.
func comparedLine(b body.Body, r body.Row, u unit.Unit) string {
	measured, usual := "-", ""
	if r.Given {
		measured, u = b.Measures[r.Measure].String(), b.Measures[r.Measure].Unit()
	}
	if r.Within > 0 {
		usual = unit.Format(r.Usual, u) + " ± " + unit.Format(r.Within, u)
	}
	return fmt.Sprintf("%2d %-17s %-14s %-24s %s", body.NumberOf(r.Measure), r.Measure, measured, usual, r.Verdict)
}

// wrapped breaks text between words into lines of at most so many letters.
func wrapped(text string, letters int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line+" "+word)) > letters {
			lines = append(lines, line)
			line = ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
}

// sheet writes the sheet to measure with.
func (c *measureCmd) sheet(s *session, b body.Body, asked []body.Measure) error {
	data, err := making.DrawSheet(func() (draw.Doc, error) { return sheet.Measuring(b, asked, unit.Unit(c.Unit), papers[c.Paper]) })
	if err != nil {
		return err
	}
	if err := source.WriteAll(c.Out, map[string][]byte{"measures.pdf": data}); err != nil {
		return err
	}
	if !c.JSON {
		fmt.Fprintf(s.out, "\nsheet    %s\n", filepath.Join(c.Out, "measures.pdf"))
	}
	return nil
}
