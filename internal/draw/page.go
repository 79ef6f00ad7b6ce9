package draw

import (
	"fmt"
	"math"
)

// MaxSide is the longest side of a page in mm: 14,400 points, the largest a
// PDF 1.7 viewer has to accept (ISO 32000-1 annex C.2). A longer roll has to
// be cut into pages.
const MaxSide = 5080.0

// Page is one sheet: its size in mm, and what is on it.
type Page struct {
	Width, Height float64
	List          *List
}

// Area returns the box of the whole page.
func (p Page) Area() Rect { return Box(0, 0, p.Width, p.Height) }

// check returns an error for a page that cannot be made.
func (p Page) check() error {
	for _, side := range []float64{p.Width, p.Height} {
		if math.IsNaN(side) || side <= 0 || side > MaxSide {
			return fmt.Errorf("page of %g × %g mm: each side must be above 0 and at most %g mm",
				p.Width, p.Height, MaxSide)
		}
	}
	if p.List == nil {
		return fmt.Errorf("page of %g × %g mm has no list to draw", p.Width, p.Height)
	}
	return p.List.finite()
}

// finite returns an error when a coordinate is not a number: such a page would
// print with parts missing and nothing said.
func (l *List) finite() error {
	bad := ""
	walk(l.items, func(it item) {
		switch {
		case it.text != nil:
			if !it.text.At.Finite() || math.IsInf(it.text.Size, 0) ||
				math.IsNaN(it.text.Angle) || math.IsInf(it.text.Angle, 0) {
				bad = fmt.Sprintf("text %q", it.text.Body)
			}
		case it.shape != nil:
			for _, s := range it.shape.path.Steps {
				if !s.P[0].Finite() || !s.P[1].Finite() || !s.P[2].Finite() {
					bad = "a path"
				}
			}
		}
	})
	if bad != "" {
		return fmt.Errorf("drawing %q: %s is placed where there is no number", l.Title, bad)
	}
	return nil
}

// walk calls f with every shape and text of items, inside groups too.
func walk(items []item, f func(item)) {
	for _, it := range items {
		if it.group != nil {
			walk(it.group.items, f)
			continue
		}
		f(it)
	}
}
