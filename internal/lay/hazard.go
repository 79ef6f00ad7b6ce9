package lay

import (
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/nest"
)

// What no piece may lie on: flaws, and what an odd remnant lacks of the
// rectangle round it. Both are kept as outlines on the flat cloth, mm, counter-
// clockwise, and folded with it.

// hazards lists them for the whole cloth.
func hazards(c cloth.Cloth) [][]geom.Pt {
	var out [][]geom.Pt
	for _, f := range c.Flaws {
		lo, hi := c.Box(f)
		out = append(out, []geom.Pt{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}})
	}
	if !c.Remnant() {
		return out
	}
	shape := c.Shape()
	lo, hi := geom.BoundsOf(shape)
	// The rectangle reaches the borders of the cloth, so that a remnant narrower
	// than that has a pocket beside it as well.
	lo.X, lo.Y = min(lo.X, 0)-1, min(lo.Y, 0)-1
	hi.X, hi.Y = max(hi.X, c.UsableLength())+1, max(hi.Y, c.UsableWidth())+1
	return append(out, outside(shape, lo, hi)...)
}

// outside is the rectangle from lo to hi without a shape that lies inside it,
// in plain outlines: the ring between the two is cut through along the two
// upright lines by which the shape's first and last corners reach its border.
func outside(shape []geom.Pt, lo, hi geom.Pt) [][]geom.Pt {
	first, last := 0, 0
	for i, p := range shape {
		if p.X < shape[first].X || p.X == shape[first].X && p.Y < shape[first].Y {
			first = i
		}
		if p.X > shape[last].X || p.X == shape[last].X && p.Y > shape[last].Y {
			last = i
		}
	}
	turned := slices.Concat(shape[first:], shape[:first])
	k := (last - first + len(shape)) % len(shape)
	below, above := turned[:k+1], append(slices.Clone(turned[k:]), turned[0])
	a, b := turned[0], turned[k]
	low := []geom.Pt{{X: lo.X, Y: a.Y}, {X: lo.X, Y: lo.Y}, {X: hi.X, Y: lo.Y}, {X: hi.X, Y: b.Y}}
	back := slices.Clone(below)
	slices.Reverse(back)
	low = append(low, back...)
	high := []geom.Pt{{X: hi.X, Y: b.Y}, {X: hi.X, Y: hi.Y}, {X: lo.X, Y: hi.Y}, {X: lo.X, Y: a.Y}}
	up := slices.Clone(above)
	slices.Reverse(up)
	high = append(high, up...)
	return [][]geom.Pt{low, high}
}

// walls are the hazards of one strip of a bed, in its own coordinates.
func (w *work) walls(b bed, container int) []nest.Hazard {
	var out []nest.Hazard
	st := b.strips[container]
	for _, p := range b.held {
		ring := p.Outline()
		if p.Flip {
			slices.Reverse(ring)
		}
		for i := range ring {
			ring[i].X -= float64(st.from) / 1000
		}
		out = append(out, wall(container, ring))
	}
	for _, h := range w.hazards {
		for _, ring := range w.layersOf(b.stretch, st, h) {
			lo, hi := geom.BoundsOf(ring)
			if hi.X > 0 && hi.Y > 0 && lo.Y < w.wide(b.stretch) && (st.most == 0 || lo.X < st.most) {
				out = append(out, wall(container, ring))
			}
		}
	}
	return out
}

// meets tells that a hazard lies between two places along the cloth.
func (w *work) meets(from, to int64) bool {
	return slices.ContainsFunc(w.hazards, func(h []geom.Pt) bool {
		lo, hi := geom.BoundsOf(h)
		return hi.X > float64(from)/1000 && lo.X < float64(to)/1000
	})
}

// layersOf folds an outline on the flat cloth into a strip, once for each
// layer. The fold of a strip folded crosswise lies at its far end.
func (w *work) layersOf(s stretch, st strip, flat []geom.Pt) [][]geom.Pt {
	moved := make([]geom.Pt, len(flat))
	for i, p := range flat {
		moved[i] = geom.Pt{X: p.X - float64(st.from)/1000, Y: p.Y}
	}
	own := Section{Fold: s.fold, To: st.most, Depth: float64(s.depth) / 1000}
	return own.shows(moved, float64(w.width)/1000)
}

func wall(container int, ring []geom.Pt) nest.Hazard {
	h := nest.Hazard{Container: container}
	for _, p := range ring {
		h.Shape = append(h.Shape, nest.Pt(p))
	}
	return h
}
