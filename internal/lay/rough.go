package lay

import "gusset/internal/geom"

// roughTol is how far a roughly drawn outline may stray, mm. It serves for
// comparing plans, never for a lay that is shown.
const roughTol = 2

// roughly draws a closed outline with few corners, all of them its own (D. H.
// Douglas and T. K. Peucker, Cartographica 10, 1973). An outline that would come
// out crossing itself is left as it is.
func roughly(ring []geom.Pt) []geom.Pt {
	far := 0
	for i, p := range ring {
		if p.Dist(ring[0]) > ring[far].Dist(ring[0]) {
			far = i
		}
	}
	out := corners(nil, ring[:far+1])
	out = corners(out, append(append([]geom.Pt(nil), ring[far:]...), ring[0]))
	if len(out) < 3 || crosses(out) {
		return ring
	}
	return out
}

// corners adds the corners that a stretch keeps, its last point left out.
func corners(out, pts []geom.Pt) []geom.Pt {
	a, b := pts[0], pts[len(pts)-1]
	worst, at := 0.0, 0
	dir := b.Sub(a).Unit()
	for i, p := range pts {
		if d := dir.Cross(p.Sub(a)); d > worst || -d > worst {
			worst, at = max(d, -d), i
		}
	}
	if worst <= roughTol {
		return append(out, a)
	}
	return corners(corners(out, pts[:at+1]), pts[at:])
}
