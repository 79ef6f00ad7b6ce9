package exchange

import (
	"cmp"
	"slices"

	"gusset/internal/geom"
)

// shelfGap is the room between two pieces that go out on one sheet, in mm.
const shelfGap = 15

// shelves moves parts so that pieces lie side by side in rows at most width wide,
// the tallest row first; the sizes of a piece stay nested. It gives the size of
// the sheet too.
func shelves(parts []Part, width float64) (out []Part, w, h float64) {
	type box struct {
		name   string
		lo, hi geom.Pt
	}
	var boxes []box
	for _, p := range parts {
		lo, hi := p.bounds()
		i := slices.IndexFunc(boxes, func(b box) bool { return b.name == p.Name })
		if i < 0 {
			boxes = append(boxes, box{p.Name, lo, hi})
			continue
		}
		b := &boxes[i]
		b.lo = geom.Pt{X: min(b.lo.X, lo.X), Y: min(b.lo.Y, lo.Y)}
		b.hi = geom.Pt{X: max(b.hi.X, hi.X), Y: max(b.hi.Y, hi.Y)}
	}
	slices.SortStableFunc(boxes, func(a, b box) int { return cmp.Compare(b.hi.Y-b.lo.Y, a.hi.Y-a.lo.Y) })
	at := map[string]geom.Pt{}
	x, y, row := float64(shelfGap), float64(shelfGap), 0.0
	for _, b := range boxes {
		bw, bh := b.hi.X-b.lo.X, b.hi.Y-b.lo.Y
		if x > shelfGap && x+bw+shelfGap > width {
			x, y, row = shelfGap, y+row+shelfGap, 0
		}
		at[b.name] = geom.Pt{X: x, Y: y}.Sub(b.lo)
		x += bw + shelfGap
		row = max(row, bh)
		w, h = max(w, x), max(h, y+bh+shelfGap)
	}
	for _, p := range parts {
		out = append(out, p.transform(geom.Shift(at[p.Name])))
	}
	return out, w, h
}
