package geom

import "math"

// MeanValue carries what is given at the corners of a closed polygon into its
// inside: the weighted mean of the shifts, by mean value coordinates (M. S.
// Floater, Mean value coordinates, CAGD 20, 2003; K. Hormann and M. S. Floater,
// Mean value coordinates for arbitrary planar polygons, ACM TOG 25, 2006). It
// gives back any shift that is linear over the plane, is smooth inside, and on
// the polygon itself runs evenly from corner to corner.
func MeanValue(polygon, shift []Pt, q Pt) Pt {
	const on = 1e-9
	n := len(polygon)
	var sum Pt
	var total float64
	for i, p := range polygon {
		next := polygon[(i+1)%n]
		a, b := p.Sub(q), next.Sub(q)
		la, lb := a.Len(), b.Len()
		if la < on {
			return shift[i]
		}
		cross, dot := a.Cross(b), a.Dot(b)
		if math.Abs(cross) < on*(la+lb) && dot < 0 { // q lies on this side
			return shift[i].Lerp(shift[(i+1)%n], la/(la+lb))
		}
		if lb < on {
			return shift[(i+1)%n]
		}
		half := cross / (float64(la*lb) + dot) // tangent of half the angle at q
		if dot < 0 {                           // the same; near a side the sum above cancels to nothing
			half = (float64(la*lb) - dot) / cross
		}
		sum = sum.Add(shift[i].Mul(half / la)).Add(shift[(i+1)%n].Mul(half / lb))
		total += half/la + half/lb
	}
	if math.Abs(total) < 1e-15 {
		return Pt{}
	}
	return sum.Mul(1 / total)
}
