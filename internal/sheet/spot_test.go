package sheet

import (
	"strings"
	"testing"

	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// A finding is marked where it lies: so far along the edge on the left copy, as
// far from the edge's other end when it lies on the right one, which is its mirror
// image; in the middle of an edge, or of the piece, when nothing nearer is told.
func TestSpots(t *testing.T) {
	corner := []geom.Pt{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 200}, {X: 0, Y: 200}}
	var p piece.Piece
	p.Name = "panel"
	for i, name := range []string{"hem", "side", "top", "fold"} {
		p.Edges = append(p.Edges, piece.Edge{Name: name, Curve: geom.Curve{geom.Line(corner[i], corner[(i+1)%4])}})
	}
	g := pattern.Garment{Pieces: map[string]piece.Piece{"panel": p}, Order: []string{"panel"}}
	on := func(copy, edge string) finding.Place { return finding.Place{}.OnPiece("panel", copy, edge) }
	spots := []Spot{
		{Number: 1, Place: on("left", "side").AtMM(50)}, {Number: 2, Place: on("right", "side").AtMM(50)},
		{Number: 3, Place: on("", "hem")}, {Number: 4, Heavy: true, Place: on("left", "")}, {Number: 5, Place: finding.Place{}.OnPiece("pocket", "", "")},
	}
	drawn := Drafts(g, spots)
	if len(drawn) != 1 {
		t.Fatalf("%d pieces", len(drawn))
	}
	var b strings.Builder
	if err := draw.SVG(&b, drawn[0].Page); err != nil {
		t.Fatal(err)
	}
	for number, at := range map[int]geom.Pt{1: {X: 100 - 2.8, Y: 50}, 2: {X: 100 - 2.8, Y: 150}, 3: {X: 50, Y: 0}, 4: {X: 50, Y: 100}} {
		s := Spot{Number: number}
		if want := circleAt(at.Add(geom.Pt{X: pieceAir, Y: pieceAir}), drawn[0].Page.Height); !strings.Contains(b.String(), `data-layer="`+s.Layer()+`">`+"\n"+`<path d="M`+want) {
			t.Errorf("%d is not at %v: no %s in\n%s", number, at, want, b.String())
		}
	}
	if strings.Contains(b.String(), `data-layer="found:5"`) {
		t.Error("the mark of another piece")
	}
}

// circleAt is how the circle of a mark at a place begins, on a page of some height: at
// its right.
func circleAt(at geom.Pt, high float64) string {
	var l draw.List
	l.Circle(draw.Fill(draw.Black), at, 0.028*200)
	var b strings.Builder
	if err := draw.SVG(&b, draw.Page{Width: 500, Height: high, List: &l}); err != nil {
		return err.Error()
	}
	_, path, _ := strings.Cut(b.String(), `d="M`)
	first, _, _ := strings.Cut(path, "C")
	return first
}
