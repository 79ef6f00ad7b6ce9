package trace

import "gusset/internal/geom"

// PreviewDPI is the resolution of the preview, dots an inch of the table.
func (t Traced) PreviewDPI() float64 {
	size := t.Table.size()
	return min(64, 25.4*2600/max(size.X, size.Y))
}

// PreviewSize is how many dots the preview has across and down.
func (t Traced) PreviewSize() (across, down float64) {
	size, k := t.Table.size(), t.PreviewDPI()/25.4
	return size.X * k, size.Y * k
}

// Pointed is the place on the table, in mm of the preview's grid, under a dot of
// the preview, which is counted from its upper left corner.
func (t Traced) Pointed(x, y float64) geom.Pt {
	k := 25.4 / t.PreviewDPI()
	return geom.Pt{X: x * k, Y: t.Table.size().Y - y*k}
}

// Dot is the dot of the preview over a place: the reverse of Pointed.
func (t Traced) Dot(p geom.Pt) (x, y float64) {
	k := t.PreviewDPI() / 25.4
	return p.X * k, (t.Table.size().Y - p.Y) * k
}

// Counts is how many edges, lines and notches the preview numbers.
func (t Traced) Counts() (edges, lines, notches int) {
	return len(t.Shape.Edges), len(t.Lines), len(t.Shape.Notches)
}
