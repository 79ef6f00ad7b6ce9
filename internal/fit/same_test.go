package fit

import (
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"pgregory.net/rapid"
)

// same fails where two pieces differ by more than tol mm in any point.
func same(t rapid.TB, what string, got, want piece.Piece, tol float64) {
	curve := func(name string, a, b geom.Curve) {
		if len(a) != len(b) {
			t.Errorf("%s %s %s: %d segments, printed %d", what, got.Name, name, len(a), len(b))
			return
		}
		for k := range a {
			for j, q := range a[k].P {
				if d := q.Dist(b[k].P[j]); d > tol {
					t.Errorf("%s %s %s: %g mm off the print", what, got.Name, name, d)
					return
				}
			}
		}
	}
	for i, e := range got.Edges {
		curve(e.Name, e.Curve, want.Edges[i].Curve)
	}
	for i, l := range got.Lines {
		curve(l.Name, l.Curve, want.Lines[i].Curve)
	}
	for i, m := range got.Marks {
		if d := m.P.Dist(want.Marks[i].P); d > tol || m.At-want.Marks[i].At > tol || want.Marks[i].At-m.At > tol {
			t.Errorf("%s %s mark %s: %g mm off the print", what, got.Name, m.Name, d)
		}
	}
}

// checkBetween fails where a node lies outside the box of the two printed sizes
// around it by more than truing may move it.
func checkBetween(t rapid.TB, p pattern.Pattern, g pattern.Garment, i int) {
	const room = 0.05
	for name, q := range g.Pieces {
		a, b := p.Pieces[name].In[i], p.Pieces[name].In[i+1]
		for e := range q.Edges {
			for k, s := range q.Edges[e].Curve {
				lo, hi := geom.BoundsOf([]geom.Pt{a.Edges[e].Curve[k].P[0], b.Edges[e].Curve[k].P[0]})
				if v := s.P[0]; v.X < lo.X-room || v.X > hi.X+room || v.Y < lo.Y-room || v.Y > hi.Y+room {
					t.Errorf("%s:%s node %d at %v overshoots %v..%v", name, q.Edges[e].Name, k, v, lo, hi)
				}
			}
		}
	}
}
