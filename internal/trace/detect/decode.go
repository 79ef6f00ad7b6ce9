package detect

import (
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/camera"
	"gusset/internal/trace/photo"
)

// on returns the pixel of a point of the symbol, in modules from its upper left
// corner, as far as three finder patterns tell it: without perspective, which
// over a symbol is less than a fifth of a module.
func (t triple) on(x, y float64) geom.Pt {
	const apart = cards.Modules - 7
	right, down := t.tr.at.Sub(t.tl.at).Mul(1.0/apart), t.bl.at.Sub(t.tl.at).Mul(1.0/apart)
	return t.tl.at.Add(right.Mul(x - 3.5)).Add(down.Mul(y - 3.5))
}

// decode reads the letter of the card: where the corner marks are measured
// through the map that they give, else by the finder patterns alone.
func (t triple) decode(p *photo.Photo, px [4]geom.Pt, measured bool) (cards.ID, bool) {
	card := cards.Corners()
	if h, ok := camera.FindHomography(card[:], px[:]); measured && ok {
		return t.decodeBy(p, func(x, y float64) geom.Pt {
			return h.Apply(geom.Pt{X: (x - cards.Modules/2.0) * cards.Module, Y: (cards.Modules/2.0 - y) * cards.Module})
		})
	}
	return t.decodeBy(p, t.on)
}

func (t triple) decodeBy(p *photo.Photo, on func(x, y float64) geom.Pt) (cards.ID, bool) {
	limit := t.limit(p)
	bits, err := gozxing.NewSquareBitMatrix(cards.Modules)
	if err != nil {
		return 0, false
	}
	for y := range cards.Modules {
		for x := range cards.Modules {
			if p.Lit(on(float64(x)+0.5, float64(y)+0.5)) < limit {
				bits.Set(x, y)
			}
		}
	}
	text, err := decoder.NewDecoder().Decode(bits, nil)
	if err != nil {
		return 0, false
	}
	return cards.FromPayload(text.GetText())
}

// limit is the lightness between dark and light modules: half-way between what
// the three finder patterns have in their middle and in their light ring.
func (t triple) limit(p *photo.Photo) float64 {
	var sum float64
	for _, c := range [3][2]float64{{3.5, 3.5}, {cards.Modules - 3.5, 3.5}, {3.5, cards.Modules - 3.5}} {
		x, y := c[0], c[1]
		sum += p.Lit(t.on(x, y)) / 2
		for _, d := range [4][2]float64{{2, 0}, {-2, 0}, {0, 2}, {0, -2}} {
			sum += p.Lit(t.on(x+d[0], y+d[1])) / 8
		}
	}
	return sum / 3
}

// framed reports whether the timing patterns between the finder patterns are
// there (ISO/IEC 18004:2015, 6.3.5): a quick look before decoding.
func (t triple) framed(p *photo.Photo) bool {
	if !p.Inside(t.on(cards.Modules, cards.Modules), 1) {
		return false
	}
	limit := t.limit(p)
	wrong := 0
	for i := 8; i <= 12; i++ {
		for _, q := range []geom.Pt{t.on(float64(i)+0.5, 6.5), t.on(6.5, float64(i)+0.5)} {
			if (p.Lit(q) < limit) != (i%2 == 0) {
				wrong++
			}
		}
	}
	return wrong <= 1
}
