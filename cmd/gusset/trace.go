package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/unit"
)

// traceCmd makes a piece of photographs.
type traceCmd struct {
	Photos  []string `arg:"" name:"photo" help:"Photos of one piece beside calibration cards (JPEG or PNG)." type:"path"`
	Tape    []string `help:"A distance from card to card, cross to cross: \"A-D 118,4 cm\". Repeat it for every reading." sep:"none"`
	To      string   `help:"The piece file (.svg) to write." type:"path"`
	Preview string   `help:"The preview (.png) to write; without it, it stands beside the piece file." type:"path"`
	Size    string   `help:"The size the piece is in." default:"1"`
	Edges   string   `help:"Names of the edges, in the order of the preview: hem,inseam,seat."`
	Grain   int      `help:"The line of the preview that is the grain; without it, the longest that runs as the cards' arrows do."`
	Line    []string `help:"What another line of the preview is: \"2=level.knee\"." sep:"none"`
	Drop    []int    `help:"Notches of the preview that are none: 3,5."`
	Within  string   `help:"How near the lines and curves come to the measured edge." default:"0.25 mm"`
	Sheet   bool     `help:"The photos show an uncut sheet: only write the preview, to read places off its grid."`
	Follow  []string `help:"Follow a printed line of an uncut sheet: a size and places on it in cm of the preview's grid, \"12: 10.5 20; 31 20.4; 30 55\". Repeat it for every size." sep:"none"`
	JSON    bool     `name:"json" help:"Print JSON."`
}

func (c *traceCmd) Run(s *session) error {
	naming, tapes, within, err := c.options()
	if err != nil {
		return err
	}
	photos, found, err := readPhotos(c.Photos)
	if err != nil {
		return err
	}
	if found.Stops() > 0 {
		return c.tell(s, trace.Traced{}, piece.Piece{}, found)
	}
	t, pieces, sizes, more, err := c.trace(photos, tapes, naming, within)
	if err != nil {
		return err
	}
	found = append(found, more...)
	files := map[string][]byte{}
	if len(t.Table.Shots) > 0 {
		if files[c.preview()], err = t.Preview(); err != nil {
			return err
		}
	}
	var p piece.Piece
	if found.Stops() == 0 && len(pieces) > 0 {
		p = pieces[0]
		files[c.To] = trace.File(sizes, pieces)
	}
	for name, data := range files {
		if err := source.WriteFile(name, data); err != nil {
			return err
		}
	}
	return c.tell(s, t, p, found)
}

// trace makes the piece that is asked for: of a cut paper, or of the lines of a
// sheet.
func (c *traceCmd) trace(photos []*photo.Photo, tapes []trace.Tape, n trace.Naming, within float64) (trace.Traced, []piece.Piece, []string, finding.List, error) {
	if !c.Sheet && len(c.Follow) == 0 {
		t, found := trace.Run(photos, tapes, within)
		if found.Stops() > 0 {
			return t, nil, nil, found, nil
		}
		p, more := t.Piece(n)
		return t, []piece.Piece{p}, []string{c.Size}, append(found, more...), nil
	}
	sheet, found := trace.Sheet(photos, tapes)
	if found.Stops() > 0 {
		return sheet, nil, nil, found, nil
	}
	var all []trace.Traced
	var sizes []string
	for _, text := range c.Follow {
		r, err := trace.ParseRoute(text)
		if err != nil {
			return sheet, nil, nil, found, err
		}
		if !sizeForm.MatchString(r.Size) {
			return sheet, nil, nil, found, fmt.Errorf("--follow: size %q: a size has letters and digits", r.Size)
		}
		t, more := sheet.Follow(r, within)
		found = append(found, more...)
		all, sizes = append(all, t), append(sizes, r.Size)
	}
	if len(all) == 0 {
		return sheet, nil, nil, found, nil
	}
	if found.Stops() > 0 {
		return all[0], nil, nil, found, nil
	}
	pieces, more := trace.Sizes(all, sizes, n)
	return all[0], pieces, sizes, append(found, more...), nil
}

func (c *traceCmd) preview() string {
	if c.Preview != "" {
		return c.Preview
	}
	return strings.TrimSuffix(c.To, filepath.Ext(c.To)) + "-preview.png"
}

var (
	sizeForm = regexp.MustCompile(`^[0-9A-Za-z][0-9A-Za-z½¼¾/-]*$`)
	wordForm = regexp.MustCompile(`^[a-z][a-z0-9-]*$`)
)

