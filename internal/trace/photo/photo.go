// Package photo reads photographs: JPEG and PNG, no larger than memory allows,
// the right way round, with the focal length that the camera noted.
//
// A photo is kept as the camera's own lightness and colour planes, a byte and a
// half for each pixel, and turned into linear light where it is looked at.
package photo

import (
	"bytes"
	"image"
	"image/color"
	_ "image/jpeg" // the format phones write
	_ "image/png"  // screenshots and scans

	"gusset/internal/finding"
)

// MaxBytes is the largest file that is read, and maxPixels the largest picture:
// some phones take 50 megapixels.
const (
	MaxBytes  = 60 << 20
	maxPixels = 64e6
	minSide   = 600
)

// Photo is one photograph.
type Photo struct {
	Name string
	W, H int
	// Focal is the focal length as on film 36 mm wide, in mm; 0 where the file
	// does not say.
	Focal float64

	planes *image.YCbCr
}

// Load reads a photograph. What cannot be used is told as a Stop finding, and
// there is no photo then.
func Load(name string, data []byte) (*Photo, finding.List) {
	at := finding.Place{File: name}
	switch {
	case len(data) > MaxBytes:
		return nil, finding.List{tooLarge.At(at, float64(len(data))/(1<<20), MaxBytes>>20)}
	case isHEIF(data):
		return nil, finding.List{heif.At(at)}
	}
	c, format, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, finding.List{notPhoto.At(at)}
	}
	if pixels := float64(c.Width) * float64(c.Height); pixels > maxPixels {
		return nil, finding.List{manyPixels.At(at, c.Width, c.Height, maxPixels/1e6)}
	}
	if c.Width < minSide || c.Height < minSide {
		return nil, finding.List{fewPixels.At(at, c.Width, c.Height)}
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, finding.List{broken.At(at, format)}
	}
	p := &Photo{Name: name, planes: planesOf(img)}
	if format == "jpeg" {
		notes := readEXIF(data)
		p.Focal = notes.focal
		if notes.mirrored() {
			p.planes = mirrored(p.planes)
		}
	}
	p.W, p.H = p.planes.Rect.Dx(), p.planes.Rect.Dy()
	return p, nil
}

// FromLightness is a picture without colour: a byte for each pixel, as a camera
// codes lightness, in rows of w from the top.
func FromLightness(name string, plane []byte, w, h int) *Photo {
	grey := &image.YCbCr{Y: plane, YStride: w, SubsampleRatio: image.YCbCrSubsampleRatio410, Rect: image.Rect(0, 0, w, h)}
	grey.CStride = (w + 3) / 4
	grey.Cb = bytes.Repeat([]byte{128}, grey.CStride*((h+1)/2))
	grey.Cr = grey.Cb
	return &Photo{Name: name, W: w, H: h, planes: grey}
}

// isHEIF knows the container of HEIC and AVIF pictures (ISO/IEC 23008-12 and
// 14496-12: a box named ftyp that lists brands).
func isHEIF(data []byte) bool {
	if len(data) < 12 || string(data[4:8]) != "ftyp" {
		return false
	}
	switch string(data[8:12]) {
	case "heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1", "avif", "avis":
		return true
	}
	return false
}

// planesOf returns the picture as lightness and colour with its first pixel at
// (0, 0). A JPEG is that already; transparent parts of a PNG are black.
func planesOf(img image.Image) *image.YCbCr {
	if y, ok := img.(*image.YCbCr); ok && y.Rect.Min == (image.Point{}) {
		return y
	}
	b := img.Bounds()
	out := image.NewYCbCr(image.Rect(0, 0, b.Dx(), b.Dy()), image.YCbCrSubsampleRatio444)
	for y := range b.Dy() {
		for x := range b.Dx() {
			i := y*out.YStride + x
			switch c := img.At(b.Min.X+x, b.Min.Y+y).(type) {
			case color.YCbCr:
				out.Y[i], out.Cb[i], out.Cr[i] = c.Y, c.Cb, c.Cr
			default:
				r, g, bl, _ := c.RGBA()
				out.Y[i], out.Cb[i], out.Cr[i] = color.RGBToYCbCr(uint8(r>>8), uint8(g>>8), uint8(bl>>8))
			}
		}
	}
	return out
}

// mirrored returns the picture turned over left to right.
func mirrored(p *image.YCbCr) *image.YCbCr {
	b := p.Rect
	out := image.NewYCbCr(b, image.YCbCrSubsampleRatio444)
	for y := range b.Dy() {
		for x := range b.Dx() {
			c := p.YCbCrAt(b.Dx()-1-x, y)
			i := y*out.YStride + x
			out.Y[i], out.Cb[i], out.Cr[i] = c.Y, c.Cb, c.Cr
		}
	}
	return out
}

// Lightness returns the plane of lightness, one byte for each pixel as the
// camera coded it, and the length of its rows.
func (p *Photo) Lightness() (plane []byte, stride int) { return p.planes.Y, p.planes.YStride }
