package camera

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"gusset/internal/geom"
)

// Homography maps points of one plane to another as a picture without lens
// distortion does.
type Homography [9]float64

// Apply returns the image of p.
func (h Homography) Apply(p geom.Pt) geom.Pt {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return geom.Pt{X: (h[0]*p.X + h[1]*p.Y + h[2]) / w, Y: (h[3]*p.X + h[4]*p.Y + h[5]) / w}
}

// FindHomography returns the map that takes each of from near to its partner in
// to, by the direct linear transform with the points of both sides moved and
// scaled first (Hartley, In Defense of the Eight-Point Algorithm, IEEE
// Transactions on Pattern Analysis and Machine Intelligence 19(6), 1997).
// It wants four pairs or more; false where the points do not fix a map.
func FindHomography(from, to []geom.Pt) (Homography, bool) {
	n := len(from)
	if n < 4 || n != len(to) {
		return Homography{}, false
	}
	a, fa := evened(from)
	b, fb := evened(to)
	rows := mat.NewDense(2*n, 8, nil)
	rhs := mat.NewVecDense(2*n, nil)
	for i := range a {
		x, y, u, v := a[i].X, a[i].Y, b[i].X, b[i].Y
		rows.SetRow(2*i, []float64{x, y, 1, 0, 0, 0, -u * x, -u * y})
		rows.SetRow(2*i+1, []float64{0, 0, 0, x, y, 1, -v * x, -v * y})
		rhs.SetVec(2*i, u)
		rhs.SetVec(2*i+1, v)
	}
	var qr mat.QR
	qr.Factorize(rows)
	var h mat.VecDense
	if err := qr.SolveVecTo(&h, false, rhs); err != nil {
		return Homography{}, false
	}
	m := mat.NewDense(3, 3, []float64{h.AtVec(0), h.AtVec(1), h.AtVec(2), h.AtVec(3), h.AtVec(4), h.AtVec(5), h.AtVec(6), h.AtVec(7), 1})
	var back, out mat.Dense
	if err := back.Inverse(fb); err != nil {
		return Homography{}, false
	}
	out.Product(&back, m, fa)
	var r Homography
	for i := range r {
		r[i] = out.At(i/3, i%3)
		if math.IsNaN(r[i]) || math.IsInf(r[i], 0) {
			return Homography{}, false
		}
	}
	return r, true
}

// evened moves points to their middle and scales them to a mean distance of √2,
// and returns the map that does it.
func evened(pts []geom.Pt) ([]geom.Pt, *mat.Dense) {
	var mid geom.Pt
	for _, p := range pts {
		mid = mid.Add(p.Mul(1 / float64(len(pts))))
	}
	var mean float64
	for _, p := range pts {
		mean += p.Dist(mid) / float64(len(pts))
	}
	k := math.Sqrt2 / max(mean, 1e-12)
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[i] = p.Sub(mid).Mul(k)
	}
	return out, mat.NewDense(3, 3, []float64{k, 0, -k * mid.X, 0, k, -k * mid.Y, 0, 0, 1})
}

// pose finds where a camera with a known lens stands from the homography of
// a plane: its first two columns are two turned axes, scaled alike (Zhang, A
// Flexible New Technique for Camera Calibration, IEEE Transactions on Pattern
// Analysis and Machine Intelligence 22(11), 2000).
func (l Lens) pose(h Homography) (View, bool) {
	var c [3][3]float64 // columns
	for j := range c {
		c[j] = [3]float64{(h[j] - l.CX*h[6+j]) / l.F, (h[3+j] - l.CY*h[6+j]) / l.F, h[6+j]}
	}
	k := 2 / (norm(c[0]) + norm(c[1]))
	if c[2][2] < 0 {
		k = -k // the table lies before the camera
	}
	x, y := scaled(c[0], math.Copysign(1/norm(c[0]), k)), scaled(c[1], math.Copysign(1/norm(c[1]), k))
	// Make the two axes square to each other, sharing the fault: the sum and the
	// difference of unit vectors are.
	u, w := plus(x, y, 1), plus(x, y, -1)
	if norm(u) < 1e-9 || norm(w) < 1e-9 {
		return View{}, false
	}
	u, w = scaled(u, math.Sqrt(0.5)/norm(u)), scaled(w, math.Sqrt(0.5)/norm(w))
	x, y = plus(u, w, 1), plus(u, w, -1)
	z := [3]float64{x[1]*y[2] - x[2]*y[1], x[2]*y[0] - x[0]*y[2], x[0]*y[1] - x[1]*y[0]}
	v := View{Lens: l, T: scaled(c[2], k)}
	for i := range 3 {
		v.R[i] = [3]float64{x[i], y[i], z[i]}
	}
	return v, !math.IsNaN(v.T[2]) && v.T[2] > 0
}

func norm(a [3]float64) float64 { return math.Sqrt(a[0]*a[0] + a[1]*a[1] + a[2]*a[2]) }

func scaled(a [3]float64, k float64) [3]float64 { return [3]float64{a[0] * k, a[1] * k, a[2] * k} }

func plus(a, b [3]float64, k float64) [3]float64 {
	return [3]float64{a[0] + k*b[0], a[1] + k*b[1], a[2] + k*b[2]}
}
