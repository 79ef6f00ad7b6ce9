package nest

// probe holds the scratch space of one worker's distance questions, so that
// asking them allocates nothing.
type probe struct {
	mine, theirs []*edge
}

// near tells whether solid b, moved by (dx, dy), comes closer than c to solid
// a or overlaps it. Distances are Euclidean; exactly c apart is not near.
func (k *probe) near(a, b *solid, dx, dy, c float64) bool {
	moved := b.box.moved(dx, dy)
	if a.box.apart(moved, c) {
		return false
	}
	if k.edgesNear(a, b, moved, dx, dy, c) {
		return true
	}
	// No boundaries meet: either one lies inside the other or they are apart.
	if a.box.holds(moved) {
		return a.contains(b.edges[0].ax+dx, b.edges[0].ay+dy)
	}
	if moved.holds(a.box) {
		return b.contains(a.edges[0].ax-dx, a.edges[0].ay-dy)
	}
	return false
}

// edgesNear compares only the edges inside the window that both boxes share.
func (k *probe) edgesNear(a, b *solid, moved box, dx, dy, c float64) bool {
	w := box{max(a.box.x0, moved.x0) - c, max(a.box.y0, moved.y0) - c,
		min(a.box.x1, moved.x1) + c, min(a.box.y1, moved.y1) + c}
	k.mine = within(k.mine[:0], a.edges, w)
	if len(k.mine) == 0 {
		return false
	}
	k.theirs = within(k.theirs[:0], b.edges, w.moved(-dx, -dy))
	for _, f := range k.theirs {
		g := edge{f.ax + dx, f.ay + dy, f.bx + dx, f.by + dy, f.box.moved(dx, dy)}
		for _, e := range k.mine {
			if e.x0 >= g.x1+c || g.x0 >= e.x1+c || e.y0 >= g.y1+c || g.y0 >= e.y1+c {
				continue
			}
			if segmentsNear(e, &g, c) {
				return true
			}
		}
	}
	return false
}

func within(dst []*edge, edges []edge, w box) []*edge {
	for i := range edges {
		e := &edges[i]
		if e.x0 < w.x1 && e.x1 > w.x0 && e.y0 < w.y1 && e.y1 > w.y0 {
			dst = append(dst, e)
		}
	}
	return dst
}

// segmentsNear: two segments that do not cross are nearest at an end of one
// of them.
func segmentsNear(e, f *edge, c float64) bool {
	ex, ey := e.bx-e.ax, e.by-e.ay
	fx, fy := f.bx-f.ax, f.by-f.ay
	fa := float64(ex*(f.ay-e.ay)) - float64(ey*(f.ax-e.ax))
	fb := float64(ex*(f.by-e.ay)) - float64(ey*(f.bx-e.ax))
	ea := float64(fx*(e.ay-f.ay)) - float64(fy*(e.ax-f.ax))
	eb := float64(fx*(e.by-f.ay)) - float64(fy*(e.bx-f.ax))
	if (fa > 0) != (fb > 0) && (ea > 0) != (eb > 0) {
		return true
	}
	cc := float64(c * c)
	return pointNear(f.ax, f.ay, e, ex, ey, cc) || pointNear(f.bx, f.by, e, ex, ey, cc) ||
		pointNear(e.ax, e.ay, f, fx, fy, cc) || pointNear(e.bx, e.by, f, fx, fy, cc)
}

// pointNear tells whether a point is closer than the root of cc to an edge
// with direction (ux, uy).
func pointNear(x, y float64, e *edge, ux, uy, cc float64) bool {
	px, py := x-e.ax, y-e.ay
	t := float64(px*ux) + float64(py*uy)
	uu := float64(ux*ux) + float64(uy*uy)
	switch {
	case t <= 0:
	case t >= uu:
		px, py = x-e.bx, y-e.by
	default:
		h := float64(px*uy) - float64(py*ux)
		return float64(h*h) < float64(cc*uu)
	}
	return float64(px*px)+float64(py*py) < cc
}
