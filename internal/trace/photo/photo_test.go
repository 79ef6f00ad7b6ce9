package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"gusset/internal/geom"
)

// half is a picture that is dark on its left and light on its right.
func half(w, h int) image.Image {
	img := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := w / 2; x < w; x++ {
			img.SetGray(x, y, color.Gray{Y: 200})
		}
	}
	return img
}

func jpegOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// withNotes puts an Exif segment after the first marker: orientation and focal
// length as on 35 mm film, laid out as Exif 2.32, 4.6 has it.
func withNotes(data []byte, order binary.AppendByteOrder, orientation, focal uint16) []byte {
	tag := func(b []byte, id, kind uint16, value uint32) []byte {
		b = order.AppendUint16(b, id)
		b = order.AppendUint16(b, kind)
		b = order.AppendUint32(b, 1)
		if kind == 3 {
			b = order.AppendUint16(b, uint16(value))
			return order.AppendUint16(b, 0)
		}
		return order.AppendUint32(b, value)
	}
	mark := "II"
	if order == binary.AppendByteOrder(binary.BigEndian) {
		mark = "MM"
	}
	tiff := order.AppendUint32(order.AppendUint16([]byte(mark), 42), 8)
	tiff = order.AppendUint16(tiff, 2)
	tiff = tag(tiff, tagOrientation, 3, uint32(orientation))
	tiff = tag(tiff, tagMore, 4, 8+2+24+4)
	tiff = order.AppendUint32(tiff, 0)
	tiff = order.AppendUint16(tiff, 1)
	tiff = tag(tiff, tagFocal35, 3, uint32(focal))
	body := append([]byte("Exif\x00\x00"), tiff...)
	out := append([]byte{}, data[:2]...)
	out = append(out, 0xFF, 0xE1)
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	return append(append(out, body...), data[2:]...)
}

func TestNotes(t *testing.T) {
	data := jpegOf(t, half(800, 700))
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		for orientation := uint16(1); orientation <= 8; orientation++ {
			p, found := Load("x.jpg", withNotes(data, order, orientation, 26))
			if p == nil {
				t.Fatal(found.Codes())
			}
			if p.Focal != 26 {
				t.Errorf("focal length %g", p.Focal)
			}
			mirrored := orientation == 2 || orientation == 4 || orientation == 5 || orientation == 7
			if left := p.Lit(geom.Pt{X: 100, Y: 300}) > 100; left != mirrored {
				t.Errorf("orientation %d: the left is light: %v", orientation, left)
			}
		}
	}
	if p, _ := Load("x.jpg", data); p == nil || p.Focal != 0 {
		t.Error("a file without notes has some")
	}
}

// A PNG and a JPEG of one picture give the same light; the sRGB curve is
// IEC 61966-2-1: half-way between codes 0 and 255 is 21.4 % of the light.
func TestLight(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 700, 700))
	for i := range img.Pix {
		img.Pix[i] = 127
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"png": b.Bytes(), "jpeg": jpegOf(t, img)} {
		p, found := Load(name, data)
		if p == nil {
			t.Fatal(found.Codes())
		}
		for _, v := range p.At(geom.Pt{X: 350.3, Y: 349.6}) {
			if math.Abs(float64(v)-0.2122) > 0.004 {
				t.Errorf("%s: light %.4f, not 0.2122", name, v)
			}
		}
	}
}

// What is too large is refused by its header, before it is unpacked.
func TestRefused(t *testing.T) {
	var small bytes.Buffer
	if err := png.Encode(&small, half(300, 200)); err != nil {
		t.Fatal(err)
	}
	huge := append([]byte{}, small.Bytes()...)
	binary.BigEndian.PutUint32(huge[16:], 60_000)
	binary.BigEndian.PutUint32(huge[20:], 60_000)
	whole := jpegOf(t, half(800, 700))
	for name, c := range map[string]struct {
		data []byte
		code string
	}{
		"huge":   {fixCRC(huge), "trace.photo-large"},
		"small":  {small.Bytes(), "trace.photo-small"},
		"heic":   {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "trace.photo-heif"},
		"text":   {[]byte("not a picture"), "trace.not-photo"},
		"empty":  {nil, "trace.not-photo"},
		"broken": {whole[:len(whole)/2], "trace.photo-broken"},
	} {
		if p, found := Load(name, c.data); p != nil || !found.Has(c.code) {
			t.Errorf("%s: %v, not %s", name, found.Codes(), c.code)
		}
	}
}

// fixCRC makes the check sum of a changed PNG header right again.
func fixCRC(data []byte) []byte {
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func FuzzNotes(f *testing.F) {
	data := jpegOf(f, half(16, 16))
	f.Add(withNotes(data, binary.LittleEndian, 6, 26))
	f.Add(withNotes(data, binary.BigEndian, 2, 13))
	f.Add(data)
	f.Fuzz(func(t *testing.T, data []byte) {
		n := readEXIF(data)
		if n.focal != 0 && (n.focal < 8 || n.focal > 400) {
			t.Errorf("focal length %g", n.focal)
		}
	})
}

// Whatever a file holds, it is a photo that can be looked at everywhere or it is
// refused.
func FuzzLoad(f *testing.F) {
	f.Add(jpegOf(f, half(640, 600)))
	f.Add(withNotes(jpegOf(f, half(600, 640)), binary.LittleEndian, 2, 26))
	var b bytes.Buffer
	if err := png.Encode(&b, half(600, 610)); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Fuzz(func(t *testing.T, data []byte) {
		p, found := Load("photo", data)
		if (p == nil) != (found.Stops() > 0) {
			t.Fatalf("a photo: %v; %v", p != nil, found.Codes())
		}
		if p == nil {
			return
		}
		for _, at := range []geom.Pt{{}, {X: float64(p.W) - 1, Y: float64(p.H) - 1}, {X: -5, Y: 1e9}, {X: 17.3, Y: 33.7}} {
			for _, v := range p.At(at) {
				if v < 0 || v > 1.001 || v != v {
					t.Fatalf("light %g at %v of %d × %d", v, at, p.W, p.H)
				}
			}
		}
	})
}
