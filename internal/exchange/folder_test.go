package exchange

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// chart is what a user writes in the place of what is marked SAY.
func chart(sizes int) string {
	return "  hip: [" + strings.Join(strings.Split("90,94,98,102,107,113,119,125", ",")[:sizes], ", ") + "]\n"
}

// loaded reads a folder as a workroom does, with a hip row in its chart.
func loaded(t *testing.T, files map[string][]byte, sizes int) (pattern.Pattern, finding.List) {
	t.Helper()
	text := string(files["pattern.yaml"])
	i := strings.Index(text, "  # hip: [")
	if i < 0 {
		t.Fatalf("no chart to be filled in:\n%s", text)
	}
	text = text[:i] + chart(sizes) + text[i:]
	return pattern.Load(source.File{Path: "patterns/back/pattern.yaml", Data: []byte(text)}, func(name string) (source.File, error) {
		return source.File{Path: "patterns/back/" + name, Data: files[name]}, nil
	})
}

// What has come in becomes a pattern's folder that loads once the chart has been
// written, with the pieces where they were.
func TestFolderLoads(t *testing.T) {
	p := quay(t)
	for _, sizes := range [][]string{nil, {"14"}} {
		style, _ := OfPattern(p, sizes)
		var b bytes.Buffer
		if err := WriteDXF(&b, style, unit.Millimetre); err != nil {
			t.Fatal(err)
		}
		back, _ := ReadDXF(source.File{Path: "quay.dxf", Data: b.Bytes()}, "")
		pieces, labels, _ := Grade(back, nil, nil)
		files := Folder(pieces, labels, Said{Title: back.Title, From: "quay.dxf"})
		q, found := loaded(t, files, len(labels))
		if found.Stops() > 0 {
			t.Fatalf("%s: %s\n%s", found[0].Place, found[0].Text(), files["pattern.yaml"])
		}
		for _, name := range p.Order {
			for k, size := range labels {
				want, got := p.Pieces[name].In[p.SizeIndex(size)], q.Pieces[name].In[k]
				shift := got.Edges[0].Curve.Start().Sub(want.Edges[0].Curve.Start())
				for i, e := range want.Edges {
					if d := apart(e.Curve.Transform(shiftBy(shift)), got.Edges[i].Curve); d > 0.02 {
						t.Errorf("%s %s: %s comes back %.4f mm off", name, size, e.Name, d)
					}
				}
			}
		}
	}
}

// The levels that pieces show are offered as zones, from the top down.
func TestFolderLevels(t *testing.T) {
	style, _ := OfPattern(quay(t), []string{"14"})
	pieces, labels, _ := Grade(style, nil, nil)
	text := string(Folder(pieces, labels, Said{})["pattern.yaml"])
	at := -1
	for _, zone := range []string{"hip", "thigh", "knee"} {
		i := strings.Index(text, "{zone: "+zone+",")
		if i <= at {
			t.Fatalf("%s is not offered in its place:\n%s", zone, text)
		}
		at = i
	}
}

// The outline's meaning is the user's to say where the file does not.
func TestFolderAsks(t *testing.T) {
	style, _ := OfPattern(quay(t), []string{"14"})
	for i := range style.Parts {
		style.Parts[i].Sewn = nil
	}
	pieces, labels, _ := Grade(style, nil, nil)
	_, found := loaded(t, Folder(pieces, labels, Said{}), 1)
	if !found.Has("source.unknown-word") {
		t.Errorf("a folder whose outlines nobody has explained loads: %v", found.Codes())
	}
	for _, said := range []Said{{Line: "stitching"}, {Line: "cutting", Allowance: unit.MM(5)}} {
		if _, found := loaded(t, Folder(pieces, labels, said), 1); found.Stops() > 0 {
			t.Errorf("said %s: %s", said.Line, found[0].Text())
		}
	}
}

// proposed are the proposals for some pieces of a demo pattern, by their sides.
func proposed(t *testing.T, name string, pieces ...string) map[string]Proposal {
	t.Helper()
	style, _ := OfPattern(demoPattern(t, name), nil)
	style.Parts = slices.DeleteFunc(style.Parts, func(p Part) bool { return !slices.Contains(pieces, p.Name) })
	graded, _, _ := Grade(style, nil, nil)
	found := map[string]Proposal{}
	for _, j := range Propose(graded) {
		found[j.Side(0)+" with "+j.Side(1)] = j
	}
	return found
}

