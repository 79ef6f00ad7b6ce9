// Package camera turns a photo of calibration cards into a map between the
// pixels of the photo and millimetres on the table.
//
// The table is the plane z = 0 of a right-handed frame with x and y as on the
// cards, seen from above. A pixel's place is given from the middle of the first
// pixel of the first row, x to the right and y down, as OpenCV does.
//
// All unknowns are found together by least squares: the lens, the place of the
// camera for every photo, the place of every card on the table, and how much
// larger and how much longer one way the printer made the cards. Only the tape
// readings from card to card say how large everything is.
package camera

import (
	"math"

	"gusset/internal/geom"
)

// Lens is how a camera draws: focal length and principal point in pixels, and
// two coefficients of radial distortion (Brown, Close-Range Camera
// Calibration, Photogrammetric Engineering 37(8), 1971): a point at distance r
// from the axis, in focal lengths, is drawn at r·(1 + K1·r² + K2·r⁴).
type Lens struct{ F, CX, CY, K1, K2 float64 }

// distort moves a point of the undistorted image, in focal lengths.
func (l Lens) distort(x, y float64) (float64, float64) {
	r2 := x*x + y*y
	k := 1 + r2*(l.K1+r2*l.K2)
	return x * k, y * k
}

// undistort is the inverse of distort, by Newton's method along the radius. ok
// is false beyond where the lens model folds back.
func (l Lens) undistort(x, y float64) (float64, float64, bool) {
	d := math.Hypot(x, y)
	if d == 0 {
		return x, y, true
	}
	r := d
	for range 20 {
		r2 := r * r
		f := r*(1+r2*(l.K1+r2*l.K2)) - d
		slope := 1 + r2*(3*l.K1+5*r2*l.K2)
		if !(slope > 0.1) {
			return 0, 0, false
		}
		step := f / slope
		r -= step
		if math.Abs(step) < 1e-12 {
			break
		}
	}
	return x * r / d, y * r / d, r > 0
}

// View is one photo's map between table and pixels.
type View struct {
	Lens Lens
	R    [3][3]float64 // turns table directions into camera directions
	T    [3]float64    // where the table's origin is seen from the camera, mm
}

// Project returns the pixel at which a point at height z above the table is
// drawn; false when it lies behind the camera.
func (v View) Project(p geom.Pt, z float64) (geom.Pt, bool) {
	var c [3]float64
	for i := range c {
		c[i] = v.R[i][0]*p.X + v.R[i][1]*p.Y + v.R[i][2]*z + v.T[i]
	}
	if !(c[2] > 1) {
		return geom.Pt{}, false
	}
	x, y := v.Lens.distort(c[0]/c[2], c[1]/c[2])
	return geom.Pt{X: v.Lens.F*x + v.Lens.CX, Y: v.Lens.F*y + v.Lens.CY}, true
}

// Looking returns the view of a camera that looks at the table's point mid from
// a distance in mm, tilted from the vertical and standing in the direction
// azimuth from mid, both in radians. The picture's rows run along the table's x
// axis as nearly as may be, or, where upright is set, along its y axis.
func Looking(l Lens, mid geom.Pt, far, tilt, azimuth float64, upright bool) View {
	s, c := math.Sincos(tilt)
	out := geom.Pt{X: 1}.Rot(azimuth).Mul(s)
	axis := [3]float64{-out.X, -out.Y, -c}
	rows := [3]float64{1, 0, 0}
	if upright {
		rows = [3]float64{0, 1, 0}
	}
	along := rows[0]*axis[0] + rows[1]*axis[1]
	right := plus(rows, axis, -along)
	right = scaled(right, 1/norm(right))
	down := [3]float64{axis[1]*right[2] - axis[2]*right[1], axis[2]*right[0] - axis[0]*right[2], axis[0]*right[1] - axis[1]*right[0]}
	v := View{Lens: l, R: [3][3]float64{right, down, axis}}
	for i := range 3 {
		v.T[i] = -(v.R[i][0]*mid.X + v.R[i][1]*mid.Y)
	}
	v.T[2] += far
	return v
}

// Pixel returns the pixel at which a point of the table is drawn, or a point
// that is not finite for one behind the camera.
func (v View) Pixel(p geom.Pt) geom.Pt {
	q, ok := v.Project(p, 0)
	if !ok {
		return geom.Pt{X: math.NaN(), Y: math.NaN()}
	}
	return q
}

// Table returns the point of the plane at height z that a pixel shows; false
// when it shows none.
func (v View) Table(px geom.Pt, z float64) (geom.Pt, bool) {
	x, y, ok := v.Lens.undistort((px.X-v.Lens.CX)/v.Lens.F, (px.Y-v.Lens.CY)/v.Lens.F)
	if !ok {
		return geom.Pt{}, false
	}
	ray := [3]float64{x, y, 1}
	var d, o [3]float64 // the ray and the camera's place, in table directions
	for i := range d {
		for j := range ray {
			d[i] += v.R[j][i] * ray[j]
			o[i] -= v.R[j][i] * v.T[j]
		}
	}
	if !(math.Abs(d[2]) > 1e-9) {
		return geom.Pt{}, false
	}
	s := (z - o[2]) / d[2]
	return geom.Pt{X: o[0] + s*d[0], Y: o[1] + s*d[1]}, s > 0
}

// Eye is where the camera stands: x, y on the table and height in mm.
func (v View) Eye() (geom.Pt, float64) {
	var o [3]float64
	for i := range o {
		for j := range o {
			o[i] -= v.R[j][i] * v.T[j]
		}
	}
	return geom.Pt{X: o[0], Y: o[1]}, o[2]
}

// Slant is the angle in radians between the line of sight to a point of the
// table and the vertical.
func (v View) Slant(p geom.Pt) float64 {
	eye, h := v.Eye()
	return math.Atan2(eye.Dist(p), math.Abs(h))
}

// Grain is how many mm of the table a pixel covers at p, along its longer side.
func (v View) Grain(p geom.Pt) float64 {
	o := v.Pixel(p)
	a, b := v.Pixel(p.Add(geom.Pt{X: 1})).Sub(o), v.Pixel(p.Add(geom.Pt{Y: 1})).Sub(o)
	// The smaller singular value of the derivative is pixels per mm.
	s, t := a.Dot(a)+b.Dot(b), a.Cross(b)
	small := math.Sqrt(max(0, (s-math.Sqrt(max(0, s*s-4*t*t)))/2))
	return 1 / small
}

// turnBy returns the rotation by the vector w, whose length is the angle in
// radians (Rodrigues' formula).
func turnBy(w [3]float64) [3][3]float64 {
	a := math.Sqrt(w[0]*w[0] + w[1]*w[1] + w[2]*w[2])
	s, c := 1.0, 0.5 // sin a / a and (1 - cos a) / a²
	if a > 1e-8 {
		s, c = math.Sin(a)/a, (1-math.Cos(a))/(a*a)
	}
	k := [3][3]float64{{0, -w[2], w[1]}, {w[2], 0, -w[0]}, {-w[1], w[0], 0}}
	k2 := product(k, k)
	var r [3][3]float64
	for i := range r {
		for j := range r {
			r[i][j] = s*k[i][j] + c*k2[i][j]
		}
		r[i][i]++
	}
	return r
}

func product(a, b [3][3]float64) (c [3][3]float64) {
	for i := range c {
		for j := range c {
			for k := range c {
				c[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return c
}
