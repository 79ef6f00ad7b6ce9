package draw

import "gusset/internal/geom"

// Map returns a small picture, fitted into the box, of how the sheets lie over
// a drawing: l is drawn under the grid of sheets, each with its name. Places
// without a sheet are left blank.
func (t Tiles) Map(l *List, box Rect) *List {
	g := t.grid
	whole := g.live(0, 0).Union(g.live(g.columns-1, g.rows-1))
	to := whole.onto(box)
	out := &List{}
	size := min(4, 0.35*min(g.w, g.h)*to.A, box.H())
	out.Transform(to, func(out *List) {
		for _, s := range t.Sheets {
			out.Rect(Fill(Gray(242)), s.Live)
		}
		out.Append(l)
		for _, s := range t.Sheets {
			out.Rect(Pen(Gray(90), 0.2), s.Live)
			out.Text(Text{
				At:   s.Live.Center().Sub(geom.Pt{Y: CapHeight * size / 2 / to.A}),
				Size: size / to.A, Anchor: Middle, Bold: true, Body: s.Name,
			})
		}
	})
	return out
}

// onto returns the map that takes the box r into the box to with one scale for
// both axes, as large as fits, centred.
func (r Rect) onto(to Rect) geom.Affine {
	k := min(to.W()/r.W(), to.H()/r.H())
	m := geom.Affine{A: k, D: k}
	d := to.Center().Sub(m.Apply(r.Center()))
	m.E, m.F = d.X, d.Y
	return m
}