// Joins that the demo's patterns state are found again from the shapes: edge to
// edge, over another seam, and eased, with the sides in the order in which the
// patterns list them.
func TestPropose(t *testing.T) {
	for _, c := range []struct {
		pattern string
		pieces  []string
		want    map[string]int // notches
	}{
		{"quay", []string{"front", "back", "yoke", "bag-front", "bag-back"}, map[string]int{
			"front:inseam with back:inseam": 2, "back:top with yoke:lower": 0, "bag-front:round with bag-back:round": 0,
			"bag-front:mouth with bag-back:mouth": 0, "front:outseam with back:outseam + yoke:side": 2,
		}},
		{"mooring", []string{"front", "back", "sleeve"}, map[string]int{
			"front:side with back:side": 1, "front:armhole + back:armhole with sleeve:cap": 3, // the crown meets the shoulder seam
			"front:shoulder with back:shoulder": 0,
		}},
	} {
		found := proposed(t, c.pattern, c.pieces...)
		for want, notches := range c.want {
			j, ok := found[want]
			for key, other := range found { // either side may come first
				if sides := strings.Split(key, " with "); !ok && turnedAbout(sides[1])+" with "+turnedAbout(sides[0]) == want {
					j, ok = other, true
				}
			}
			if !ok {
				t.Errorf("%s: %s is not proposed: %v", c.pattern, want, sortedKeys(found))
			} else if len(j.Notches) != notches {
				t.Errorf("%s: %s: %d notches meet, want %d", c.pattern, want, len(j.Notches), notches)
			}
		}
	}
}

// turnedAbout is a side as it is listed when it is the other of the two.
func turnedAbout(side string) string {
	edges := strings.Split(side, " + ")
	slices.Reverse(edges)
	return strings.Join(edges, " + ")
}

// The mooring sleeve's cap is 6 mm longer than the armhole, and that is what is
// proposed to be eased in.
func TestProposeEase(t *testing.T) {
	for key, j := range proposed(t, "mooring", "front", "back", "sleeve") {
		if !strings.Contains(key, "sleeve:cap") {
			continue
		}
		if !j.Eased || math.Abs(j.Ease()-6) > 1 {
			t.Errorf("%s: %.2f mm of ease, the pattern states 6", key, j.Ease())
		}
		return
	}
	t.Error("no join of the sleeve's cap is proposed")
}

// What the proposals write into a pattern's file is read as joins when the remark
// signs are taken away, and the seams are whole.
func TestProposalsLoad(t *testing.T) {
	style, _ := OfPattern(demoPattern(t, "mooring"), nil)
	style.Parts = slices.DeleteFunc(style.Parts, func(p Part) bool { return !slices.Contains([]string{"front", "back", "sleeve"}, p.Name) })
	pieces, labels, _ := Grade(style, nil, nil)
	files := Folder(pieces, labels, Said{Title: "mooring"})
	head, joins, ok := strings.Cut(string(files["pattern.yaml"]), "    # joins:\n")
	if !ok {
		t.Fatal("no join is proposed")
	}
	files["pattern.yaml"] = []byte(head + "    joins:\n" + strings.ReplaceAll(joins, "    #   ", "      "))
	p, found := loaded(t, files, len(labels))
	if found.Stops() > 0 {
		t.Fatalf("%s: %s\n%s", found[0].Place, found[0].Text(), files["pattern.yaml"])
	}
	eased := 0
	for _, j := range p.Views[0].Joins {
		if len(j.Ease) > 0 {
			eased++
		}
	}
	if len(p.Views[0].Joins) != 3 || eased != 2 { // side, armhole and shoulder
		t.Errorf("%d joins, %d of them eased", len(p.Views[0].Joins), eased)
	}
}

// Names of the user's take the place of those proposed.
func TestNames(t *testing.T) {
	style, _ := OfPattern(quay(t), []string{"14"})
	for i := range style.Parts {
		for k := range style.Parts[i].Sewn {
			style.Parts[i].Sewn[k].Name = ""
		}
	}
	pieces, _, found := Grade(style, nil, map[string]string{"band:left": "end", "band:nowhere": "x", "yoke:upper": "yoke:lower"})
	if n := len(found.Filter(func(f finding.Finding) bool { return f.Code() == "exchange.name" })); n != 2 {
		t.Errorf("%d slips of naming told, want 2: %v", n, found.Codes())
	}
	for _, g := range pieces {
		if g.Name == "band" && g.In[0].Index("end") < 0 {
			t.Errorf("the band's edges are %v", g.In[0].EdgeNames())
		}
		for _, m := range g.In[0].Marks {
			if m.Kind == piece.Notch && g.In[0].Index(m.Edge) < 0 {
				t.Errorf("%s: notch on edge %s, which is not there", g.Name, m.Edge)
			}
		}
	}
}
