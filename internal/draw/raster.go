package draw

import (
	"fmt"
	"image"
	"image/color"
	stddraw "image/draw"
	"math"

	"golang.org/x/image/vector"

	"gusset/internal/geom"
)

// MaxPixels bounds a picture: 400 million, a 1.6 GB image.
const MaxPixels = 400e6

// Raster paints the page on white at dpi pixels per inch. The picture is the
// page rounded to whole pixels; its lower left corner is the origin.
func Raster(p Page, dpi float64) (*image.RGBA, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	k := dpi / 25.4
	w, h := math.Round(p.Width*k), math.Round(p.Height*k)
	if !(dpi > 0) || w < 1 || h < 1 || w*h > MaxPixels {
		return nil, fmt.Errorf("a picture of %g × %g mm at %g dots per inch is %.0f × %.0f pixels: it must have 1 to %.0f",
			p.Width, p.Height, dpi, w, h, float64(MaxPixels))
	}
	img := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	stddraw.Draw(img, img.Bounds(), image.White, image.Point{}, stddraw.Src)
	c := canvas{img: img, k: k, fill: vector.NewRasterizer(0, 0)}
	c.items(p.List.items, nil)
	return img, nil
}

// canvas paints onto an image; k is pixels per mm.
type canvas struct {
	img  *image.RGBA
	k    float64
	fill *vector.Rasterizer
}

// mask is how much of each pixel a clip lets through; nil is everything.
type mask = image.Alpha

func (c *canvas) items(items []item, clip *mask) {
	for _, it := range items {
		switch {
		case it.shape != nil:
			c.shape(*it.shape, clip)
		case it.text != nil:
			c.area(chains(it.text.outline(), c.tol()), it.text.ink(), clip)
		case it.group != nil:
			inner := clip
			if it.group.clip != nil {
				inner = c.clipped(*it.group.clip, clip)
			}
			c.items(it.group.items, inner)
		}
	}
}

// tol is the chord error in mm that makes a tenth of a pixel.
func (c *canvas) tol() float64 { return 0.1 / c.k }

func (c *canvas) shape(s shape, clip *mask) {
	if s.style.fills() {
		c.area(chains(s.path, c.tol()), s.style.Fill, clip)
	}
	if s.style.strokes() {
		c.area(s.style.outline(s.path, c.tol()), s.style.Stroke, clip)
	}
}

// chains returns the runs of a path as closed chains.
func chains(p Path, tol float64) [][]geom.Pt {
	var out [][]geom.Pt
	for _, r := range p.runs(tol) {
		out = append(out, r.pts)
	}
	return out
}

// area paints the inside of chains.
func (c *canvas) area(chains [][]geom.Pt, col Color, clip *mask) {
	room := c.img.Bounds()
	if clip != nil {
		room = clip.Rect
	}
	box := c.load(chains, room)
	if box.Empty() {
		return
	}
	ink := image.NewUniform(color.NRGBA{col.R, col.G, col.B, col.A})
	if clip == nil {
		c.fill.Draw(c.img, box, ink, image.Point{})
		return
	}
	cover := image.NewAlpha(box)
	c.fill.Draw(cover, box, image.Opaque, image.Point{})
	through(cover, clip)
	stddraw.DrawMask(c.img, box, ink, image.Point{}, cover, box.Min, stddraw.Over)
}

// clipped returns the mask of a clip inside another.
func (c *canvas) clipped(p Path, outer *mask) *mask {
	room := c.img.Bounds()
	if outer != nil {
		room = outer.Rect
	}
	box := c.load(chains(p, c.tol()), room)
	m := image.NewAlpha(box)
	if box.Empty() {
		return m
	}
	c.fill.Draw(m, box, image.Opaque, image.Point{})
	if outer != nil {
		through(m, outer)
	}
	return m
}

// through multiplies the cover of m by that of clip, inside m.
func through(m, clip *mask) {
	for y := m.Rect.Min.Y; y < m.Rect.Max.Y; y++ {
		row := m.Pix[m.PixOffset(m.Rect.Min.X, y):]
		by := clip.Pix[clip.PixOffset(m.Rect.Min.X, y):]
		for x := range m.Rect.Dx() {
			row[x] = uint8((uint32(row[x])*uint32(by[x]) + 127) / 255)
		}
	}
}

// load puts chains into the rasteriser, which is made just large enough for
// them within room, and returns that part of the picture in pixels.
func (c *canvas) load(chains [][]geom.Pt, room image.Rectangle) image.Rectangle {
	height := float64(c.img.Rect.Max.Y)
	var all []geom.Pt
	for _, pts := range chains {
		all = append(all, pts...)
	}
	if len(all) == 0 {
		return image.Rectangle{}
	}
	for i, p := range all {
		all[i] = geom.Pt{X: p.X * c.k, Y: height - p.Y*c.k}
	}
	lo, hi := geom.BoundsOf(all)
	box := pixels(lo, hi, room)
	if box.Empty() {
		return box
	}
	c.fill.Reset(box.Dx(), box.Dy())
	for _, pts := range chains {
		ring := near(all[:len(pts)], box)
		all = all[len(pts):]
		for i, p := range ring {
			x, y := float32(p.X-float64(box.Min.X)), float32(p.Y-float64(box.Min.Y))
			if i == 0 {
				c.fill.MoveTo(x, y)
			} else {
				c.fill.LineTo(x, y)
			}
		}
		c.fill.ClosePath()
	}
	return box
}

// pixels returns the whole pixels touched by the box lo..hi, within room.
func pixels(lo, hi geom.Pt, room image.Rectangle) image.Rectangle {
	clamp := func(v float64, a, b int) int { return int(min(max(v, float64(a)), float64(b))) }
	return image.Rectangle{
		Min: image.Point{
			X: clamp(math.Floor(lo.X), room.Min.X, room.Max.X),
			Y: clamp(math.Floor(lo.Y), room.Min.Y, room.Max.Y),
		},
		Max: image.Point{
			X: clamp(math.Ceil(hi.X), room.Min.X, room.Max.X),
			Y: clamp(math.Ceil(hi.Y), room.Min.Y, room.Max.Y),
		},
	}
}

// near pulls points that lie far outside the box to its left or right border,
// after cutting lines there, so that the rasteriser's single-precision numbers
// stay small. What is painted inside the box is the same: a border crossing
// keeps its height, and only height counts beyond the side.
func near(ring []geom.Pt, box image.Rectangle) []geom.Pt {
	lo, hi := float64(box.Min.X)-2, float64(box.Max.X)+2
	far := false
	for _, p := range ring {
		far = far || p.X < lo || p.X > hi
	}
	if !far {
		return ring
	}
	var out []geom.Pt
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		out = append(out, geom.Pt{X: min(max(a.X, lo), hi), Y: a.Y})
		first, second := lo, hi
		if a.X > b.X {
			first, second = hi, lo
		}
		for _, x := range []float64{first, second} {
			if (a.X-x)*(b.X-x) < 0 {
				out = append(out, geom.Pt{X: x, Y: a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)})
			}
		}
	}
	return out
}
