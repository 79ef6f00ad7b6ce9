package scene

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"

	"gusset/internal/geom"
)

// plane is a picture in linear light.
type plane struct {
	w, h int
	rgb  []float32
}

func newPlane(w, h int) *plane { return &plane{w, h, make([]float32, 3*w*h)} }

// rows calls f for every row, on all processors.
func rows(h int, f func(y int)) {
	var all sync.WaitGroup
	n := runtime.GOMAXPROCS(0)
	for k := range n {
		all.Go(func() {
			for y := k; y < h; y += n {
				f(y)
			}
		})
	}
	all.Wait()
}

// Render takes the photo and returns the JPEG file.
func (s *Scene) Render() ([]byte, error) {
	s.cells = newCells(s.Outline, s.Ink)
	s.grain = newRoughness(s.Seed)
	p := s.expose()
	p.blur(s.Blur)
	img := p.coded(s.Noise, s.Seed)
	var b bytes.Buffer
	err := jpeg.Encode(&b, img, &jpeg.Options{Quality: s.Quality})
	return b.Bytes(), err
}

// fine is how many samples along and across a pixel near an edge are taken.
const fine = 5

// expose samples every pixel once, and those near an edge finely.
func (s *Scene) expose() *plane {
	p := newPlane(s.W, s.H)
	kinds := make([]uint8, s.W*s.H)
	rows(s.H, func(y int) {
		for x := range s.W {
			c, kind := s.seen(float64(x), float64(y))
			kinds[y*s.W+x] = uint8(kind)
			p.set(x, y, c)
		}
	})
	rows(s.H, func(y int) {
		for x := range s.W {
			if k := kinds[y*s.W+x]; k != 2 && k != 3 && !edge(kinds, s.W, s.H, x, y) {
				continue
			}
			var sum Light
			for j := range fine {
				for i := range fine {
					c, _ := s.seen(float64(x)+(float64(i)+0.5)/fine-0.5, float64(y)+(float64(j)+0.5)/fine-0.5)
					for k := range sum {
						sum[k] += c[k] / (fine * fine)
					}
				}
			}
			p.set(x, y, sum)
		}
	})
	return p
}

// edge reports whether the pixel's neighbours show something else.
func edge(kinds []uint8, w, h, x, y int) bool {
	k := kinds[y*w+x]
	for j := max(y-1, 0); j <= min(y+1, h-1); j++ {
		for i := max(x-1, 0); i <= min(x+1, w-1); i++ {
			if kinds[j*w+i] != k {
				return true
			}
		}
	}
	return false
}

// seen is the light at a place of the picture.
func (s *Scene) seen(x, y float64) (Light, int) {
	h := s.hit(geom.Pt{X: x, Y: y})
	c, kind := s.surface(h)
	l := s.View.Lens
	r2 := (math.Pow(x-l.CX, 2) + math.Pow(y-l.CY, 2)) / (l.F * l.F)
	k := s.lit(h.at(0)) / math.Pow(1+r2, 1.2) // vignetting
	return Light{c[0] * k, c[1] * k, c[2] * k}, kind
}

func (p *plane) set(x, y int, c Light) {
	for k := range c {
		p.rgb[3*(y*p.w+x)+k] = float32(c[k])
	}
}

// blur is a Gaussian, along and then across.
func (p *plane) blur(sd float64) {
	if sd <= 0 {
		return
	}
	n := int(math.Ceil(3 * sd))
	kernel := make([]float32, 2*n+1)
	var sum float32
	for i := range kernel {
		kernel[i] = float32(math.Exp(-math.Pow(float64(i-n)/sd, 2) / 2))
		sum += kernel[i]
	}
	for i := range kernel {
		kernel[i] /= sum
	}
	out := make([]float32, len(p.rgb))
	rows(p.h, func(y int) {
		for x := range p.w {
			weighted(p.rgb, out, kernel, 3*(y*p.w+x), 3, x, p.w)
		}
	})
	rows(p.h, func(y int) {
		for x := range p.w {
			weighted(out, p.rgb, kernel, 3*(y*p.w+x), 3*p.w, y, p.h)
		}
	})
}

// weighted puts at o the sum of neighbours, step apart; at counts o among them.
func weighted(from, to, kernel []float32, o, step, at, limit int) {
	n := len(kernel) / 2
	var r, g, b float32
	for i, k := range kernel {
		j := o + (min(max(at+i-n, 0), limit-1)-at)*step
		r, g, b = r+k*from[j], g+k*from[j+1], b+k*from[j+2]
	}
	to[o], to[o+1], to[o+2] = r, g, b
}

// coded is the picture as a camera stores it: noise, sRGB (IEC 61966-2-1), and
// colour half as fine as lightness.
func (p *plane) coded(noise float64, seed uint64) *image.YCbCr {
	rgb := make([]uint8, 3*p.w*p.h)
	rows(p.h, func(y int) {
		r := rand.New(rand.NewPCG(seed, uint64(y)))
		for i := 3 * y * p.w; i < 3*(y+1)*p.w; i++ {
			v := 255*code(float64(p.rgb[i])) + noise*r.NormFloat64()
			rgb[i] = uint8(min(max(v+0.5, 0), 255))
		}
	})
	img := image.NewYCbCr(image.Rect(0, 0, p.w, p.h), image.YCbCrSubsampleRatio420)
	rows((p.h+1)/2, func(j int) {
		for i := range (p.w + 1) / 2 {
			var cb, cr, n int
			for y := 2 * j; y < min(2*j+2, p.h); y++ {
				for x := 2 * i; x < min(2*i+2, p.w); x++ {
					o := 3 * (y*p.w + x)
					l, b, r := color.RGBToYCbCr(rgb[o], rgb[o+1], rgb[o+2])
					img.Y[y*img.YStride+x] = l
					cb, cr, n = cb+int(b), cr+int(r), n+1
				}
			}
			img.Cb[j*img.CStride+i], img.Cr[j*img.CStride+i] = uint8((cb+n/2)/n), uint8((cr+n/2)/n)
		}
	})
	return img
}

// code is sRGB's curve.
func code(v float64) float64 {
	if v <= 0.0031308 {
		return 12.92 * max(v, 0)
	}
	return 1.055*math.Pow(min(v, 1), 1/2.4) - 0.055
}

// roughness is the table's grain: smooth noise, drawn out along x.
type roughness struct{ v [64][64]float64 }

func newRoughness(seed uint64) *roughness {
	r, g := rand.New(rand.NewPCG(seed, 99)), &roughness{}
	for i := range g.v {
		for j := range g.v[i] {
			g.v[i][j] = 2*r.Float64() - 1
		}
	}
	return g
}

// at returns a value of about -1..1: stripes a few mm wide and dm long.
func (g *roughness) at(p geom.Pt) float64 {
	return 0.6*g.smooth(p.X/140, p.Y/5) + 0.4*g.smooth(p.X/45+7, p.Y/1.7+3)
}

func (g *roughness) smooth(x, y float64) float64 {
	i, j := math.Floor(x), math.Floor(y)
	fx, fy := x-i, y-j
	at := func(a, b float64) float64 { return g.v[int(a)&63][int(b)&63] }
	fx, fy = fx*fx*(3-2*fx), fy*fy*(3-2*fy)
	top := at(i, j) + fx*(at(i+1, j)-at(i, j))
	low := at(i, j+1) + fx*(at(i+1, j+1)-at(i, j+1))
	return top + fy*(low-top)
}
