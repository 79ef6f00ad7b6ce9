package photo

import (
	"math"

	"gusset/internal/geom"
)

// linear is the light of a coded value, 0..1 (IEC 61966-2-1, sRGB).
var linear = func() (t [256]float32) {
	for i := range t {
		v := float64(i) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		t[i] = float32(v)
	}
	return t
}()

// RGB is linear light in red, green and blue, 0..1.
type RGB [3]float32

// Inside reports whether a place lies in the picture, at least margin pixels
// from its edge.
func (p *Photo) Inside(at geom.Pt, margin float64) bool {
	return at.X >= margin && at.Y >= margin && at.X <= float64(p.W-1)-margin && at.Y <= float64(p.H-1)-margin
}

// pixel returns the light of one pixel, which must be in the picture. The colour
// planes of a JPEG are half as fine; they are taken as they lie, as decoders
// commonly do.
func (p *Photo) pixel(x, y int) RGB {
	c := p.planes.COffset(x, y)
	// ITU-T T.871 (JFIF), 7: full range, ITU-R BT.601 coefficients.
	l := float32(p.planes.Y[y*p.planes.YStride+x])
	cb, cr := float32(p.planes.Cb[c])-128, float32(p.planes.Cr[c])-128
	return RGB{light(l + 1.402*cr), light(l - 0.344136*cb - 0.714136*cr), light(l + 1.772*cb)}
}

// light is the light of a coded value between 0 and 255, with fractions.
func light(v float32) float32 {
	if v <= 0 {
		return 0
	}
	if v >= 255 {
		return 1
	}
	i := int(v)
	return linear[i] + (v-float32(i))*(linear[i+1]-linear[i])
}

// At returns the light at a place, between its four pixels. Places outside give
// the nearest pixel of the edge.
func (p *Photo) At(at geom.Pt) RGB {
	x, y := min(max(at.X, 0), float64(p.W-1)), min(max(at.Y, 0), float64(p.H-1))
	i, j := min(int(x), p.W-2), min(int(y), p.H-2)
	fx, fy := float32(x-float64(i)), float32(y-float64(j))
	a, b, c, d := p.pixel(i, j), p.pixel(i+1, j), p.pixel(i, j+1), p.pixel(i+1, j+1)
	var out RGB
	for k := range out {
		top, low := a[k]+fx*(b[k]-a[k]), c[k]+fx*(d[k]-c[k])
		out[k] = top + fy*(low-top)
	}
	return out
}

// Near returns the light of the pixel nearest to a place. Places outside give the
// nearest pixel of the edge.
func (p *Photo) Near(at geom.Pt) RGB {
	return p.pixel(int(min(max(at.X+0.5, 0), float64(p.W-1))), int(min(max(at.Y+0.5, 0), float64(p.H-1))))
}

// Lit returns the lightness at a place as the camera coded it, 0..255, between
// its four pixels.
func (p *Photo) Lit(at geom.Pt) float64 {
	x, y := min(max(at.X, 0), float64(p.W-1)), min(max(at.Y, 0), float64(p.H-1))
	i, j := min(int(x), p.W-2), min(int(y), p.H-2)
	fx, fy := x-float64(i), y-float64(j)
	row := p.planes.Y[j*p.planes.YStride+i:]
	low := row[p.planes.YStride:]
	a := float64(row[0]) + fx*(float64(row[1])-float64(row[0]))
	b := float64(low[0]) + fx*(float64(low[1])-float64(low[0]))
	return a + fy*(b-a)
}
