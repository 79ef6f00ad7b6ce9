package demo

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/seam"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// A second measure of seams, written apart from the one that walking uses: each
// curve is strung with beads at even steps of its parameter, by de Casteljau's
// construction, and the distances from bead to bead are added. A segment a metre
// long that turns by one radian comes out 0.001 mm too short.

const beadsPerSegment = 256

// strung are the beads of a curve.
func strung(c geom.Curve) []geom.Pt {
	between := func(a, b geom.Pt, t float64) geom.Pt {
		return geom.Pt{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
	}
	out := []geom.Pt{c[0].P[0]}
	for _, s := range c {
		for k := 1; k <= beadsPerSegment; k++ {
			t := float64(k) / beadsPerSegment
			a, b, d := between(s.P[0], s.P[1], t), between(s.P[1], s.P[2], t), between(s.P[2], s.P[3], t)
			out = append(out, between(between(a, b, t), between(b, d, t), t))
		}
	}
	return out
}

// beadTo is the distance along the string to the place nearest to q.
func beadTo(beads []geom.Pt, q geom.Pt) float64 {
	best, at, walked := math.Inf(1), 0.0, 0.0
	for i := 1; i < len(beads); i++ {
		a, b := beads[i-1], beads[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long == 0 {
			continue
		}
		t := ((q.X-a.X)*(b.X-a.X) + (q.Y-a.Y)*(b.Y-a.Y)) / (long * long)
		t = math.Min(math.Max(t, 0), 1)
		if off := math.Hypot(a.X+t*(b.X-a.X)-q.X, a.Y+t*(b.Y-a.Y)-q.Y); off < best {
			best, at = off, walked+t*long
		}
		walked += long
	}
	return at
}

// beaded is the length of one side of a seam by its beads.
func beaded(g pattern.Garment, side []seam.Stretch) float64 {
	var sum float64
	for _, st := range side {
		p, _ := g.Copy(st.Piece, st.Copy)
		e, _ := p.Edge(st.Edge)
		c := e.Curve
		if st.Inside {
			l, _ := p.LineNamed(st.Edge)
			c = l.Curve
		}
		beads := strung(c)
		from, to := st.Curve.Start(), st.Curve.End()
		first, last := beads[0], beads[len(beads)-1]
		if from.Dist(first)+to.Dist(last) < 1e-6 || from.Dist(last)+to.Dist(first) < 1e-6 {
			for i := 1; i < len(beads); i++ {
				sum += math.Hypot(beads[i].X-beads[i-1].X, beads[i].Y-beads[i-1].Y)
			}
			continue
		}
		sum += math.Abs(beadTo(beads, to) - beadTo(beads, from))
	}
	return sum
}

type failer interface {
	Helper()
	Errorf(string, ...any)
}

// heldToBeads walks a garment and holds what is said of it to the beads: a seam
// that differs from its ease by more than the tolerance has a finding, and every
// finding names the difference within 0.1 mm. It returns how many seams differed.
func heldToBeads(t failer, g pattern.Garment) int {
	t.Helper()
	seams, _ := seam.Resolve(g)
	_, found := seam.Walk(g, seams, unit.Millimetre)
	named := map[string]float64{} // seam and side -> the difference that is named
	for _, f := range found {
		if f.Code() == "seam.gap" {
			named[f.Args[0].(string)+strconv.Itoa(f.Args[1].(int))] = inMM(t, f)
		}
	}
	g = g.Handed()
	for _, s := range seams {
		first := beaded(g, s.Sides[0])
		for side := 1; side < len(s.Sides); side++ {
			differs := beaded(g, s.Sides[side]) - first
			said, told := named[s.ID+strconv.Itoa(side+1)]
			switch miss := math.Abs(differs - s.Ease[side]); {
			case told && math.Abs(said-math.Abs(differs)) > 0.1:
				t.Errorf("%s differs by %.3f mm and is said to differ by %g", s.ID, differs, said)
			case told && miss < seam.Tolerance-0.01, !told && miss > seam.Tolerance+0.01:
				t.Errorf("%s misses its ease by %.3f mm; told: %v", s.ID, miss, told)
			}
		}
	}
	return len(named)
}

// inMM is the difference that a seam's finding names.
func inMM(t failer, f finding.Finding) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(f.Args[2].(string), " mm"), 64)
	if err != nil {
		t.Errorf("%s: %v", f.Text(), err)
	}
	return v
}

// pulled moves one corner of a piece, with the ends of the two edges that meet in
// it, and leaves what is sewn to them as it is: a slip that opens seams.
func pulled(r *rapid.T, g pattern.Garment) pattern.Garment {
	g = g.Clone()
	var names []string
	for _, u := range g.View.Uses {
		if _, ok := g.Pieces[u.Piece]; ok {
			names = append(names, u.Piece)
		}
	}
	name := rapid.SampledFrom(names).Draw(r, "pulled piece")
	p := g.Pieces[name].Clone()
	i := rapid.IntRange(0, len(p.Edges)-1).Draw(r, "pulled corner")
	by := geom.Pt{X: rapid.Float64Range(-6, 6).Draw(r, "across"), Y: rapid.Float64Range(-6, 6).Draw(r, "along")}
	in := (i + len(p.Edges) - 1) % len(p.Edges)
	p.Edges[i].Curve, p.Edges[in].Curve = append(geom.Curve{}, p.Edges[i].Curve...), append(geom.Curve{}, p.Edges[in].Curve...)
	first, last := &p.Edges[i].Curve[0], &p.Edges[in].Curve[len(p.Edges[in].Curve)-1]
	*first = geom.Cubic(first.P[0].Add(by), first.P[1].Add(by), first.P[2], first.P[3])
	*last = geom.Cubic(last.P[0], last.P[1], last.P[2].Add(by), last.P[3].Add(by))
	g.Pieces[name] = p
	return g
}

// Of every view as drawn, and of each with a corner pulled out of place, walking
// says what the beads say.
func TestWalkHeldToBeads(t *testing.T) {
	all := sources(t)
	for _, g := range all {
		heldToBeads(t, g)
	}
	opened := 0
	rapid.Check(t, func(r *rapid.T) {
		opened += heldToBeads(r, pulled(r, rapid.SampledFrom(all).Draw(r, "garment")))
	})
	if opened == 0 {
		t.Error("no corner that was pulled has opened a seam")
	}
}
