package detect

import (
	"math"

	"github.com/makiuchi-d/gozxing"
	multi "github.com/makiuchi-d/gozxing/multi/qrcode/detector"

	"gusset/internal/geom"
	"gusset/internal/trace/photo"
)

// centre is the middle of a finder pattern, with the side of its modules in
// pixels.
type centre struct {
	at     geom.Pt
	module float64
}

// candidates lists what may be finder patterns. The finder's own choice among
// them is not used: it wants symbols that are seen nearly straight on.
func candidates(p *photo.Photo) []centre {
	plane, stride := p.Lightness()
	source, err := gozxing.NewPlanarYUVLuminanceSource(plane, stride, p.H, 0, 0, p.W, p.H, false)
	if err != nil {
		return nil
	}
	bits, err := gozxing.NewHybridBinarizer(source).GetBlackMatrix()
	if err != nil {
		return nil
	}
	f := multi.NewMultiFinderPatternFinder(bits, nil)
	// An error says that no symbol was chosen; the candidates are there all the
	// same.
	_, _ = f.FindMulti(map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true})
	var out []centre
	for _, c := range f.GetPossibleCenters() {
		out = append(out, centre{geom.Pt{X: c.GetX(), Y: c.GetY()}, c.GetEstimatedModuleSize()})
	}
	return out
}

// mostCentres bounds how many candidates are kept: a busy cloth has thousands.
const mostCentres = 600

// refined moves each candidate to the weight of the dark square in the middle of
// its pattern, and leaves out those that are no dark square in a light ring.
func refined(p *photo.Photo, all []centre) []centre {
	var out []centre
	for _, c := range all {
		if c.module < 1.5 || !p.Inside(c.at, 4*c.module) {
			continue
		}
		if at, ok := darkMiddle(p, c); ok {
			out = append(out, centre{at, c.module})
		}
		if len(out) == mostCentres {
			break
		}
	}
	return out
}

// darkMiddle returns the weighted middle of the dark 3 × 3 modules. A window
// two modules wide to each side takes in the light ring as well, however the
// pattern is turned.
func darkMiddle(p *photo.Photo, c centre) (geom.Pt, bool) {
	dark, light := p.Lit(c.at), 0.0
	for k := range 8 {
		d := geom.Pt{X: 2 * c.module}.Rot(float64(k) * math.Pi / 4)
		light = math.Max(light, p.Lit(c.at.Add(d)))
	}
	if light-dark < 20 {
		return geom.Pt{}, false
	}
	half := (light + dark) / 2
	reach := int(math.Ceil(2 * c.module))
	x0, y0 := int(math.Round(c.at.X)), int(math.Round(c.at.Y))
	var sum, sx, sy float64
	for y := y0 - reach; y <= y0+reach; y++ {
		for x := x0 - reach; x <= x0+reach; x++ {
			q := geom.Pt{X: float64(x), Y: float64(y)}
			if q.Dist(c.at) > 2.05*c.module {
				continue
			}
			if w := half - p.Lit(q); w > 0 {
				sum, sx, sy = sum+w, sx+w*q.X, sy+w*q.Y
			}
		}
	}
	if sum == 0 {
		return geom.Pt{}, false
	}
	at := geom.Pt{X: sx / sum, Y: sy / sum}
	return at, at.Dist(c.at) < 1.5*c.module
}

// triple is three finder patterns that may be one symbol: upper left, upper
// right and lower left.
type triple struct{ tl, tr, bl centre }

// The middles of the finder patterns of a version 1 symbol lie 14 modules apart.
// Seen at a slant of 45 degrees, and with modules measured along the rows, legs
// are between these many modules long, and differ by no more than this factor.
const (
	shortLeg, longLeg = 8.0, 24.0
	legsDiffer        = 1.8
	modulesDiffer     = 1.8
)

// triples lists every three candidates that may be a symbol. In a mirror they
// turn the other way round.
func triples(all []centre, mirror bool) []triple {
	var out []triple
	for i, a := range all {
		var near []centre
		for j, b := range all {
			if d := a.at.Dist(b.at) / math.Sqrt(a.module*b.module); i != j && d >= shortLeg && d <= longLeg && alike(a.module, b.module, modulesDiffer) {
				near = append(near, b)
			}
		}
		for _, b := range near {
			for _, c := range near {
				t := triple{a, b, c}
				if b != c && t.plausible(mirror) {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

func alike(a, b, factor float64) bool { return a < factor*b && b < factor*a }

func (t triple) plausible(mirror bool) bool {
	right, down := t.tr.at.Sub(t.tl.at), t.bl.at.Sub(t.tl.at)
	turn := right.Cross(down) // y runs down: positive when the symbol is seen from its face
	if mirror {
		turn = -turn
	}
	l, m := right.Len(), down.Len()
	return alike(l, m, legsDiffer) && turn > 0.6*l*m // 37 to 143 degrees
}
