package draw

import (
	"gusset/internal/geom"
)

// List is a drawing: shapes and text in the order they are painted. The zero
// List is empty and ready to use.
type List struct {
	// Title says what is drawn, for screen readers and document lists.
	Title string

	items []item
}

// item is one thing on the list: exactly one of the pointers is set.
type item struct {
	shape *shape
	text  *Text
	group *group
}

type shape struct {
	style Style
	path  Path
}

// group is a part of the list: a layer when it has a name, and clipped when it
// has a clip.
type group struct {
	layer string
	clip  *Path
	items []item
}

// Path paints a path.
func (l *List) Path(s Style, p Path) {
	if len(p.Steps) == 0 || !s.strokes() && !s.fills() {
		return
	}
	l.items = append(l.items, item{shape: &shape{s, p}})
}

// Curve paints the open line along c.
func (l *List) Curve(s Style, c geom.Curve) { l.Path(s, Open(c)) }

// Line paints the straight line from a to b.
func (l *List) Line(s Style, a, b geom.Pt) { l.Path(s, Polyline(a, b)) }

// Rect paints a box.
func (l *List) Rect(s Style, r Rect) { l.Path(s, r.path()) }

// Circle paints a circle; radius in mm.
func (l *List) Circle(s Style, c geom.Pt, radius float64) { l.Path(s, Circle(c, radius)) }

// Text prints a line of text. Empty text leaves nothing.
func (l *List) Text(t Text) {
	if t.Body != "" && t.Size > 0 {
		l.items = append(l.items, item{text: &t})
	}
}

// Layer draws what f draws as part of the named layer. Layers may nest; a
// viewer shows the inner one only where the outer one is shown.
func (l *List) Layer(name string, f func(*List)) { l.put(group{layer: name}, f) }

// Clip draws what f draws, but only inside the box.
func (l *List) Clip(r Rect, f func(*List)) {
	p := r.path()
	l.put(group{clip: &p}, f)
}

// put appends a group with what f draws, unless that is nothing.
func (l *List) put(g group, f func(*List)) {
	var sub List
	f(&sub)
	if len(sub.items) > 0 {
		g.items = sub.items
		l.items = append(l.items, item{group: &g})
	}
}

// Transform draws what f draws under the map m. Points are mapped; pens keep
// their widths and dashes; text is scaled but not mirrored.
func (l *List) Transform(m geom.Affine, f func(*List)) {
	var sub List
	f(&sub)
	l.items = append(l.items, transformed(sub.items, m)...)
}

// Append draws all of o after what is already there.
func (l *List) Append(o *List) {
	if o != nil {
		l.items = append(l.items, o.items...)
	}
}

// Empty reports whether nothing is drawn.
func (l *List) Empty() bool { return len(l.items) == 0 }

// transformed returns copies of items under m.
func transformed(items []item, m geom.Affine) []item {
	out := make([]item, 0, len(items))
	for _, it := range items {
		switch {
		case it.shape != nil:
			out = append(out, item{shape: &shape{it.shape.style, it.shape.path.Transform(m)}})
		case it.text != nil:
			t := it.text.transform(m)
			out = append(out, item{text: &t})
		case it.group != nil:
			g := *it.group
			if g.clip != nil {
				p := g.clip.Transform(m)
				g.clip = &p
			}
			g.items = transformed(g.items, m)
			out = append(out, item{group: &g})
		}
	}
	return out
}

// Layers returns the names of the layers in the order they first appear.
func (l *List) Layers() []string {
	var names []string
	seen := map[string]bool{}
	var visit func([]item)
	visit = func(items []item) {
		for _, it := range items {
			if it.group == nil {
				continue
			}
			if n := it.group.layer; n != "" && !seen[n] {
				seen[n] = true
				names = append(names, n)
			}
			visit(it.group.items)
		}
	}
	visit(l.items)
	return names
}
