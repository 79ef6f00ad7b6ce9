package sheet

import (
	"cmp"
	"slices"

	"gusset/internal/draw"
	"gusset/internal/geom"
)

// part is a drawing that takes a box of paper.
type part struct {
	name string
	// piece is the index of the piece it shows; -1 for none.
	piece int
	list  *draw.List
	box   draw.Rect
	// outline is the piece's cut line, empty for a part that is no piece.
	outline []geom.Pt
	// fixed parts keep their way up.
	fixed bool
}

// partGap is the paper left between two parts, in mm.
const partGap = 8.0

// partOf returns a drawing with the box round it.
func partOf(name string, l *draw.List) part {
	lo, hi := l.Bounds()
	return part{name: name, piece: -1, list: l, box: draw.Rect{Min: lo, Max: hi}}
}

// least returns how much paper the part takes across a strip, at least.
func (p part) least() float64 {
	w, h := p.size(false)
	if p.fixed {
		return w
	}
	return min(w, h)
}

// longest returns the longer side of the paper the part takes.
func (p part) longest() float64 {
	w, h := p.size(false)
	return max(w, h)
}

// size returns the paper a part takes, gap included, as it stands or on its
// side.
func (p part) size(turned bool) (w, h float64) {
	w, h = p.box.W()+partGap, p.box.H()+partGap
	if turned {
		return h, w
	}
	return w, h
}

// placed is a part with the map that puts it on the paper.
type placed struct {
	part
	to geom.Affine
}

// arrangement is parts on a strip of paper: x across from 0, y upwards from 0.
type arrangement struct {
	parts         []placed
	width, height float64
}

// arrange puts parts on a strip of paper of the given width and at most the
// given length, one after the other, the largest first, each as low as it goes
// with its box above those that lie there. The grain counts for nothing on
// paper, so parts may lie on their side. Parts without room are handed back.
func arrange(parts []part, width, limit float64) (a arrangement, left []part) {
	order := slices.Clone(parts)
	slices.SortStableFunc(order, func(a, b part) int { return cmp.Compare(b.longest(), a.longest()) })
	a.width = width
	line := skyline{{0, width, 0}}
	for _, p := range order {
		x, y, turned, ok := line.lowest(p, limit)
		if !ok {
			left = append(left, p)
			continue
		}
		w, h := p.size(turned)
		line = line.raised(x, w, y+h)
		a.height = max(a.height, y+h)
		a.parts = append(a.parts, placed{p, p.onto(x, y, turned)})
	}
	return a, left
}

// onto returns the map that puts the part's box, with half the gap around, at
// (x, y).
func (p part) onto(x, y float64, turned bool) geom.Affine {
	m := geom.Identity()
	lo := p.box.Min
	if turned {
		// A quarter to the right, so that words that read upwards on the piece
		// come upright.
		m = geom.Affine{B: -1, C: 1}
		lo = geom.Pt{X: p.box.Min.Y, Y: -p.box.Max.X}
	}
	return m.Then(geom.Shift(geom.Pt{X: x + partGap/2, Y: y + partGap/2}.Sub(lo)))
}

// list returns the whole arrangement as one drawing.
func (a arrangement) list(title string) *draw.List {
	l := &draw.List{Title: title}
	for _, p := range a.parts {
		l.Transform(p.to, func(l *draw.List) { l.Append(p.list) })
	}
	return l
}

// area returns the paper the arrangement takes.
func (a arrangement) area() draw.Rect { return draw.Box(0, 0, a.width, a.height) }

// ledge is a level stretch of the upper border of what is laid.
type ledge struct{ from, to, y float64 }

// skyline is that border from left to right.
type skyline []ledge

// lowest returns the place where the top of the part comes to lie lowest, then
// leftmost; not above the limit.
func (s skyline) lowest(p part, limit float64) (x, y float64, turned, ok bool) {
	top := limit + 1e-6
	for _, t := range []bool{false, true} {
		if t && p.fixed {
			continue
		}
		w, h := p.size(t)
		for _, l := range s {
			level, fits := s.level(l.from, w)
			if fits && level+h < top-1e-9 {
				x, y, turned, ok, top = l.from, level, t, true, level+h
			}
		}
	}
	return x, y, turned, ok
}

// level returns how high a box of width w lies with its left side at x.
func (s skyline) level(x, w float64) (y float64, fits bool) {
	if x+w > s[len(s)-1].to+1e-9 {
		return 0, false
	}
	for _, l := range s {
		if l.from < x+w-1e-9 && l.to > x+1e-9 {
			y = max(y, l.y)
		}
	}
	return y, true
}

// raised returns the border with the stretch from x to x+w lifted to y.
func (s skyline) raised(x, w, y float64) skyline {
	var out skyline
	done := false
	for _, l := range s {
		if l.from < x-1e-9 {
			out = append(out, ledge{l.from, min(l.to, x), l.y})
		}
		if !done && l.to > x+1e-9 {
			out = append(out, ledge{x, x + w, y})
			done = true
		}
		if l.to > x+w+1e-9 {
			out = append(out, ledge{max(l.from, x+w), l.to, l.y})
		}
	}
	return out
}
