package draw

import "gusset/internal/geom"

// flatness is how far, in mm, the chords used for measuring stray from a curve.
const flatness = 0.01

// Bounds returns the corners of the box round everything painted, with the
// width of pens and the height of letters, less what clips cut away. An empty
// list has the box (0, 0), (0, 0).
func (l *List) Bounds() (lo, hi geom.Pt) {
	r, ok := bounds(l.items)
	if !ok {
		return geom.Pt{}, geom.Pt{}
	}
	return r.Min, r.Max
}

// within returns the list without what lies wholly outside the box. Groups
// are looked into.
func (l *List) within(box Rect) *List { return &List{Title: l.Title, items: within(l.items, box)} }

func within(items []item, box Rect) []item {
	var out []item
	for _, it := range items {
		if r, ok := it.bounds(); !ok || !r.Meets(box) {
			continue
		}
		if it.group != nil {
			g := *it.group
			g.items = within(g.items, box)
			it = item{group: &g}
		}
		out = append(out, it)
	}
	return out
}

// bounds returns the box round items, and whether there is one.
func bounds(items []item) (Rect, bool) {
	var box Rect
	found := false
	for _, it := range items {
		r, ok := it.bounds()
		switch {
		case !ok:
		case !found:
			box, found = r, true
		default:
			box = box.Union(r)
		}
	}
	return box, found
}

func (it item) bounds() (Rect, bool) {
	switch {
	case it.shape != nil:
		r, ok := it.shape.path.box()
		return r.Inset(-it.shape.style.halo()), ok
	case it.text != nil:
		c := it.text.corners()
		lo, hi := geom.BoundsOf(c[:])
		return Rect{lo, hi}, true
	}
	r, ok := bounds(it.group.items)
	if ok && it.group.clip != nil {
		c, _ := it.group.clip.box()
		r = r.Intersect(c)
		ok = r.Max.X >= r.Min.X && r.Max.Y >= r.Min.Y
	}
	return r, ok
}

// box returns the box round the path itself.
func (p Path) box() (Rect, bool) {
	var box Rect
	found := false
	for _, r := range p.runs(flatness) {
		lo, hi := geom.BoundsOf(r.pts)
		if !found {
			box, found = Rect{lo, hi}, true
			continue
		}
		box = box.Union(Rect{lo, hi})
	}
	return box, found
}
