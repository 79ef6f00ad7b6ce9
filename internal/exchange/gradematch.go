package exchange

import (
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// stand turns every size so that its grain is upright.
func (g *grader) stand(name string, in []Part) {
	for k := range in {
		if _, ok := in[k].grain(); !ok {
			if k == 0 {
				g.tell(noGrain, in[k].Place, name)
			}
			in[k].Lines = append(slices.Clone(in[k].Lines), upGrain(in[k]))
			continue
		}
		p, by := in[k].upright()
		if by != 0 && k == 0 {
			g.tell(turned, in[k].Place, name, by*180/math.Pi)
		}
		in[k] = p
	}
}

// upGrain is a grain line up the middle of a piece.
func upGrain(p Part) piece.Line {
	lo, hi := p.bounds()
	x := (lo.X + hi.X) / 2
	return piece.Line{Kind: piece.Grain, Name: "grain", Place: p.Place,
		Curve: geom.Polyline(geom.Pt{X: x, Y: lo.Y + (hi.Y-lo.Y)/4}, geom.Pt{X: x, Y: hi.Y - (hi.Y-lo.Y)/4})}
}

// stack lays sizes that were drawn side by side on each other: between two sizes
// the points of a piece are blended, and must not travel.
func (g *grader) stack(name string, in []Part) {
	told := false
	for k := 1; k < len(in); k++ {
		lo, hi := boxOf(in[k-1].outline())
		a, b := boxOf(in[k].outline())
		mid := a.Lerp(b, 0.5)
		if mid.X > lo.X && mid.X < hi.X && mid.Y > lo.Y && mid.Y < hi.Y {
			continue
		}
		in[k] = in[k].transform(geom.Shift(lo.Sub(a)))
		if !told {
			g.tell(stacked, in[k].Place, name)
		}
		told = true
	}
}

func boxOf(edges []Edge) (lo, hi geom.Pt) { return geom.BoundsOf(loopPoints(whole(edges))) }

// match brings the edges of every size into the order of the first's.
func (g *grader) match(name string, in []Part) ([][]Edge, bool) {
	edges := make([][]Edge, len(in))
	for k, p := range in {
		edges[k] = p.outline()
		if n, m := len(edges[0]), len(edges[k]); n != m {
			g.tell(otherEdges, p.Place, name, n, g.labels[0], m, g.labels[k])
			return nil, false
		}
		if k == 0 {
			continue
		}
		by, cost := bestTurn(edges[0], edges[k])
		edges[k] = append(slices.Clone(edges[k][by:]), edges[k][:by]...)
		if cost > 0.12 {
			g.tell(matchRough, p.Place, name, g.labels[0], g.labels[k])
		}
	}
	return edges, true
}

// bestTurn finds the edge of b that the first edge of a answers to: by names
// where they have them, by length and direction otherwise. The cost is the mean
// difference, as a share of the way round, for the turn chosen.
func bestTurn(a, b []Edge) (int, float64) {
	n := len(a)
	around := func(edges []Edge) float64 {
		var sum float64
		for _, e := range edges {
			sum += e.Curve.Length()
		}
		return sum
	}
	la, lb := around(a), around(b)
	best, least := 0, math.Inf(1)
	for by := range n {
		var cost float64
		named := a[0].Name != ""
		for i := range n {
			x, y := a[i], b[(i+by)%n]
			named = named && x.Name == y.Name
			v, w := x.Curve.End().Sub(x.Curve.Start()).Mul(1/la), y.Curve.End().Sub(y.Curve.Start()).Mul(1/lb)
			cost += v.Dist(w) + math.Abs(x.Curve.Length()/la-y.Curve.Length()/lb)
		}
		if named {
			return by, 0
		}
		if cost < least {
			best, least = by, cost
		}
	}
	return best, least / float64(n)
}
