package change

import (
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// Truing makes what is joined to a changed edge follow it. A step changes the
// lengths of the edges it moves; where the two sides of a seam now differ by
// more than they did before, corners are moved so that every seam differs again
// by what it did: by the least movement that does so, in the sense of least
// squares. Pieces without levels of their own (a band, a facing, a shield) give
// way readily; those that carry the figure hardly, and no further than mostTrue,
// or the step is refused: then it was the step that forgot a piece.

const (
	trueFrom = 0.05 // mm: the difference from which seams are trued
	trueTo   = 0.005
	tellTrue = 0.1 // mm: the movement from which truing is told
	mostTrue = 6.0 // mm: the furthest a corner of a piece with levels is moved

	giving = 400.0 // how much more readily, in mm², a corner of a piece without levels moves
	held   = 0.1   // the same for a corner that the step itself has moved
)

// truer trues the seams of a garment.
type truer struct {
	j      *job
	at     map[string]int     // where a drawing's corners begin among the unknowns
	ready  []float64          // how readily each unknown moves
	before looked             // the garment before the step
	now    looked             // the garment as it was last walked
	moved  map[string]float64 // the furthest a corner of a drawing went, mm
}

// trueSeams trues what the step has parted. It leaves everything as it is where
// that would move a piece too far: the walk of the seams then tells.
func (j *job) trueSeams(before looked) {
	t := newTruer(j, before)
	first := t.misses()
	if worst(first) < trueFrom {
		t.alignNotches()
		return
	}
	kept := j.g.Clone()
	misses := first
	for range 8 {
		t.step(misses)
		if misses = t.misses(); worst(misses) < trueTo {
			break
		}
	}
	if worst(misses) > seam.Tolerance/2 || t.tooFar() {
		j.g = kept
		return
	}
	t.alignNotches()
	for _, m := range first {
		if far := t.furthest(m.seam); math.Abs(m.by) > tellTrue && far > tellTrue {
			j.tell(trued, m.seam.ID, unit.Format(math.Abs(m.by), unit.Millimetre), unit.Format(far, unit.Millimetre))
		}
	}
}

func newTruer(j *job, before looked) *truer {
	t := &truer{j: j, at: map[string]int{}, before: before, moved: map[string]float64{}}
	for _, name := range j.names() {
		p := j.g.Pieces[name]
		t.at[name] = len(t.ready)
		fold := foldEdge(j.g, p.Name)
		for i, e := range p.Edges {
			ready := 1.0
			switch {
			case e.Name == fold || p.Before(i).Name == fold:
				ready = 0 // the ends of a fold stay on it
			case !levelled(p):
				ready = giving
			case slices.Contains(e.Steps, j.step.ID) && slices.Contains(p.Before(i).Steps, j.step.ID):
				ready = held
			}
			t.ready = append(t.ready, ready, ready)
		}
	}
	return t
}

// levelled reports whether a piece carries the figure: whether levels of the
// body cross it.
func levelled(p piece.Piece) bool {
	return slices.ContainsFunc(p.Lines, func(l piece.Line) bool { return l.Kind == piece.Level })
}

func foldEdge(g pattern.Garment, name string) string {
	if u, ok := g.Use(name); ok && u.Copies == pattern.OnFold {
		return u.FoldEdge
	}
	return ""
}

// parted is a side of a seam that differs from the first by more than before.
type parted struct {
	seam seam.Seam
	side int
	by   float64 // mm
}

func worst(list []parted) float64 {
	var w float64
	for _, m := range list {
		w = math.Max(w, math.Abs(m.by))
	}
	return w
}

// misses lists every side of every seam that was there before the step, those
// that fit as well: they are to go on fitting.
func (t *truer) misses() []parted {
	var out []parted
	t.now = look(t.j.g)
	for _, r := range t.now.walked {
		before, was := t.before.report(r.Seam)
		if !was || len(before.Gaps) != len(r.Gaps) {
			continue
		}
		for side := 1; side < len(r.Gaps); side++ {
			by := r.Gaps[side] - before.Gaps[side]
			if r.Seam.Join == t.j.settled {
				by = r.Gaps[side]
			}
			out = append(out, parted{r.Seam, side, by})
		}
	}
	return out
}

// step moves the corners once against the misses.
func (t *truer) step(misses []parted) {
	rows := make([][]float64, len(misses))
	rhs := make([]float64, len(misses))
	for k, m := range misses {
		rows[k] = make([]float64, len(t.ready))
		t.slope(rows[k], m.seam.Sides[m.side], 1)
		t.slope(rows[k], m.seam.Sides[0], -1)
		rhs[k] = -m.by
	}
	x := geom.LeastMove(rows, rhs, t.ready)
	for _, name := range t.j.names() {
		p := t.j.g.Pieces[name]
		by, far := make([]geom.Pt, len(p.Edges)), 0.0
		for i := range by {
			at := t.at[name] + 2*i
			by[i] = geom.Pt{X: x[at], Y: x[at+1]}
			far = math.Max(far, by[i].Len())
		}
		if far < 1e-6 {
			continue
		}
		t.moved[name] += far
		t.j.shiftCorners(&p, by, !levelled(p))
		t.j.g.Pieces[name] = p
	}
}

// slope adds to row how a chain's length changes with the corners. When the
// shift along an edge of length l runs evenly from one corner's to the other's,
// a stretch of it grows by the difference of the two, along its chord, over l.
func (t *truer) slope(row []float64, chain []seam.Stretch, sign float64) {
	for _, st := range chain {
		if st.Inside {
			continue
		}
		name, mirrored := drawing(t.j.g, st)
		p := t.j.g.Pieces[name]
		i := p.Index(st.Edge)
		c := p.Edges[i].Curve
		l := c.Length()
		from, to := st.From, st.To
		if mirrored {
			from, to = l-st.To, l-st.From
		}
		w := c.At(to).Sub(c.At(from)).Mul(sign / l)
		a, b := t.at[name]+2*i, t.at[name]+2*((i+1)%len(p.Edges))
		row[b] += w.X
		row[b+1] += w.Y
		row[a] -= w.X
		row[a+1] -= w.Y
	}
}

func (t *truer) tooFar() bool {
	for name, far := range t.moved {
		if far > mostTrue && levelled(t.j.g.Pieces[name]) {
			return true
		}
	}
	return false
}

// furthest is how far a corner of the pieces in a seam was moved.
func (t *truer) furthest(s seam.Seam) float64 {
	var far float64
	for _, chain := range s.Sides {
		for _, st := range chain {
			name, _ := drawing(t.j.g, st)
			far = math.Max(far, t.moved[name])
		}
	}
	return far
}
