package main

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"gusset/demo"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// effort is how long to look for a better lay.
type effort struct {
	Rounds int    `help:"Passes of the search for a better lay of each section." default:"200"`
	Seed   uint64 `help:"The same seed and rounds give the same lay." default:"1"`
}

// Validate refuses what is no number of passes.
func (e effort) Validate() error {
	if e.Rounds < 0 {
		return fmt.Errorf("--rounds %d: passes are 0 or more, and 0 keeps the first lay", e.Rounds)
	}
	return nil
}

func (e effort) making() making.Effort { return making.Effort{Rounds: e.Rounds, Seed: e.Seed} }

// findings prints the findings after the report.
func findings(s *session, asJSON bool, found finding.List) error {
	if asJSON {
		return ended(found)
	}
	if len(found) > 0 {
		fmt.Fprintln(s.out)
		if err := finding.WriteText(s.out, found.Sorted()); err != nil {
			return err
		}
	}
	if found.Has("lay.short") {
		fmt.Fprintln(s.out, "gusset advise, with the same docket, says what would make the cloth suffice")
	}
	return ended(found)
}

func printJSON(s *session, v any) error {
	enc := json.NewEncoder(s.out)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

type checkCmd struct {
	docketArg
	effort
}

func (c *checkCmd) Run(s *session) error {
	_, r, err := c.run(s, making.Needs, c.making())
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(s, map[string]any{"digest": r.Digest, "findings": r.Findings}); err != nil {
			return err
		}
	}
	return findings(s, c.JSON, r.Findings)
}

type walkCmd struct{ docketArg }

func (c *walkCmd) Run(s *session) error {
	_, r, err := c.run(s, making.Walk, making.Effort{})
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(s, map[string]any{"seams": r.Walked.Seams(), "findings": r.Findings}); err != nil {
			return err
		}
		return ended(r.Findings)
	}
	fmt.Fprintf(s.out, "%-26s %10s %10s  %s\n", "seam", "length mm", "gap mm", "notches")
	for _, w := range r.Walked.Seams() {
		var notches []string
		for _, n := range w.Notches {
			notches = append(notches, fmt.Sprintf("%s at %.1f", n.Name, n.At[0]))
		}
		fmt.Fprintf(s.out, "%-26s %10.1f %10.2f  %s\n", w.Seam.ID, w.Lengths[0], w.Widest(), strings.Join(notches, ", "))
	}
	return findings(s, false, r.Findings)
}

type needsCmd struct{ docketArg }

func (c *needsCmd) Run(s *session) error {
	in, r, err := c.run(s, making.Needs, making.Effort{})
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(s, map[string]any{"spools": r.Needs.Spools(), "threads": r.Needs.Threads(), "items": r.Needs.Items(), "findings": r.Findings}); err != nil {
			return err
		}
		return ended(r.Findings)
	}
	for _, p := range r.Needs.Spools() {
		fmt.Fprintf(s.out, "%-32s %10s  %s\n", p.Title(), unit.Format(p.Length, unit.Metre), strings.Join(p.Parts, " and "))
	}
	fmt.Fprintln(s.out)
	for _, t := range r.Needs.Threads() {
		fmt.Fprintf(s.out, "%-32s %10s\n", t.Name, unit.Format(t.Length, unit.Metre))
	}
	fmt.Fprintln(s.out)
	for _, i := range r.Needs.Items() {
		many, long := "", ""
		if i.Count > 0 {
			many = fmt.Sprint(i.Count)
		}
		if i.Length > 0 {
			long = unit.Format(i.Length, in.Docket.Unit)
		}
		fmt.Fprintf(s.out, "%-32s %3s %10s  %s\n", i.Title, many, long, i.Note)
	}
	return findings(s, false, r.Findings)
}

type newCmd struct {
	Folder string `arg:"" help:"The folder to start the workroom in; it must not exist." type:"path"`
}

// Run copies the demo's workroom.
func (c *newCmd) Run(s *session) error {
	if _, err := os.Stat(c.Folder); err == nil {
		return fmt.Errorf("%s is there already", c.Folder)
	}
	err := fs.WalkDir(demo.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo.Files, name)
		if err != nil {
			return err
		}
		to := filepath.Join(c.Folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			return err
		}
		return source.WriteFile(to, data)
	})
	if err == nil {
		fmt.Fprintf(s.out, "workroom %s: try gusset make %s\n", c.Folder, filepath.Join(c.Folder, "dockets", "quay-long.yaml"))
	}
	return err
}
