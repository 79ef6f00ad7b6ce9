package exchange

import (
	"cmp"
	"math"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// parts makes the parts of one bundle: one where roles are told, otherwise one
// for each outermost closed outline.
func (a *assembler) parts(b bundle) []Part {
	var cut, sewn, loose []int
	for i, m := range b.meanings {
		if b.strokes[i].curve == nil {
			continue
		}
		switch m.role {
		case cutRole:
			cut = append(cut, i)
		case sewnRole:
			sewn = append(sewn, i)
		case anyRole:
			loose = append(loose, i)
		}
	}
	p := Part{Size: b.size, Place: a.placeOf(b, cut, sewn, loose)}
	p.Place.Piece = b.piece
	switch {
	case len(cut) > 0:
		return a.told(b, p, cut, sewn, loose)
	case len(sewn) > 0:
		return a.told(b, p, sewn, nil, loose)
	}
	return a.byShape(b, p, loose)
}

func (a *assembler) placeOf(b bundle, sets ...[]int) finding.Place {
	for _, set := range sets {
		if len(set) > 0 {
			return b.strokes[set[0]].place
		}
	}
	return finding.Place{File: a.file}
}

// told makes the parts of a bundle whose boundary is told, one for each closed
// boundary.
func (a *assembler) told(b bundle, p Part, cut, sewn, loose []int) []Part {
	name := b.piece
	if name == "" {
		name = "the piece"
	}
	loops, hints := a.loops(b, cut)
	if loops.fork != nil {
		a.tell(forks, p.Place, name, loops.fork.X, loops.fork.Y)
		return nil
	}
	if len(loops.open) > 0 && len(loops.closed) == 0 {
		theLoop(name, p.Place, loops, a.tell)
		return nil
	}
	sew, sewHints := a.loops(b, sewn)
	onlySewn := b.meanings[cut[0]].role == sewnRole
	var out []Part
	closed := bySize(loops.closed)
	stitched := bySize(sew.closed)
	if len(closed) > mostLoops || len(stitched) > mostLoops {
		a.tell(tooMuch, p.Place, mostLoops, "closed lines in one group")
		return nil
	}
	for _, loop := range closed {
		q := p
		loop = counterClockwise(loop)
		q.Cut = split(loop, hints, false)
		if onlySewn {
			q.Sewn = q.Cut
		}
		for _, s := range stitched {
			if len(q.Sewn) == 0 && within(loop, s, 0.05) {
				q.Sewn = split(counterClockwise(s), sewHints, false)
			}
		}
		a.inside(b, &q, loop, loose, len(closed) == 1)
		out = append(out, q)
	}
	if len(out) == 0 {
		a.tell(tiny, p.Place, name)
	}
	return out
}

// loops chains the curves of some strokes, and says where named edges begin.
func (a *assembler) loops(b bundle, set []int) (chains, hints) {
	var curves []geom.Curve
	var h hints
	for _, i := range set {
		c := b.strokes[i].curve
		curves = append(curves, c)
		if m := b.meanings[i]; len(m.names) == 1 && len(c) > 0 {
			h.starts = append(h.starts, label{m.names[0], c.Start()})
		}
	}
	return chain(curves), h
}

// within reports whether a closed curve lies inside another, or on it within tol.
func within(outer, inner geom.Curve, tol float64) bool {
	lo, hi := geom.BoundsOf(controls(outer))
	ring := loopPoints(outer)
	pts := loopPoints(inner)
	for i := 0; i < len(pts); i += 1 + len(pts)/40 { // outlines that cross are no pieces: some of their points tell
		q := pts[i]
		if q.X < lo.X-tol || q.X > hi.X+tol || q.Y < lo.Y-tol || q.Y > hi.Y+tol {
			return false
		}
		if geom.Inside(ring, q) {
			continue
		}
		if _, d := outer.Nearest(q); d > tol {
			return false
		}
	}
	return true
}

func controls(c geom.Curve) []geom.Pt {
	var out []geom.Pt
	for _, s := range c {
		out = append(out, s.P[:]...)
	}
	return out
}

// mostLoops bounds the closed lines of one group.
const mostLoops = 400

// byShape takes the outermost closed outlines of strokes that say nothing of
// themselves as boundaries.
func (a *assembler) byShape(b bundle, p Part, loose []int) []Part {
	loops, _ := a.loops(b, loose)
	var outer []geom.Curve
	inner := 0
	closed := bySize(loops.closed)
	if len(closed) > mostLoops {
		a.tell(tooMuch, p.Place, mostLoops, "closed lines in one group")
		return nil
	}
	for _, c := range closed {
		if slices.ContainsFunc(outer, func(o geom.Curve) bool { return within(o, c, 0.05) }) {
			inner++
			continue
		}
		outer = append(outer, counterClockwise(c))
	}
	if len(outer) == 0 {
		if len(loops.open) > 0 {
			name := b.piece
			if name == "" {
				name = "the drawing"
			}
			theLoop(name, p.Place, chains{open: loops.open, fork: loops.fork}, a.tell)
		}
		return nil
	}
	if loops.fork != nil {
		a.tell(forked, p.Place, loops.fork.X, loops.fork.Y)
	}
	if inner > 0 {
		a.tell(innerLoops, p.Place, inner)
	}
	var out []Part
	for _, loop := range outer {
		q := p
		q.Cut = split(loop, hints{}, false)
		a.inside(b, &q, loop, nil, len(outer) == 1)
		q.Lines = append(q.Lines, openInside(loops.open, loop, p.Place)...)
		out = append(out, q)
	}
	return out
}

// bySize are the closed lines that are no mere signs, the largest first.
func bySize(closed []geom.Curve) []geom.Curve {
	type sized struct {
		c    geom.Curve
		area float64
	}
	var list []sized
	for _, c := range closed {
		if lo, hi := c.Bounds(); lo.Dist(hi) >= smallest && len(c) > 1 {
			list = append(list, sized{c, math.Abs(geom.Area(loopPoints(c)))})
		}
	}
	slices.SortStableFunc(list, func(x, y sized) int { return cmp.Compare(y.area, x.area) })
	out := make([]geom.Curve, len(list))
	for i, s := range list {
		out[i] = s.c
	}
	return out
}

// openInside are the open runs that lie inside an outline, as placement lines.
func openInside(open []geom.Curve, loop geom.Curve, place finding.Place) []piece.Line {
	var in []geom.Curve
	ring := loopPoints(loop)
	for _, c := range open {
		if c.Length() > smallest && geom.Inside(ring, c.At(c.Length()/2)) {
			in = append(in, c)
		}
	}
	var out []piece.Line
	for i, c := range in {
		out = append(out, piece.Line{Kind: piece.Placement, Name: numbered("line", i, max(2, len(in))), Curve: c, Place: place})
	}
	return out
}

// inside puts lines, marks and words into the part whose outline they lie in; all
// of them when it is the only one.
func (a *assembler) inside(b bundle, p *Part, loop geom.Curve, loose []int, only bool) {
	ring := loopPoints(loop)
	here := func(q geom.Pt) bool {
		if only || geom.Inside(ring, q) {
			return true
		}
		_, d := loop.Nearest(q)
		return d < 1
	}
	var lines, notches, drills int
	for i, m := range b.meanings {
		s := b.strokes[i]
		if len(p.Lines) > mostInside || len(p.Marks) > mostInside {
			return // told when the sizes are matched
		}
		switch {
		case s.text != "":
			if here(s.p) && p.Title == "" && (b.piece == "" || !only) {
				p.Title = s.text
			}
		case m.role == lineRole && s.curve != nil && here(s.curve.At(s.curve.Length()/2)):
			lines++
			p.Lines = append(p.Lines, lineOf(m, s, lines))
		case m.role == notchRole:
			notches++
			if k, ok := notchOf(m, s, loop, notches); ok && here(k.P) {
				p.Marks = append(p.Marks, k)
			}
		case m.role == markRole && here(s.at()):
			drills++
			k := piece.Mark{Kind: piece.Drill, Name: numbered("drill", drills-1, 2), P: s.at(), Place: s.place}
			if len(m.names) == 2 && slices.Contains(piece.MarkKinds, piece.MarkKind(m.names[0])) {
				k.Kind, k.Name = piece.MarkKind(m.names[0]), m.names[1]
			}
			p.Marks = append(p.Marks, k)
		case m.role == mirrorRole && s.curve != nil && here(s.curve.At(s.curve.Length()/2)):
			p.Mirror = s.curve
		}
	}
	p.Lines = append(p.Lines, openInside(chain(curvesOf(b, loose)).open, loop, p.Place)...)
}

func curvesOf(b bundle, set []int) []geom.Curve {
	var out []geom.Curve
	for _, i := range set {
		out = append(out, b.strokes[i].curve)
	}
	return out
}

// at is where a stroke that marks a point marks it.
func (s stroke) at() geom.Pt {
	if s.curve == nil {
		return s.p
	}
	lo, hi := s.curve.Bounds()
	return lo.Lerp(hi, 0.5)
}

func lineOf(m meaning, s stroke, n int) piece.Line {
	l := piece.Line{Kind: piece.Placement, Name: numbered("line", n-1, 2), Curve: s.curve, Place: s.place}
	if len(m.names) == 2 && slices.Contains(piece.LineKinds, piece.LineKind(m.names[0])) {
		l.Kind, l.Name = piece.LineKind(m.names[0]), m.names[1]
	}
	return l
}

// longestNotch is the longest stroke that is taken for a notch, in mm.
const longestNotch = 15

// notchOf reads a dot, or a short stroke that begins or ends on the outline.
func notchOf(m meaning, s stroke, loop geom.Curve, n int) (piece.Mark, bool) {
	k := piece.Mark{Kind: piece.Notch, Name: numbered("notch", n-1, 2), P: s.p, Place: s.place}
	if len(m.names) == 2 {
		k.Edge, k.Name = m.names[0], m.names[1]
	}
	if s.curve == nil {
		return k, true
	}
	if s.curve.Length() > longestNotch {
		return k, false
	}
	if c := s.curve; c.Start().Dist(c.End()) <= joinTol {
		k.P = s.at()
		return k, true
	}
	k.P = nearEndOf(s.curve, loop)
	return k, true
}
