package fit

import (
	"math"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"pgregory.net/rapid"
)

// The walk of these tests is independent of the package: a polyline of 2000
// chords a segment on the copies that the garment gives back, and stretches
// found by name on them.

func fineLength(c geom.Curve) float64 {
	var sum float64
	for _, s := range c {
		last := s.P[0]
		for k := 1; k <= 2000; k++ {
			u := float64(k) / 2000
			v := 1 - u
			p := s.P[0].Mul(v * v * v).Add(s.P[1].Mul(3 * v * v * u)).Add(s.P[2].Mul(3 * v * u * u)).Add(s.P[3].Mul(u * u * u))
			sum += p.Dist(last)
			last = p
		}
	}
	return sum
}

func walkedLength(t rapid.TB, g pattern.Garment, refs []piece.Ref) float64 {
	var sum float64
	for _, r := range refs {
		p := g.Pieces[r.Piece]
		if r.Inside {
			l, ok := p.LineNamed(r.Edge)
			if !ok {
				t.Fatalf("no line %s", r)
			}
			sum += fineLength(l.Curve)
			continue
		}
		e, ok := p.Edge(r.Edge)
		if !ok {
			t.Fatalf("no edge %s", r)
		}
		if r.From == "" {
			sum += fineLength(e.Curve)
			continue
		}
		a, errA := p.Corner(r.Edge, r.From)
		b, errB := p.Corner(r.Edge, r.To)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		sum += fineLength(e.Curve.Between(min(a, b), max(a, b)))
	}
	return sum
}

// printedEase is how much longer a side of a join is printed than the first,
// by size.
func printedEase(t rapid.TB, p pattern.Pattern, j pattern.Join, k int) []float64 {
	out := make([]float64, len(p.Sizes))
	for i := range out {
		g := pattern.Garment{Pieces: map[string]piece.Piece{}}
		for name, gr := range p.Pieces {
			g.Pieces[name] = gr.In[i]
		}
		out[i] = walkedLength(t, g, j.Sides[k]) - walkedLength(t, g, j.Sides[0])
	}
	return out
}

// checkWalk fails where a side misses the printed differences, those of the
// sizes between lo and hi, by more than tol; it returns the widest miss.
func checkWalk(t rapid.TB, p pattern.Pattern, g pattern.Garment, lo, hi int, tol float64) float64 {
	var widest float64
	for _, j := range g.View.Joins {
		first := walkedLength(t, g, j.Sides[0])
		for k := 1; k < len(j.Sides); k++ {
			ease := printedEase(t, p, j, k)[lo : hi+1]
			least, most := ease[0], ease[0]
			for _, e := range ease {
				least, most = min(least, e), max(most, e)
			}
			by := walkedLength(t, g, j.Sides[k]) - first
			miss := math.Max(0, math.Max(least-by, by-most))
			widest = math.Max(widest, miss)
			if miss > tol {
				t.Errorf("%s: side %d is %.3f mm longer than the first; printed %.3f to %.3f", j.ID, k+1, by, least, most)
			}
		}
	}
	return widest
}

func checkOutlines(t rapid.TB, g pattern.Garment) {
	for _, name := range g.Order {
		p := g.Pieces[name]
		pts := p.Outline(0.05)
		if q, _, _, found := geom.SelfCrossing(pts); found {
			t.Errorf("%s crosses itself at %v", name, q)
		}
		if geom.Area(pts) <= 0 {
			t.Errorf("%s is not counter-clockwise", name)
		}
		for i, e := range p.Edges {
			if d := e.Curve.End().Dist(p.After(i).Curve.Start()); d > 1e-9 {
				t.Errorf("%s:%s ends %g mm from the next edge", name, e.Name, d)
			}
			for k := 1; k < len(e.Curve); k++ {
				if e.Curve[k-1].P[3] != e.Curve[k].P[0] {
					t.Errorf("%s:%s is torn at segment %d", name, e.Name, k)
				}
			}
		}
	}
}

// checkSmooth fails where the line has a corner that no printed size has.
func checkSmooth(t rapid.TB, p pattern.Pattern, g pattern.Garment) {
	for _, name := range g.Order {
		for i, e := range g.Pieces[name].Edges {
			printed := p.Pieces[name].In
			next := g.Pieces[name].After(i)
			smooth := true
			for _, q := range printed {
				turns := turn(q.Edges[i].Curve.EndTangent(), q.After(i).Curve.StartTangent())
				smooth = smooth && math.Abs(turns) < 1e-9
			}
			if k := turn(e.Curve.EndTangent(), next.Curve.StartTangent()); smooth && math.Abs(k) > 1e-7 {
				t.Errorf("%s: corner of %g radians between %s and %s", name, k, e.Name, next.Name)
			}
			kinky := false
			for _, q := range printed {
				kinky = kinky || len(q.Edges[i].Curve.Kinks(1e-7)) > 0
			}
			if ks := e.Curve.Kinks(1e-7); !kinky && len(ks) > 0 {
				t.Errorf("%s:%s has a corner at %v mm", name, e.Name, ks)
			}
		}
	}
}

// checkStraight fails where an edge straight in every size has become bent.
func checkStraight(t rapid.TB, p pattern.Pattern, g pattern.Garment) {
	for _, name := range g.Order {
		for i, e := range g.Pieces[name].Edges {
			straight := true
			for _, q := range p.Pieces[name].In {
				straight = straight && q.Edges[i].Curve.Straight(1e-9)
			}
			if straight && !e.Curve.Straight(1e-9) {
				t.Errorf("%s:%s is no longer straight", name, e.Name)
			}
		}
		if u, _ := g.Use(name); u.FoldEdge != "" {
			e, _ := g.Pieces[name].Edge(u.FoldEdge)
			if d := e.Curve.Start().X - e.Curve.End().X; math.Abs(d) > 1e-9 {
				t.Errorf("%s: the fold leans %g mm", name, d)
			}
		}
		for _, l := range g.Pieces[name].Lines {
			if l.Kind == piece.Grain && math.Abs(l.Curve.Start().X-l.Curve.End().X) > 1e-9 {
				t.Errorf("%s: the grain leans", name)
			}
		}
	}
}
