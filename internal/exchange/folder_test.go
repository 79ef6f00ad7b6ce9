package exchange

import (
	"bytes"
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
	return "  hip: [" + strings.Join(strings.Split("90,94,98,102,107,113,119", ",")[:sizes], ", ") + "]\n"
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

// Joins that the demo's pattern states are found again from the shapes, where
// both sides are one edge without ease; the notches of the inseam meet.
func TestPropose(t *testing.T) {
	p := quay(t)
	style, _ := OfPattern(p, nil)
	var keep []Part
	for _, part := range style.Parts {
		switch part.Name {
		case "front", "back", "yoke", "bag-front", "bag-back":
			keep = append(keep, part)
		}
	}
	style.Parts = keep
	pieces, _, _ := Grade(style, nil, nil)
	found := map[string]Proposal{}
	for _, j := range Propose(pieces) {
		found[j.A.String()+" "+j.B.String()] = j
	}
	for _, want := range []string{"front:inseam back:inseam", "back:top yoke:lower", "bag-front:round bag-back:round", "bag-front:mouth bag-back:mouth"} {
		if _, ok := found[want]; !ok {
			t.Errorf("%s is not proposed: %v", want, found)
		}
	}
	if n := len(found["front:inseam back:inseam"].Notches); n != 2 {
		t.Errorf("%d notches meet on the inseam, want 2", n)
	}
	for key := range found {
		if strings.HasPrefix(key, "front:outseam") { // its other side is back and yoke together
			t.Errorf("%s is proposed", key)
		}
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
