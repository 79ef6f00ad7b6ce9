package main

import (
	"bytes"
	"context"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"gusset/demo"
	"gusset/internal/compare"
	"gusset/internal/docket"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

const drawnChanges = "../../docs/changes"

// shownChange is one change of the page that draws them all.
var shownChange = regexp.MustCompile("(?ms)^### ([a-z-]+)\n.*?^```yaml ([a-z-]+)\n(.*?)^```")

// undrawn are the changes that leave the demo's stitching lines as they are.
var undrawn = []docket.ChangeKind{docket.SetFinish, docket.CutFrom, docket.Settle}

// Every kind of change is on the page that draws them all, once; each is made on a
// docket of the demo without being refused and changes something, and has a drawing
// of before and after. GUSSET_DRAW=1 draws them anew, to be looked at.
func TestEveryChangeIsDrawn(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: made in full without the race detector")
	}
	text, err := os.ReadFile(filepath.Join(drawnChanges, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	shown := map[docket.ChangeKind]int{}
	for _, m := range shownChange.FindAllStringSubmatch(string(text), -1) {
		kind := docket.ChangeKind(m[1])
		shown[kind]++
		t.Run(m[1], func(t *testing.T) {
			r := beforeAndAfter(t, m[2], m[3], kind)
			if slices.Contains(undrawn, kind) {
				return
			}
			name := filepath.Join(drawnChanges, m[1]+".svg")
			if os.Getenv("GUSSET_DRAW") != "" {
				drawChange(t, name, m[1], r)
			}
			if s, err := os.Stat(name); err != nil || s.Size() < 1000 {
				t.Errorf("no drawing: %v", err)
			}
		})
	}
	for _, kind := range docket.ChangeKinds {
		if shown[kind] != 1 {
			t.Errorf("%s is on the page %d times", kind, shown[kind])
		}
	}
}

// recipeOf is where a docket's recipe stands in its text.
var recipeOf = regexp.MustCompile(`(?m)^changes:\n(  - .*\n)+`)

// beforeAndAfter makes the steps on a docket of the demo, in place of its own, and
// compares what the last of them was given with what came of it.
func beforeAndAfter(t *testing.T, name, steps string, kind docket.ChangeKind) compare.Report {
	t.Helper()
	file := path.Join("dockets", name+".yaml")
	own, err := demo.Files.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	recipe := "changes:\n  " + strings.ReplaceAll(strings.TrimSpace(steps), "\n", "\n  ") + "\n"
	in, found, err := making.Open(laidOver{file: recipeOf.ReplaceAllLiteralString(string(own), recipe)}.files(t), file)
	if err != nil || found.Stops() > 0 {
		t.Fatal(err, found.Codes())
	}
	all := in.Docket.Changes
	if all[len(all)-1].Kind != kind {
		t.Fatalf("the last step is %s", all[len(all)-1].Kind)
	}
	version := func(n int, called string) compare.Version {
		in.Docket.Changes = all[:n]
		r := making.Run(context.Background(), in, making.Change, making.Effort{}, nil)
		for _, f := range r.Findings {
			if f.Severity() == finding.Stop {
				t.Errorf("%s: %s", f.Code(), f.Text())
			}
		}
		return compare.Version{Name: called, Garment: titled(r.Changed.Garment())}
	}
	was, is := version(len(all)-1, "before"), version(len(all), "after "+string(kind))
	r := compare.Compare(was, is, "")
	for _, p := range r.Pieces {
		if !p.Same(0.1) {
			return r
		}
	}
	if !slices.Contains(undrawn, kind) {
		t.Error("nothing is changed")
	}
	return r
}

func drawChange(t *testing.T, name, kind string, r compare.Report) {
	t.Helper()
	var b bytes.Buffer
	page := sheet.Comparison(sheet.Heading{Docket: kind, Unit: unit.Millimetre}, r, draw.A4)
	if err := draw.SVG(&b, page); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
}

// laidOver are files in place of those of the demo.
type laidOver map[string]string

func (l laidOver) files(t *testing.T) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	for _, folder := range []string{"dockets", "bodies", "cloths", "machines", "patterns/quay", "patterns/weir", "patterns/mooring", "orders"} {
		list, err := demo.Files.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range list {
			name := path.Join(folder, e.Name())
			data, err := demo.Files.ReadFile(name)
			if err == nil {
				out[name] = &fstest.MapFile{Data: data}
			}
		}
	}
	for name, text := range l {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}
