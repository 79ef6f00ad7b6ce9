package detect

import (
	"math"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/camera"
	"gusset/internal/trace/photo"
)

// Cards far away in a steep photo are small and flattened, and their finder
// patterns are missed in the photo as it is. Where nearer cards tell how the
// table lies, the parts of the photo that show it so are drawn as seen from
// straight above, enlarged, and looked through once more.

// Where the table is drawn straight: where the shorter side of a module is
// between these many pixels (below the first no letter can be read, above the
// second the first look sees it), or the longer side this much longer.
const (
	smallest, smallModule = 1.8, 4.5
	flattened             = 1.35
)

// straightStep is how many mm a pixel of the straightened picture covers: five
// pixels for a module. mostStraight bounds its pixels, and tableReach how far
// from the cards that are seen the table is drawn, mm.
const (
	straightStep = cards.Module / 5
	mostStraight = 12e6
	tableReach   = 3000.0
)

// straight is a part of the table as seen from straight above: the pixel (0, 0)
// shows the place lo, and y runs down the picture.
type straight struct {
	picture *photo.Photo
	view    camera.View
	lo      geom.Pt // the upper left corner
	step    float64
}

// straightened draws the parts of the table that the first look may have missed;
// false where there are none, or the table is not known: for that two cards have
// to be seen.
func straightened(p *photo.Photo, found []Found) (straight, bool) {
	if len(found) < 2 {
		return straight{}, false
	}
	seen := make([]camera.Seen, len(found))
	for i, f := range found {
		seen[i] = camera.Seen{Card: f.Card, Px: f.Px}
	}
	shot := camera.Shot{W: p.W, H: p.H, Focal: p.Focal / 36 * float64(max(p.W, p.H))}
	solved, ok := camera.Solve([]camera.Shot{shot}, seen, nil)
	if !ok {
		return straight{}, false
	}
	var middle geom.Pt
	for _, c := range solved.Cards {
		middle = middle.Add(c.At.Mul(1 / float64(len(solved.Cards))))
	}
	s := straight{view: solved.Views[0], step: straightStep}
	lo, hi, ok := s.missed(p, middle)
	if !ok {
		return straight{}, false
	}
	size := hi.Sub(lo)
	s.step = max(s.step, math.Sqrt(size.X*size.Y/mostStraight))
	s.lo = geom.Pt{X: lo.X, Y: hi.Y}
	s.draw(p, int(size.X/s.step)+1, int(size.Y/s.step)+1)
	return s, true
}

// missed is the box of the places of the table that are seen small or flattened.
func (s straight) missed(p *photo.Photo, middle geom.Pt) (lo, hi geom.Pt, ok bool) {
	const every = 48 // pixels
	var all []geom.Pt
	for y := 0; y < p.H; y += every {
		for x := 0; x < p.W; x += every {
			at, ok := s.view.Table(geom.Pt{X: float64(x), Y: float64(y)}, 0)
			if ok && at.Dist(middle) < tableReach && s.poorly(at) {
				all = append(all, at)
			}
		}
	}
	if len(all) == 0 {
		return lo, hi, false
	}
	lo, hi = geom.BoundsOf(all)
	// A card that is half in the box is whole in the picture.
	m := geom.Pt{X: cards.Cut, Y: cards.Cut}
	return lo.Sub(m), hi.Add(m), true
}

// poorly reports whether a card at a place of the table may be missed in the
// photo as it is.
func (s straight) poorly(at geom.Pt) bool {
	narrow := cards.Module / s.view.Grain(at)
	o := s.view.Pixel(at)
	a, b := s.view.Pixel(at.Add(geom.Pt{X: 1})).Sub(o), s.view.Pixel(at.Add(geom.Pt{Y: 1})).Sub(o)
	wide := cards.Module * cards.Module * math.Abs(a.Cross(b)) / narrow
	return narrow > smallest && (narrow < smallModule || wide > flattened*narrow)
}

// draw fills the picture. The map to the photo is computed every 16 pixels, and
// straight between them.
func (s *straight) draw(p *photo.Photo, w, h int) {
	const every = 16
	plane := make([]byte, w*h)
	for i := range plane {
		plane[i] = 255 // beside the photo
	}
	for y0 := 0; y0 < h; y0 += every {
		for x0 := 0; x0 < w; x0 += every {
			a, b := s.photo(geom.Pt{X: float64(x0), Y: float64(y0)}), s.photo(geom.Pt{X: float64(x0 + every), Y: float64(y0)})
			c, d := s.photo(geom.Pt{X: float64(x0), Y: float64(y0 + every)}), s.photo(geom.Pt{X: float64(x0 + every), Y: float64(y0 + every)})
			if !p.Inside(a, 1) || !p.Inside(b, 1) || !p.Inside(c, 1) || !p.Inside(d, 1) {
				continue
			}
			for y := y0; y < min(y0+every, h); y++ {
				l, r := a.Lerp(c, float64(y-y0)/every), b.Lerp(d, float64(y-y0)/every)
				for x := x0; x < min(x0+every, w); x++ {
					plane[y*w+x] = byte(p.Lit(l.Lerp(r, float64(x-x0)/every)) + 0.5)
				}
			}
		}
	}
	s.picture = photo.FromLightness(p.Name, plane, w, h)
}

// photo is the place in the photo of a place in the straightened picture.
func (s straight) photo(px geom.Pt) geom.Pt {
	return s.view.Pixel(s.lo.Add(geom.Pt{X: px.X * s.step, Y: -px.Y * s.step}))
}

// measured looks for the corner marks of a card of the straightened picture in
// the photo itself.
func (s straight) measured(p *photo.Photo, f Found) (Found, bool) {
	for i, q := range f.Px {
		f.Px[i] = s.photo(q)
	}
	card := cards.Corners()
	h, ok := camera.FindHomography(card[:], f.Px[:])
	if !ok {
		return f, false
	}
	for i, c := range card {
		q, ok := saddle(p, f.Px[i], h.Apply, c)
		if !ok || !(q.Dist(f.Px[i]) <= 1.5) {
			return f, false
		}
		f.Px[i] = q
	}
	middle, _ := s.view.Table(h.Apply(geom.Pt{}), 0)
	f.Module = cards.Module / s.view.Grain(middle)
	return f, true
}
