package draw

import "gusset/internal/geom"

// Rect is a box with its sides along the axes, in mm.
type Rect struct{ Min, Max geom.Pt }

// Box returns the rectangle with its lower left corner at (x, y).
func Box(x, y, w, h float64) Rect {
	return Rect{geom.Pt{X: x, Y: y}, geom.Pt{X: x + w, Y: y + h}}
}

// W returns the width.
func (r Rect) W() float64 { return r.Max.X - r.Min.X }

// H returns the height.
func (r Rect) H() float64 { return r.Max.Y - r.Min.Y }

// Empty reports whether the box has no inside.
func (r Rect) Empty() bool { return !(r.Max.X > r.Min.X && r.Max.Y > r.Min.Y) }

// Center returns the middle of the box.
func (r Rect) Center() geom.Pt { return r.Min.Lerp(r.Max, 0.5) }

// TopLeft returns the corner where reading begins.
func (r Rect) TopLeft() geom.Pt { return geom.Pt{X: r.Min.X, Y: r.Max.Y} }

// Inset returns the box with d taken off every side; a negative d adds.
func (r Rect) Inset(d float64) Rect {
	v := geom.Pt{X: d, Y: d}
	return Rect{r.Min.Add(v), r.Max.Sub(v)}
}

// Contains reports whether p lies in the box or on its border.
func (r Rect) Contains(p geom.Pt) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Meets reports whether the boxes share at least a point.
func (r Rect) Meets(s Rect) bool {
	return r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}

// Intersect returns what the boxes share; Empty when that is nothing.
func (r Rect) Intersect(s Rect) Rect {
	return Rect{
		geom.Pt{X: max(r.Min.X, s.Min.X), Y: max(r.Min.Y, s.Min.Y)},
		geom.Pt{X: min(r.Max.X, s.Max.X), Y: min(r.Max.Y, s.Max.Y)},
	}
}

// Union returns the smallest box round both.
func (r Rect) Union(s Rect) Rect {
	return Rect{
		geom.Pt{X: min(r.Min.X, s.Min.X), Y: min(r.Min.Y, s.Min.Y)},
		geom.Pt{X: max(r.Max.X, s.Max.X), Y: max(r.Max.Y, s.Max.Y)},
	}
}

// corners returns the four corners counter-clockwise from the lower left.
func (r Rect) corners() [4]geom.Pt {
	return [4]geom.Pt{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}
