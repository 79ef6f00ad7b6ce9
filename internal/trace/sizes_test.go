package trace_test

import (
	"fmt"
	"math"
	"os"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
)

// nest is a sheet with the same panel in three sizes, as a part of its
// size apart: full lines, dashes, and dashes and dots, crossed by a line, with
// the cards on the sheet.
func nest(seed uint64, apart float64) (s *scene.Scene, truths [][]geom.Curve) {
	s, t := scene.Standard(seed, scene.Condition{Panel: 1, Tilt: 15, Azimuth: 200, K1: 0.03, MorePixel: 2600, Table: scene.Oak})
	panel := t.Edges
	lo, hi := geom.BoundsOf(s.Outline)
	s.Outline = []geom.Pt{lo.Sub(geom.Pt{X: 300, Y: 300}), {X: hi.X + 300, Y: lo.Y - 300}, hi.Add(geom.Pt{X: 300, Y: 300}), {X: lo.X - 300, Y: hi.Y + 300}}
	mid := lo.Lerp(hi, 0.5)
	for k, dash := range [][]float64{nil, {9, 4}, {9, 3, 1.5, 3}} {
		f := 1 - apart*float64(k)
		from := lo.Sub(geom.Pt{X: 90, Y: 130}) // graded from here
		m := geom.Shift(from.Mul(-1)).Then(geom.Affine{A: f, D: f}).Then(geom.Shift(from))
		var edges []geom.Curve
		for _, e := range panel {
			e = e.Transform(m)
			edges = append(edges, e)
			s.Ink = append(s.Ink, dashed(e, dash)...)
		}
		truths = append(truths, edges)
	}
	s.Ink = append(s.Ink, scene.Line{Points: []geom.Pt{{X: lo.X - 20, Y: mid.Y - 40}, {X: hi.X + 20, Y: mid.Y - 30}}, Width: 0.5})
	return s, truths
}

// dashed is a curve as printed strokes.
func dashed(c geom.Curve, dash []float64) []scene.Line {
	if dash == nil {
		return []scene.Line{{Points: c.Flatten(0.02), Width: 0.6}}
	}
	var out []scene.Line
	for d, i := 0.0, 0; d < c.Length(); i++ {
		l := dash[i%len(dash)]
		if i%2 == 0 {
			out = append(out, scene.Line{Points: c.Between(d, min(d+l, c.Length())).Flatten(0.02), Width: 0.6})
		}
		d += l
	}
	return out
}

// route points at the corners and at places along curved edges, out by a
// millimetre as a person is.
func route(size string, edges []geom.Curve, to func(geom.Pt) geom.Pt) trace.Route {
	r := trace.Route{Size: size}
	for i, e := range edges {
		slip := geom.Pt{X: 1}.Rot(float64(i) * 2)
		r.Places = append(r.Places, to(e.Start()).Add(slip.Mul(0.7)))
		parts := int(e.Length() / 80)
		for k := 1; k < parts && !e.Straight(0.1); k++ {
			r.Places = append(r.Places, to(e.At(e.Length()*float64(k)/float64(parts))).Add(slip.Rot(float64(k))))
		}
	}
	return r
}

// tableFrame is the map from the scene to the preview's grid, from the places of
// the cards alone.
func tableFrame(s *scene.Scene) func(geom.Pt) geom.Pt {
	var mean geom.Pt
	for _, c := range s.Cards {
		mean = mean.Add(geom.Pt{Y: 1}.Rot(c.Angle))
	}
	turn := math.Pi/2 - mean.Angle()
	var pts []geom.Pt
	for _, c := range s.Cards {
		for k := range 4 {
			pts = append(pts, c.At.Add(geom.Pt{X: cards.Cut / 2, Y: cards.Cut / 2}.Rot(c.Angle+float64(k)*math.Pi/2)).Rot(turn))
		}
	}
	lo, _ := geom.BoundsOf(pts)
	return func(p geom.Pt) geom.Pt { return p.Rot(turn).Sub(lo) }
}

// Every size's line is followed, over dashes and past the others, and the sizes
// come out as one graded piece.
func TestFollow(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	s, truths := nest(90, 0.08) // 5 mm or more
	p := load(t, "nest", photoOf(t, s, "nest"))
	sheet, found := trace.Sheet([]*photo.Photo{p}, diagonals(s))
	if found.Stops() > 0 {
		t.Fatal(texts(found))
	}
	var all []trace.Traced
	var names []string
	for k, edges := range truths {
		size := fmt.Sprint(10 + 2*k)
		got, found := sheet.Follow(route(size, edges, tableFrame(s)), trace.Tolerance)
		if found.Stops() > 0 {
			t.Errorf("size %s: %v", size, texts(found))
			continue
		}
		a := measure(scene.Truth{Edges: edges, Grain: [2]geom.Pt{{}, {Y: 1}}}, got)
		t.Logf("size %s: %+v %v", size, a, found.Codes())
		if a.mean > 0.2 || a.max > 0.8 || a.missing+a.extra > 0 {
			t.Errorf("size %s: %+v", size, a)
		}
		all, names = append(all, got), append(names, size)
	}
	if len(all) < 3 {
		return
	}
	pieces, found := trace.Sizes(all, names, trace.Naming{Piece: "panel"})
	if found.Stops() > 0 {
		t.Fatal(texts(found))
	}
	round := make([]float64, len(pieces)) // the length of each outline
	for i, p := range pieces {
		for j, e := range p.Edges {
			if n := len(pieces[0].Edges[j].Curve); len(e.Curve) != n {
				t.Errorf("size %s, edge %s: %d curves, not %d", names[i], e.Name, len(e.Curve), n)
			}
			round[i] += e.Curve.Length()
		}
	}
	for i, t2 := range all {
		for _, e := range t2.Shape.Edges {
			round[i] -= e.Length()
		}
		if math.Abs(round[i]) > 1 {
			t.Errorf("size %s: drawn alike, its outline is %.2f mm longer", names[i], round[i])
		}
	}
	// Where there is no line, none is made up.
	r := route("10", truths[0], tableFrame(s))
	r.Places[0] = r.Places[0].Add(geom.Pt{X: -60, Y: -60})
	if _, found := sheet.Follow(r, trace.Tolerance); found.Stops() == 0 {
		t.Errorf("a place beside the line: %v", texts(found))
	}
}

// Where sizes run within 3 mm of each other, one may be taken for another: it is
// told.
func TestFollowTellsOfCloseLines(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	s, truths := nest(90, 0.04)
	p := load(t, "close", photoOf(t, s, "close"))
	sheet, found := trace.Sheet([]*photo.Photo{p}, diagonals(s))
	if found.Stops() > 0 {
		t.Fatal(texts(found))
	}
	if _, found := sheet.Follow(route("12", truths[1], tableFrame(s)), trace.Tolerance); !found.Has("trace.lines-close") {
		t.Error(texts(found))
	}
}

func TestParseRoute(t *testing.T) {
	r, err := trace.ParseRoute("12: 10,5 20; 31 20.4; 30 55;")
	if err != nil || r.Size != "12" || len(r.Places) != 3 || r.Places[0] != (geom.Pt{X: 105, Y: 200}) {
		t.Errorf("%+v, %v", r, err)
	}
	for _, bad := range []string{"", "10 20; 30 40", "12: 10", "12: 10 x", "12: 1e9 3", ": 1 2"} {
		if _, err := trace.ParseRoute(bad); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}
