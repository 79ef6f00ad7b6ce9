package pattern

import (
	"fmt"
	"math"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// Stitching lines are recovered from printed cutting lines: every edge is moved
// inwards by its allowance, one segment for each segment, and corners are where
// neighbouring moved edges meet. The same segments meet in every size, so that
// the sizes between can be drawn.

// How far a recovered line may be off, in mm. Up to insetTol nobody can see or
// cut it; beyond insetMost the paper is drawn with too few nodes to tell where
// the stitching line runs.
const (
	insetTol  = 0.02
	insetMost = 0.5
)

// Print is the inverse: it draws the cutting lines of pieces given on the
// stitching line, one for each size, every edge outwards by its Printed
// allowance. The result is what a drawing holds and Load reads.
func Print(sizes []string, in []piece.Piece) ([]piece.Piece, finding.List) {
	var found finding.List
	l := &loader{p: &Pattern{Sizes: sizes}, out: &found}
	out := make([]piece.Piece, len(in))
	for k, p := range in {
		out[k] = p.Clone()
	}
	d := drawing{loader: l, name: in[0].Name, place: in[0].Place, outwards: true}
	d.recover(out)
	return out, found
}

// recover replaces the printed edges by stitching lines, in every size alike,
// and carries the notches over.
func (d *drawing) recover(in []piece.Piece) {
	moved := make([][]geom.Curve, len(in)) // by size, by edge
	for k, p := range in {
		for _, e := range p.Edges {
			c, err := d.moveIn(e, k)
			if err != nil {
				d.tell(noInset, e.Place, d.name, d.p.Sizes[k], err.Error())
				return
			}
			moved[k] = append(moved[k], c)
		}
	}
	n := len(in[0].Edges)
	corners := make([][]corner, len(in)) // by size; corner i ends edge i
	for i := range n {
		for k, c := range d.corners(in, moved, i) {
			corners[k] = append(corners[k], c)
		}
		if len(corners[0]) != i+1 {
			return
		}
	}
	for k := range in {
		old := in[k].Clone()
		for i := range n {
			c, ok := stretch(moved[k][i], corners[k][(i+n-1)%n], corners[k][i])
			if !ok {
				d.tell(noInset, old.Edges[i].Place, d.name, d.p.Sizes[k], old.Edges[i].Name+" has nothing left between its corners")
				return
			}
			in[k].Edges[i].Curve = c
		}
		d.carryNotches(old, &in[k])
	}
}

// moveIn moves an edge to its stitching line.
func (d *drawing) moveIn(e piece.Edge, size int) (geom.Curve, error) {
	if e.Printed == 0 {
		return e.Curve, nil
	}
	by := e.Printed
	if d.outwards {
		by = -by
	}
	c, off, err := e.Curve.ParallelSame(by)
	if err != nil {
		return nil, fmt.Errorf("edge %s bends more sharply than its allowance of %.0f mm", e.Name, e.Printed)
	}
	if off > insetMost {
		d.tell(farInset, e.Place, d.name, e.Name, off, d.p.Sizes[size])
	} else if off > insetTol {
		d.tell(roughInset, e.Place, d.name, e.Name, off, d.p.Sizes[size])
	}
	return c, nil
}

// corners finds where edge i and the next one meet, in every size, on the same
// segments in all of them.
func (d *drawing) corners(in []piece.Piece, moved [][]geom.Curve, i int) []corner {
	n := len(in[0].Edges)
	next := (i + 1) % n
	onA, onB := make([][]spot, len(in)), make([][]spot, len(in))
	for k, p := range in {
		reach := 3*math.Max(p.Edges[i].Printed, p.Edges[next].Printed) + 5
		a, b, err := cornerOf(moved[k][i], moved[k][next], reach)
		if err != nil {
			d.tell(noInset, p.Edges[i].Place, d.name, d.p.Sizes[k], p.Edges[i].Name+" and "+p.Edges[next].Name+": "+err.Error())
			return nil
		}
		onA[k], onB[k] = a, b
	}
	sa, ok1 := shared(onA)
	sb, ok2 := shared(onB)
	if !ok1 || !ok2 {
		d.tell(differs, in[0].Edges[i].Place, d.name, "other than "+d.p.Sizes[0], d.p.Sizes[0],
			"the stitching lines of "+in[0].Edges[i].Name+" and "+in[0].Edges[next].Name+" meet on other segments")
		return nil
	}
	out := make([]corner, len(in))
	for k, p := range in {
		c, ok := settle(moved[k][i], moved[k][next], spotOn(onA[k], sa), spotOn(onB[k], sb))
		if !ok {
			d.tell(noInset, p.Edges[i].Place, d.name, d.p.Sizes[k], p.Edges[i].Name+" and "+p.Edges[next].Name+" do not meet")
			return nil
		}
		out[k] = c
	}
	return out
}

// shared finds the first segment on which every size can tell its corner.
func shared(on [][]spot) (int, bool) {
	for _, s := range on[0] {
		all := true
		for _, spots := range on[1:] {
			has := false
			for _, t := range spots {
				has = has || t.seg == s.seg
			}
			all = all && has
		}
		if all {
			return s.seg, true
		}
	}
	return 0, false
}

func spotOn(spots []spot, seg int) spot {
	for _, s := range spots {
		if s.seg == seg {
			return s
		}
	}
	return spots[0]
}

// stretch is a moved edge between its two corners.
func stretch(c geom.Curve, from, to corner) (geom.Curve, bool) {
	if from.B > to.A || from.B == to.A && from.U >= to.T {
		return nil, false
	}
	out := append(geom.Curve(nil), c[from.B:to.A+1]...)
	last := len(out) - 1
	if last == 0 {
		out[0] = continued(c[from.B], from.U, to.T)
	} else {
		out[0] = continued(c[from.B], from.U, 1)
		out[last] = continued(c[to.A], 0, to.T)
	}
	return fixEnds(out, from.P, to.P), true
}

// fixEnds sets the ends exactly on the corners.
func fixEnds(c geom.Curve, a, b geom.Pt) geom.Curve {
	last := len(c) - 1
	if c[0].Straight {
		c[0] = geom.Line(a, c[0].P[3])
	} else {
		c[0].P[0] = a
	}
	if c[last].Straight {
		c[last] = geom.Line(c[last].P[0], b)
	} else {
		c[last].P[3] = b
	}
	for i := 1; i <= last; i++ { // joints of refitted segments agree to a rounding
		if c[i].Straight {
			c[i] = geom.Line(c[i-1].P[3], c[i].P[3])
		} else {
			c[i].P[0] = c[i-1].P[3]
		}
	}
	return c
}

// onLine is how far a notch may be drawn off its printed line, in mm.
const onLine = 1.0

// carryNotches moves the notches from the printed lines to the stitching lines,
// square to them.
func (d *drawing) carryNotches(old piece.Piece, p *piece.Piece) {
	for i := range p.Marks {
		m := &p.Marks[i]
		if m.Kind != piece.Notch {
			continue
		}
		was, ok := old.Edge(m.Edge)
		if !ok {
			d.tell(badRef, m.Place, fmt.Sprintf("notch %s: %s has no edge %q", m.Name, d.name, m.Edge))
			continue
		}
		if _, off := was.Curve.Nearest(m.P); off > onLine {
			d.tell(farNotch, m.Place, m.Name, off, d.name, m.Edge)
			continue
		}
		e, _ := p.Edge(m.Edge)
		m.At, _ = e.Curve.Nearest(m.P)
		m.P = e.Curve.At(m.At)
	}
}
