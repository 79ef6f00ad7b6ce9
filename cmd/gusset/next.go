package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"gusset/internal/advise"
	"gusset/internal/compare"
	"gusset/internal/docket"
	"gusset/internal/source"
)

// nextCmd answers a docket's notes.
type nextCmd struct {
	docketArg
	Write string `help:"Write the docket of the next make as NAME, with the proposed steps; this one is kept as it is." placeholder:"NAME"`
}

// nameForm is how a docket may be called.
var nameForm = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,63}$`)

func (c *nextCmd) Run(s *session) error {
	if c.Write != "" && !nameForm.MatchString(c.Write) {
		return fmt.Errorf("--write %s: a docket's name has small letters, digits and hyphens", c.Write)
	}
	in, found, err := c.open()
	if err != nil {
		return err
	}
	if found.Stops() > 0 {
		return findings(s, c.JSON, found)
	}
	all := advise.Next(s.ctx, in)
	if c.JSON {
		var list []map[string]any
		for _, p := range all {
			m := map[string]any{"note": p.Note.ID, "at": p.Note.Spot.String(), "feels": p.Note.Feel, "by": p.Note.By.String()}
			if p.Change.Kind != "" {
				m["step"], m["text"], m["effect"] = docket.Written(p.Change), p.Text, compareWords(p.Effect)
			} else {
				m["why"] = p.Why
			}
			list = append(list, m)
		}
		if err := printJSON(s, map[string]any{"proposals": list}); err != nil {
			return err
		}
	} else {
		c.print(s, all)
	}
	if c.Write == "" || len(all) == 0 {
		return nil
	}
	return c.write(s, in.Docket, all)
}

func (c *nextCmd) print(s *session, all []advise.Proposal) {
	if len(all) == 0 {
		fmt.Fprintln(s.out, "the docket has no notes: write what the fitting showed under notes")
	}
	for _, p := range all {
		fmt.Fprintf(s.out, "%s: %s by %s at %s", p.Note.ID, p.Note.Feel, p.Note.By, p.Note.Spot)
		if p.Note.Text != "" {
			fmt.Fprintf(s.out, " (%s)", p.Note.Text)
		}
		fmt.Fprintln(s.out)
		if p.Change.Kind == "" {
			fmt.Fprintf(s.out, "  no answer: %s\n", p.Why)
			continue
		}
		fmt.Fprintf(s.out, "  step   - %s\n  does   %s\n", docket.Written(p.Change), p.Text)
		for _, line := range effects(p.Effect) {
			fmt.Fprintf(s.out, "  then   %s\n", line)
		}
	}
}

// effects says what a change comes to: the girths that differ, and the pieces.
func effects(r compare.Report) []string {
	var out []string
	for _, g := range r.Girths {
		if g.Differs(leastTold) {
			out = append(out, g.Line("mm")+" round")
		}
	}
	var pieces []string
	for _, p := range r.Pieces {
		if p.Apart >= leastTold && p.Only() == "" {
			pieces = append(pieces, fmt.Sprintf("%s up to %.1f mm at %s", p.Name, p.Apart, p.Edge))
		}
		if other := p.Otherwise(); len(other) > 0 {
			out = append(out, p.Name+" "+strings.Join(other, ", "))
		}
	}
	if len(pieces) > 0 {
		out = append(out, "moved: "+strings.Join(pieces, ", "))
	}
	return out
}

// write writes the next docket beside this one: the same text with the steps
// added, without the notes that they answer, and naming the docket it follows.
func (c *nextCmd) write(s *session, d docket.Docket, all []advise.Proposal) error {
	path := filepath.Join(filepath.Dir(c.Docket), c.Write+".yaml")
	if _, err := os.Stat(path); err == nil {
		return fmt.Errorf("%s is there already: the dockets of makes are kept", path)
	}
	data, err := os.ReadFile(c.Docket)
	if err != nil {
		return err
	}
	var steps []docket.Change
	for _, p := range all {
		if p.Change.Kind != "" {
			steps = append(steps, p.Change)
		}
	}
	text := nextText(string(data), d.Name, steps)
	read, found := docket.Load(source.File{Path: "dockets/" + c.Write + ".yaml", Data: []byte(text)})
	if found.Stops() > 0 || read.After != d.Name || len(read.Changes) != len(d.Changes)+len(steps) {
		return errors.New("this docket is written in a way that steps cannot be added to by the program: add them by hand")
	}
	if err := source.WriteFile(path, []byte(text)); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "docket %s\n", path)
	return nil
}

// topKey is the beginning of a key of the docket itself.
var topKey = regexp.MustCompile(`^([a-z-]+):(.*)$`)

// nextText is the text of a docket with steps added to its recipe, its notes left
// out, and the docket named that it follows.
func nextText(text, after string, steps []docket.Change) string {
	var blocks [][]string
	keys := []string{""}
	blocks = append(blocks, nil)
	for _, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if m := topKey.FindStringSubmatch(line); m != nil {
			keys, blocks = append(keys, m[1]), append(blocks, nil)
		}
		blocks[len(blocks)-1] = append(blocks[len(blocks)-1], line)
	}
	var lines []string
	for _, x := range steps {
		lines = append(lines, "  - "+docket.Written(x))
	}
	if i := slices.Index(keys, "changes"); i >= 0 {
		blocks[i] = append(blocks[i], lines...)
	} else if len(lines) > 0 {
		keys, blocks = append(keys, "changes"), append(blocks, append([]string{"changes:"}, lines...))
	}
	var out []string
	for i, k := range keys {
		if k == "notes" || k == "after" {
			continue
		}
		out = append(out, blocks[i]...)
	}
	return strings.Join(append(out, "after: "+after), "\n") + "\n"
}

// inWords prints how two dockets differ in what they ask for.
func inWords(s *session, a, b docket.Docket) {
	if lines := docket.Diff(a, b); len(lines) > 0 {
		fmt.Fprintln(s.out, "\nin words, B against A")
		for _, l := range lines {
			fmt.Fprintf(s.out, "  %s\n", l)
		}
	}
}