// options checks what was typed.
func (c *traceCmd) options() (trace.Naming, []trace.Tape, float64, error) {
	n := trace.Naming{Size: c.Size, Grain: c.Grain, Drop: c.Drop, Lines: map[int][2]string{}}
	if filepath.Ext(c.To) != ".svg" {
		return n, nil, 0, errors.New("--to: name the piece file, ending in .svg")
	}
	if n.Piece = strings.TrimSuffix(filepath.Base(c.To), ".svg"); !wordForm.MatchString(n.Piece) {
		return n, nil, 0, fmt.Errorf("--to %s: a piece's name has small letters, digits and hyphens", c.To)
	}
	if !sizeForm.MatchString(c.Size) {
		return n, nil, 0, fmt.Errorf("--size %q: a size has letters and digits", c.Size)
	}
	if c.Edges != "" {
		for _, name := range strings.Split(c.Edges, ",") {
			if name = strings.TrimSpace(name); name != "" && !wordForm.MatchString(name) {
				return n, nil, 0, fmt.Errorf("--edges: %q: an edge's name has small letters, digits and hyphens", name)
			}
			n.Edges = append(n.Edges, name)
		}
	}
	for _, l := range c.Line {
		number, kind, name, ok := lineOption(l)
		if !ok {
			return n, nil, 0, fmt.Errorf("--line %q: write a number of the preview, a kind (%s) and a name, as 2=level.knee", l, kinds())
		}
		n.Lines[number] = [2]string{kind, name}
	}
	var tapes []trace.Tape
	for _, text := range c.Tape {
		t, err := trace.ParseTape(text, "")
		if err != nil {
			return n, nil, 0, err
		}
		tapes = append(tapes, t)
	}
	within, err := unit.Parse(c.Within, unit.Millimetre)
	if err != nil || within.MM() < 0.05 || within.MM() > 2 {
		return n, nil, 0, fmt.Errorf("--within %s: between 0.05 and 2 mm", c.Within)
	}
	return n, tapes, within.MM(), nil
}

func lineOption(text string) (number int, kind, name string, ok bool) {
	left, right, ok := strings.Cut(text, "=")
	kind, name, dot := strings.Cut(right, ".")
	number, err := strconv.Atoi(strings.TrimSpace(left))
	ok = ok && dot && err == nil && number > 0 && slices.Contains(piece.LineKinds, piece.LineKind(kind)) && wordForm.MatchString(name)
	return number, kind, name, ok
}

func kinds() string {
	var out []string
	for _, k := range piece.LineKinds {
		out = append(out, string(k))
	}
	return strings.Join(out, ", ")
}

// readPhotos reads the photos, no more of each than is needed to refuse it for
// its size.
func readPhotos(names []string) ([]*photo.Photo, finding.List, error) {
	var photos []*photo.Photo
	var found finding.List
	for _, name := range names {
		f, err := os.Open(name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil, fmt.Errorf("there is no file %s", name)
		} else if err != nil {
			return nil, nil, err
		}
		data, err := io.ReadAll(io.LimitReader(f, photo.MaxBytes+1))
		f.Close()
		if err != nil {
			return nil, nil, err
		}
		p, told := photo.Load(filepath.ToSlash(name), data)
		found = append(found, told...)
		if p != nil {
			photos = append(photos, p)
		}
	}
	return photos, found, nil
}

// tell prints what was found.
func (c *traceCmd) tell(s *session, t trace.Traced, p piece.Piece, found finding.List) error {
	if c.JSON {
		out := map[string]any{"findings": found}
		if found.Stops() == 0 {
			out["piece"], out["printed-scale"], out["residual-px"] = p, t.Table.Solution.Scale, t.Table.Solution.RMS
		}
		if err := printJSON(s, out); err != nil {
			return err
		}
		return findings(s, true, found)
	}
	if sol := t.Table.Solution; len(sol.Cards) > 0 {
		fmt.Fprintf(s.out, "cards    %d in %d photos, corner marks within %.3f px (%.2f mm); printed at %.2f %%\n", len(sol.Cards), len(sol.Views), sol.RMS, sol.RMSmm, 100*sol.Scale)
		fmt.Fprintf(s.out, "scale    known to ±%.2f %% by %d tapes\n", 200*sol.ScaleSD, len(sol.TapeMiss))
	}
	if found.Stops() == 0 && len(p.Edges) > 0 {
		c.tellPiece(s, t, p)
		fmt.Fprintf(s.out, "piece    %s\n", c.To)
	}
	if len(t.Table.Shots) > 0 {
		fmt.Fprintf(s.out, "preview  %s\n", c.preview())
	}
	return findings(s, false, found)
}

func (c *traceCmd) tellPiece(s *session, t trace.Traced, p piece.Piece) {
	for i, e := range p.Edges {
		word := "curves"
		if e.Curve.Straight(0.01) {
			word = "straight"
		} else if len(e.Curve) == 1 {
			word = "curve"
		}
		fmt.Fprintf(s.out, "edge %-3d %-20s %8.1f mm  %d %s\n", i+1, e.Name, e.Curve.Length(), len(e.Curve), word)
	}
	for i, n := range t.Shape.Notches {
		word := "slit or printed tick"
		switch {
		case n.Cut:
			word = "cut"
		case n.Out:
			word = "stands out"
		}
		if slices.Contains(c.Drop, i+1) {
			word += ", left out"
		}
		fmt.Fprintf(s.out, "notch n%-2d %s\n", i+1, word)
	}
	for i, l := range t.Lines {
		fmt.Fprintf(s.out, "line %-3d %8.1f mm long\n", i+1, l.Length())
	}
}
