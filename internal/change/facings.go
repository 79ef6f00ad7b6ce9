package change

import (
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// A facing is cut from the very edges it is sewn to. When a step changes those,
// the pattern maker traces the facing anew from the changed piece: so does
// recutFacings. A piece is a facing of another when it carries no levels of the
// figure and, turned in over the seam, its edge lies on the other's; each of
// its edges that then lies on an edge of the other is drawn anew from that
// edge, as far from the same corner, and the edges between (the free ones) go
// evenly with their ends.

// recutFacings draws the facings of the pieces that the step has changed.
func (j *job) recutFacings(before looked) {
	done := map[string]bool{}
	sameEdges := j.sewnAsBefore(before)
	for _, s := range before.seams {
		for a := range s.Sides {
			for b := range s.Sides {
				if a != b {
					j.recutAlong(before.Garment, s.Sides[a], s.Sides[b], done)
					if sameEdges[s.ID] {
						j.cutShort(before.Garment, s.Sides[a], s.Sides[b], done)
					}
				}
			}
		}
	}
}

// recutAlong looks along two sides of a seam for stretches of a facing that lie
// on stretches of a changed piece, each on its own counterpart.
func (j *job) recutAlong(before pattern.Garment, facings, mains []seam.Stretch, done map[string]bool) {
	if len(facings) != len(mains) {
		return
	}
	for k, f := range facings {
		main := mains[k]
		name, mirrored := drawing(before, f)
		on, mirroredMain := drawing(before, main)
		if f.Inside || main.Inside || mirrored || mirroredMain || name == on || done[name] || !j.facingOf(before, name, on) {
			continue
		}
		if lay, ok := turnedIn(f.Curve, main.Curve); ok {
			done[name] = true
			j.recut(before.Pieces[name], before.Pieces[on], j.g.Pieces[on], lay)
		}
	}
}

// facingOf reports whether a piece that the step has left alone may be a facing
// of one that it has changed.
func (j *job) facingOf(before pattern.Garment, name, on string) bool {
	if _, there := j.g.Pieces[name]; !there { // the step has made it part of another
		return false
	}
	return !levelled(before.Pieces[name]) && !touched(j.g.Pieces[name], j.step.ID) && touched(j.g.Pieces[on], j.step.ID)
}

// facingFit is how far a facing may stray from the piece it faces and still be
// one, mm: the truing of seams moves both a little.
const facingFit = 3.0

// turnedIn is the map that lays a facing, turned in over the seam, on the piece:
// its edge comes to lie on the piece's edge and its inside on the piece's.
func turnedIn(facing, edge geom.Curve) (geom.Affine, bool) {
	a, b := facing.Start(), facing.End()
	c, d := edge.Start(), edge.End()
	if a.Dist(b) < 1 {
		return geom.Affine{}, false
	}
	lay := geom.Turn(d.Sub(c).Angle()-b.Sub(a).Angle(), a).Then(geom.Shift(c.Sub(a))).Then(geom.MirrorAbout(c, d))
	l := facing.Length()
	for _, t := range []float64{0.2, 0.4, 0.6, 0.8, 1} {
		if lay.Apply(facing.At(t*l)).Dist(edge.At(t*edge.Length())) > facingFit {
			return geom.Affine{}, false
		}
	}
	return lay, true
}

// recut draws a facing anew. lay takes it to the piece before the change.
func (j *job) recut(facing, was, now piece.Piece, lay geom.Affine) {
	p := facing.Clone()
	back := inverse(lay)
	n := len(p.Edges)
	drawn := make([]geom.Curve, n)
	for i, e := range p.Edges {
		if c, ok := traced(e.Curve.Transform(lay).Reverse(), was, now); ok {
			drawn[i] = c.Reverse().Transform(back)
		}
	}
	for i := range p.Edges {
		before, after := (i+n-1)%n, (i+1)%n
		old := p.Edges[i].Curve
		if drawn[i] == nil {
			var a, b geom.Pt
			if drawn[before] != nil {
				a = drawn[before].End().Sub(old.Start())
			}
			if drawn[after] != nil {
				b = drawn[after].Start().Sub(old.End())
			}
			if a.Len() < 1e-9 && b.Len() < 1e-9 {
				continue
			}
			l := old.Length()
			drawn[i] = old.MapPoints(func(q geom.Pt, at float64) geom.Pt { return q.Add(a.Lerp(b, at/l)) }, fineFit)
		}
	}
	moved := make([]geom.Pt, n)
	for i := range p.Edges {
		if drawn[i] == nil {
			continue
		}
		moved[i] = drawn[i].Start().Sub(p.Edges[i].Curve.Start())
		j.redraw(&p, i, drawn[i])
	}
	if i := p.Index(foldEdge(j.g, p.Name)); i >= 0 {
		keepUpright(&p, i, facing.Edges[i].Curve)
	}
	closeCorners(&p)
	carryInside(&p, facing, moved)
	j.g.Pieces[facing.Name] = p
}

// keepUpright keeps a straight edge that lies on the fold on the line it had.
func keepUpright(p *piece.Piece, i int, was geom.Curve) {
	if !was.Straight(0.01) {
		return
	}
	a, u := was.Start(), was.End().Sub(was.Start()).Unit()
	onLine := func(q geom.Pt) geom.Pt { return a.Add(u.Mul(q.Sub(a).Dot(u))) }
	c := p.Edges[i].Curve
	c = geom.Polyline(onLine(c.Start()), onLine(c.End()))
	p.Edges[i].Curve = c
	next := p.Edges[(i+1)%len(p.Edges)].Curve
	if next[0].Straight {
		next[0] = geom.Line(c.End(), next[0].P[3])
	} else {
		next[0].P[0] = c.End()
	}
}

// redraw gives an edge a new curve and carries its notches along in proportion.
func (j *job) redraw(p *piece.Piece, i int, c geom.Curve) {
	e := &p.Edges[i]
	was := e.Curve.Length()
	e.Curve = c
	j.mark(e)
	for k := range p.Marks {
		if m := &p.Marks[k]; m.Kind == piece.Notch && m.Edge == e.Name {
			m.At *= c.Length() / was
			m.P = c.At(m.At)
		}
	}
}

// closeCorners makes every edge end where the next begins.
func closeCorners(p *piece.Piece) {
	n := len(p.Edges)
	for i := range p.Edges {
		c, next := p.Edges[i].Curve, p.Edges[(i+1)%n].Curve
		last := &c[len(c)-1]
		if last.Straight {
			*last = geom.Line(last.P[0], next.Start())
		} else {
			last.P[3] = next.Start()
		}
	}
}

// traced finds the edge of the old piece that a curve, walked with its outline,
// lies on, and draws the same part of the new one: the whole of it, or as much
// from the corner that they share.
func traced(c geom.Curve, was, now piece.Piece) (geom.Curve, bool) {
	l := c.Length()
	for i, e := range was.Edges {
		if i >= len(now.Edges) || now.Edges[i].Name != e.Name || !liesOn(c, e.Curve) {
			continue
		}
		fresh := now.Edges[i].Curve
		atStart, atEnd := c.Start().Dist(e.Curve.Start()) < facingFit, c.End().Dist(e.Curve.End()) < facingFit
		switch {
		case atStart && atEnd:
			return fresh, true
		case atStart && l < fresh.Length():
			return fresh.Between(0, l), true
		case atEnd && l < fresh.Length():
			return fresh.Between(fresh.Length()-l, fresh.Length()), true
		}
	}
	return nil, false
}

func liesOn(c, edge geom.Curve) bool {
	l := c.Length()
	for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
		if _, off := edge.Nearest(c.At(t * l)); off > facingFit {
			return false
		}
	}
	return true
}

// inverse undoes a map that keeps lengths.
func inverse(m geom.Affine) geom.Affine {
	d := float64(m.A*m.D) - float64(m.B*m.C)
	r := geom.Affine{A: m.D / d, B: -m.B / d, C: -m.C / d, D: m.A / d}
	o := r.Apply(geom.Pt{X: m.E, Y: m.F})
	r.E, r.F = -o.X, -o.Y
	return r
}

// fineFit is how closely curves are refitted by steps that have an inverse, so
// that there and back again stays within a hundredth of a millimetre.
const fineFit = 0.002
