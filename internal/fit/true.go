package fit

import (
	"math"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/unit"
)

// Truing shares what blending has left of a difference between the sides of a
// seam. The print itself is not questioned: what its sides differ by in each
// size is intended, and a blended seam should differ by what lies between.
//
// Corners are moved, and each edge follows with a shift that runs evenly from
// the one corner's to the other's, so that straight edges stay straight. Of all
// movements that make every seam fit the one with the smallest sum of squares
// is taken: least squares with the seams as constraints. Pieces without levels
// of their own (a shield, a band) give way to those that carry the figure.

const (
	// trueFrom is the difference, in mm, from which seams are trued.
	trueFrom = 0.05
	// trueTo is the difference at which truing is content.
	trueTo = 0.005
	// tellFrom is the difference from which truing is told.
	tellFrom = 0.1
	// giving is how much more readily, in mm², a corner of a piece without
	// levels moves than one of a piece with levels.
	giving = 400.0
)

// truer trues the joints of a garment.
type truer struct {
	joints []joint
	pieces map[string]*fitted
	order  []string
	offset map[*drawn]int     // where a piece's corners begin among the unknowns
	tie    []int              // unknowns that must stay alike point at one of them
	held   map[notchAt]int    // the notches at which stretches end: their unknowns
	moved  map[*drawn]float64 // the furthest a corner went, mm
}

// trueJoins trues the seams and says which of them needed it.
func trueJoins(js []joint, pieces map[string]*fitted, order []string) finding.List {
	t := &truer{joints: js, pieces: pieces, order: order, moved: map[*drawn]float64{}}
	t.number()
	t.alignNotches()
	first := t.misses()
	if first.worst() < trueFrom {
		return nil
	}
	misses := first
	for range 6 {
		t.step(misses)
		if misses = t.misses(); misses.worst() < trueTo {
			break
		}
	}
	var out finding.List
	for i, j := range js {
		if m := first.of(i); m > tellFrom {
			out = append(out, trued.At(j.join.Place, j.join.ID, mm(m), mm(t.furthest(j))))
		}
	}
	return out
}

// mm writes a small difference, which no other unit can.
func mm(v float64) string { return unit.Format(v, unit.Millimetre) }

// miss is how much longer a side of a joint is than it should be against the
// first side, in mm.
type miss struct {
	joint, side int
	by          float64
}

type missList []miss

func (l missList) worst() float64 {
	var w float64
	for _, m := range l {
		w = math.Max(w, math.Abs(m.by))
	}
	return w
}

func (l missList) of(joint int) float64 {
	var w float64
	for _, m := range l {
		if m.joint == joint {
			w = math.Max(w, math.Abs(m.by))
		}
	}
	return w
}

func (t *truer) misses() missList {
	var out missList
	for i, j := range t.joints {
		first := t.length(j.sides[0])
		for k := 1; k < len(j.sides); k++ {
			out = append(out, miss{i, k, t.length(j.sides[k]) - first - j.printed(k)})
		}
	}
	return out
}

// length is the length of a chain as fitted.
func (t *truer) length(chain []stretch) float64 {
	var sum float64
	for _, s := range chain {
		from, to := t.span(s)
		sum += to - from
	}
	return sum
}

// span returns where a stretch begins and ends on the fitted edge.
func (t *truer) span(s stretch) (from, to float64) {
	f := t.pieces[s.ref.Piece]
	if s.ref.Inside {
		return 0, f.lines[s.edge].Curve.Length()
	}
	l := f.curves[s.edge].Length()
	if s.ref.From == "" {
		return 0, l
	}
	p := f.d.base
	p.Marks = f.marks
	from, to, _ = span(p, s.edge, l, s.ref)
	return from, to
}

// printed is how much longer a side is than the first in print, between the
// sizes that the seam has on average.
func (j joint) printed(side int) float64 {
	n := len(j.sides[0][0].d.sizes)
	diff := make([]float64, n)
	for i := range diff {
		diff[i] = printedLength(j.sides[side], i) - printedLength(j.sides[0], i)
	}
	const readings = 8
	var s float64
	for k := range readings {
		s += sizeAlong(j.sides[0], (float64(k)+0.5)/readings) / readings
	}
	return between(diff, s)
}

func printedLength(chain []stretch, size int) float64 {
	var sum float64
	for _, s := range chain {
		from, to := s.printedSpan(size)
		sum += to - from
	}
	return sum
}

func (s stretch) printedSpan(size int) (from, to float64) {
	p := s.d.sizes[size]
	if s.ref.Inside {
		return 0, p.Lines[s.edge].Curve.Length()
	}
	from, to, _ = span(p, s.edge, p.Edges[s.edge].Curve.Length(), s.ref)
	return from, to
}

