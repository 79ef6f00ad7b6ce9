package trace_test

import (
	"fmt"
	"math"
	"testing"

	"gusset/internal/exchange"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/trace"
)

// pocketOf is a traced pocket of a size, its bottom drawn with as many curves as
// the trace happened to need, its notches numbered as the trace happened to meet
// them.
func pocketOf(k float64, curves int, first int) piece.Piece {
	at := func(x, y float64) geom.Pt { return geom.Pt{X: 150 + x*k, Y: 150 + y*k} }
	bottom := geom.Curve{geom.Cubic(at(-85, -70), at(-30, -112), at(30, -112), at(85, -70))}
	var parts geom.Curve
	for i := range curves {
		l := bottom.Length() / float64(curves)
		parts = append(parts, bottom.Between(float64(i)*l, float64(i+1)*l)...)
	}
	p := piece.Piece{Name: "pocket", Title: "pocket", Edges: []piece.Edge{
		{Name: "edge-1", Curve: parts},
		{Name: "edge-2", Curve: geom.Curve{geom.Line(at(85, -70), at(92, 105))}},
		{Name: "edge-3", Curve: geom.Curve{geom.Line(at(92, 105), at(-92, 100))}},
		{Name: "edge-4", Curve: geom.Curve{geom.Line(at(-92, 100), at(-85, -70))}},
	}}
	for i, e := range []int{0, 3} {
		d := p.Edges[e].Curve.Length() / 2
		p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Edge: p.Edges[e].Name, Name: fmt.Sprintf("n%d", (first+i)%2+1), At: d, P: p.Edges[e].Curve.At(d)})
	}
	p.Lines = append(p.Lines, piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Curve{geom.Line(at(10, -70), at(10, 70))}})
	return p
}

// Papers of several sizes that were traced one by one, each into a file of its
// own, come in as one graded piece: corners matched, every size drawn with the same
// curves and as long as it was traced, its notches kept.
func TestTracedSizesComeInAsOnePiece(t *testing.T) {
	traced := map[string]piece.Piece{"12": pocketOf(1, 1, 0), "14": pocketOf(1.05, 3, 1), "16": pocketOf(1.1, 2, 0)}
	var style exchange.Style
	for _, size := range []string{"12", "14", "16"} {
		one, found, ok := exchange.Read(source.File{Path: size + "/pocket.svg", Data: trace.File([]string{size}, []piece.Piece{traced[size]})}, exchange.Options{})
		if !ok || found.Stops() > 0 {
			t.Fatal(texts(found))
		}
		style = style.With(one)
	}
	pieces, sizes, found := exchange.Grade(style, nil, nil)
	if found.Stops() > 0 || len(pieces) != 1 || fmt.Sprint(sizes) != "[12 14 16]" {
		t.Fatalf("%d pieces in sizes %v: %v", len(pieces), sizes, texts(found))
	}
	for k, size := range sizes {
		got, want := pieces[0].In[k], traced[size]
		for i, e := range want.Edges {
			c := got.Edges[i].Curve
			if d := c.Length() - e.Curve.Length(); math.Abs(d) > 0.05 || len(c) != len(pieces[0].In[0].Edges[i].Curve) {
				t.Errorf("size %s, %s: %.3f mm longer than traced, in %d curves", size, e.Name, d, len(c))
			}
		}
		if len(got.Marks) != 2 {
			t.Errorf("size %s: %d notches, want 2: %v", size, len(got.Marks), texts(found))
		}
	}
}
