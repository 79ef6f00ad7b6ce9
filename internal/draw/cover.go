package draw

import (
	"gusset/internal/geom"
)

// cover answers whether a drawing shows anything in a window.
type cover struct {
	lines []coverLine
	texts []Rect
}

// coverLine is a flattened line with how far its pen reaches.
type coverLine struct {
	run
	box  Rect
	halo float64
}

// coverOf prepares a drawing for asking. Clips only take away, and what they
// take is not looked into: a window may count as showing too much.
func coverOf(l *List) cover {
	var c cover
	walk(l.items, func(it item) {
		if it.text != nil {
			corners := it.text.corners()
			lo, hi := geom.BoundsOf(corners[:])
			c.texts = append(c.texts, Rect{lo, hi})
			return
		}
		for _, r := range it.shape.path.runs(flatness) {
			lo, hi := geom.BoundsOf(r.pts)
			r.closed = r.closed || it.shape.style.fills()
			c.lines = append(c.lines, coverLine{r, Rect{lo, hi}, it.shape.style.halo()})
		}
	})
	return c
}

// shows reports whether the window has some of the drawing in it, or lies
// inside a closed line of it.
func (c cover) shows(w Rect) bool {
	for _, t := range c.texts {
		if t.overlaps(w) {
			return true
		}
	}
	for _, l := range c.lines {
		wide := w.Inset(-l.halo)
		if l.box.overlaps(wide) && (l.enters(wide) || l.closed && geom.Inside(l.pts, w.Center())) {
			return true
		}
	}
	return false
}

// overlaps is like Meets, but needs more than a shared border, and takes boxes
// without a height or a width.
func (r Rect) overlaps(s Rect) bool {
	return r.Min.X < s.Max.X && s.Min.X < r.Max.X && r.Min.Y < s.Max.Y && s.Min.Y < r.Max.Y
}

// enters reports whether the line has a part inside the window.
func (l coverLine) enters(w Rect) bool {
	n := len(l.pts)
	if n == 1 {
		return w.overlaps(Rect{l.pts[0], l.pts[0]})
	}
	for i := 1; i < n; i++ {
		if w.crossed(l.pts[i-1], l.pts[i]) {
			return true
		}
	}
	return l.closed && w.crossed(l.pts[n-1], l.pts[0])
}

// crossed reports whether the line from a to b has a part inside the box: the
// part of the line between the box's four sides is narrowed until it is gone
// (Liang and Barsky, ACM Transactions on Graphics 3, 1984).
func (r Rect) crossed(a, b geom.Pt) bool {
	d := b.Sub(a)
	from, to := 0.0, 1.0
	for _, side := range [4][2]float64{
		{-d.X, a.X - r.Min.X}, {d.X, r.Max.X - a.X},
		{-d.Y, a.Y - r.Min.Y}, {d.Y, r.Max.Y - a.Y},
	} {
		p, q := side[0], side[1]
		switch {
		case p == 0:
			if q <= 0 {
				return false
			}
		case p < 0:
			from = max(from, q/p)
		default:
			to = min(to, q/p)
		}
	}
	return from < to
}