// number gives every corner its two unknowns, and every notch at which a stretch
// of a join ends one: how far it slides along its edge. Corners at the ends of an upright
// or level straight edge keep in line: their unknowns are tied.
func (t *truer) number() {
	t.offset = map[*drawn]int{}
	for _, name := range t.order {
		f := t.pieces[name]
		n := len(f.curves)
		at := len(t.tie)
		t.offset[f.d] = at
		for range 2 * n {
			t.tie = append(t.tie, len(t.tie))
		}
		for e, c := range f.curves {
			if !c.Straight(flatTol) {
				continue
			}
			d, after := c.End().Sub(c.Start()), (e+1)%n
			if math.Abs(d.X) <= flatTol {
				t.union(at+2*e, at+2*after)
			}
			if math.Abs(d.Y) <= flatTol {
				t.union(at+2*e+1, at+2*after+1)
			}
		}
	}
	t.held = map[notchAt]int{}
	for _, n := range stretchEnds(t.joints) {
		if _, ok := t.held[n]; !ok {
			t.held[n] = len(t.tie)
			t.tie = append(t.tie, len(t.tie))
		}
	}
}

func (t *truer) find(i int) int {
	for t.tie[i] != i {
		i = t.tie[i]
	}
	return i
}

func (t *truer) union(i, j int) { t.tie[t.find(i)] = t.find(j) }

// step moves the corners once against the misses.
func (t *truer) step(misses missList) {
	rows := make([][]float64, len(misses))
	rhs := make([]float64, len(misses))
	for k, m := range misses {
		rows[k] = make([]float64, len(t.tie))
		t.slope(rows[k], t.joints[m.joint].sides[m.side], 1)
		t.slope(rows[k], t.joints[m.joint].sides[0], -1)
		rhs[k] = -m.by
	}
	x := geom.LeastMove(rows, rhs, t.readiness())
	for _, name := range t.order {
		f := t.pieces[name]
		at := t.offset[f.d]
		moves := make([]geom.Pt, len(f.curves))
		for c := range moves {
			moves[c] = geom.Pt{X: x[t.find(at+2*c)], Y: x[t.find(at+2*c+1)]}
			t.moved[f.d] = math.Max(t.moved[f.d], moves[c].Len())
		}
		f.move(moves)
	}
	for n, i := range t.held {
		t.moved[n.d] = math.Max(t.moved[n.d], math.Abs(x[i]))
		t.pieces[n.d.base.Name].slide(n.mark, x[i])
	}
	t.alignNotches()
}

// readiness is how readily each unknown moves.
func (t *truer) readiness() []float64 {
	out := make([]float64, len(t.tie))
	for _, name := range t.order {
		f := t.pieces[name]
		at := t.offset[f.d]
		for i := range 2 * len(f.curves) {
			out[at+i] = 1
			if f.d.field.rank > 0 {
				out[at+i] = giving
			}
		}
	}
	for _, i := range t.held {
		out[i] = 1
	}
	return out
}

// slope adds to row how a chain's length changes with the corners. When the
// shift along an edge of length l runs evenly from one corner's to the other's,
// a stretch of it grows by the difference of the two, along its chord, over l.
func (t *truer) slope(row []float64, chain []stretch, sign float64) {
	for _, s := range chain {
		if s.ref.Inside {
			continue
		}
		c := t.pieces[s.ref.Piece].curves[s.edge]
		from, to := t.span(s)
		w := c.At(to).Sub(c.At(from)).Mul(sign / c.Length())
		at, n := t.offset[s.d], len(s.d.edges)
		a, b := at+2*s.edge, at+2*((s.edge+1)%n)
		row[t.find(b)] += w.X
		row[t.find(b+1)] += w.Y
		row[t.find(a)] -= w.X
		row[t.find(a+1)] -= w.Y
		for _, name := range []string{s.ref.From, s.ref.To} {
			if m := s.mark(name); m >= 0 {
				end := sign // further along: longer
				if math.Abs(t.pieces[s.ref.Piece].marks[m].At-from) < math.Abs(t.pieces[s.ref.Piece].marks[m].At-to) {
					end = -sign
				}
				row[t.held[notchAt{s.d, m}]] += end
			}
		}
	}
}

func (t *truer) furthest(j joint) float64 {
	var far float64
	for _, chain := range j.sides {
		for _, s := range chain {
			far = math.Max(far, t.moved[s.d])
		}
	}
	return far
}

// move shifts the corners of a piece, and everything between them evenly.
func (f *fitted) move(corners []geom.Pt) {
	far := 0.0
	for _, c := range corners {
		far = math.Max(far, c.Len())
	}
	if far < 1e-9 {
		return
	}
	f.moved = true
	p := f.shape.path
	for k, e := range p.edge {
		a, b := corners[e], corners[(e+1)%len(corners)]
		l := f.d.edges[e].length()
		f.shape.at[k] = f.shape.at[k].Add(a.Lerp(b, p.arc[k]/l))
		lean := b.Sub(a).Mul(1 / l)
		f.shape.out[k] = f.shape.out[k].Add(lean.Mul(f.shape.out[k].Len()))
		f.shape.in[k] = f.shape.in[k].Sub(lean.Mul(f.shape.in[k].Len()))
	}
	f.shape.settle()
	f.redraw()
	f.setNotches()
}
