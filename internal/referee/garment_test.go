package referee

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// garment is a set of cuts of about the shapes and sizes of a pair of
// trousers, drawn at random, with the whole outline of each half piece.
type garment struct {
	cuts  []finish.Cut
	whole map[string]ring
}

// leg is a trouser leg's outline in mm: hem, inseam, fork, seat or front
// curve, waist, hip curve, outseam.
func leg(rng *rand.Rand, length, thigh, hem, fork float64) ring {
	v := func(x float64) float64 { return x * (0.9 + 0.2*rng.Float64()) }
	length, thigh, hem, fork = v(length), v(thigh), v(hem), v(fork)
	pts := [][2]float64{{-hem / 2, 0}, {hem / 2, 0}}
	knee, crotch, waist := 0.42*length, 0.72*length, length
	pts = append(pts, [2]float64{hem/2 + 10, knee}, [2]float64{thigh/2 - 20, 0.65 * length}, [2]float64{thigh / 2, crotch})
	for k := 1; k <= 8; k++ { // the fork's curve, a quarter of an ellipse
		s, c := math.Sincos(float64(k) * math.Pi / 16)
		pts = append(pts, [2]float64{thigh/2 - fork*s, crotch + (waist-crotch)*0.5*(1-c)})
	}
	pts = append(pts, [2]float64{thigh/2 - fork - 15, waist}, [2]float64{-thigh/2 + fork/2 + 20, waist - 12})
	for k := 1; k <= 8; k++ { // the hip's curve
		s, c := math.Sincos(float64(k) * math.Pi / 16)
		pts = append(pts, [2]float64{-thigh/2 + (fork/2+20)*(1-s), waist - 12 - (waist-crotch)*0.8*(1-c)})
	}
	pts = append(pts, [2]float64{-hem/2 - 8, knee})
	return microns(pts)
}

func microns(pts [][2]float64) ring {
	var r ring
	for _, p := range pts {
		r = append(r, point{X: int64(math.Round(p[0] * 1000)), Y: int64(math.Round(p[1] * 1000))})
	}
	return r
}

func slab(rng *rand.Rand, w, h float64) ring {
	w, h = w*(0.8+0.4*rng.Float64()), h*(0.8+0.4*rng.Float64())
	cut := math.Min(w, h) * 0.3 * rng.Float64()
	return microns([][2]float64{{0, 0}, {w, 0}, {w, h - cut}, {w - cut, h}, {cut / 2, h}, {0, h - cut/2}})
}

func newGarment(rng *rand.Rand) garment {
	g := garment{whole: map[string]ring{}}
	pair := func(name string, r ring) {
		l, m := name+"@left", name+"@right"
		g.cuts = append(g.cuts,
			finish.Cut{ID: l, Piece: name, Copy: piece.Left, Cloth: cloth.Main, Outline: r, Pair: m},
			finish.Cut{ID: m, Piece: name, Copy: piece.Right, Cloth: cloth.Main, Outline: r.mirrored(0), Pair: l})
	}
	single := func(name string, r ring) {
		g.cuts = append(g.cuts, finish.Cut{ID: name, Piece: name, Copy: piece.Single, Cloth: cloth.Main, Outline: r})
	}
	half := func(name string, w, h float64) {
		w, h = w*(0.8+0.4*rng.Float64()), h*(0.8+0.4*rng.Float64())
		r := microns([][2]float64{{5, 0}, {5 + w, 10}, {5 + 0.8*w, h}, {5, h - 6}})
		foot, head := r[0], r[3]
		g.whole[name] = append(r[:3:3], head, point{X: 2*foot.X - r[2].X, Y: r[2].Y}, point{X: 2*foot.X - r[1].X, Y: r[1].Y})
		g.cuts = append(g.cuts, finish.Cut{
			ID: name, Piece: name, Copy: piece.Single, Cloth: cloth.Main, Outline: r, OnFold: true, Fold: [2]point{foot, head},
		})
	}
	pair("front", leg(rng, 1050, 310, 230, 60))
	pair("back", leg(rng, 1060, 380, 250, 110))
	pair("yoke", slab(rng, 220, 80))
	pair("pocket", slab(rng, 170, 190))
	half("shield", 45, 210)
	half("apron", 150, 420)
	single("waistband", slab(rng, 95, 880))
	for k := range 4 {
		single(fmt.Sprintf("loops#%d", k+1), slab(rng, 32, 90))
	}
	return g
}

func drill(d cloth.Direction) cloth.Cloth {
	return cloth.Cloth{Name: "drill", Width: unit.MM(1480), Selvedge: unit.MM(10), Length: unit.MM(9000), Direction: d, Washed: true}
}

// shelves puts pieces down one beside the other across the cloth, then starts
// again farther along; some touch, some have a little room.
type shelves struct {
	rng            *rand.Rand
	l              *lay.Lay
	low, width     int64 // across
	from, y, reach int64
	section        int
}

func (s *shelves) put(p lay.Placed, shape ring, pinned bool) {
	q, _ := quarterTurns(p.Degrees)
	b := boxOf(shape.put(p.Flip, q, point{})...)
	high := b.hi.Y - b.lo.Y
	if pinned || s.y+high > s.width {
		s.from, s.y = s.reach, s.low
	}
	p.Section = max(p.Section, s.section)
	p.AtX, p.AtY = s.from-b.lo.X, s.y-b.lo.Y
	s.y += high
	if s.rng.IntN(3) > 0 {
		s.y += s.rng.Int64N(4000)
	}
	s.reach = max(s.reach, b.hi.X+p.AtX)
	s.l.Placed = append(s.l.Placed, p)
}

func degrees(rng *rand.Rand, c cloth.Cloth) float64 {
	if c.Direction == cloth.OneWay {
		return -90
	}
	return []float64{-90, 90, 270}[rng.IntN(3)]
}

func (g garment) open(rng *rand.Rand, c cloth.Cloth) lay.Lay {
	l := lay.Lay{Cloth: c, Role: cloth.Main, Plan: lay.Open}
	s := shelves{rng: rng, l: &l, width: micron(c.UsableWidth()), from: 10000, reach: 10000}
	for _, k := range rng.Perm(len(g.cuts)) {
		cut := g.cuts[k]
		if w := g.whole[cut.ID]; w != nil {
			cut.Outline = w
		}
		s.put(lay.Placed{Cut: cut, Layers: 1, Degrees: degrees(rng, c)}, cut.Outline, false)
	}
	l.Sections = []lay.Section{{Fold: lay.Flat, From: 10, To: mm(s.reach), Width: c.UsableWidth()}}
	l.Length = mm(s.reach)
	return l
}

func (g garment) folded(rng *rand.Rand, c cloth.Cloth) lay.Lay {
	l := lay.Lay{Cloth: c, Role: cloth.Main, Plan: lay.Lengthwise}
	s := shelves{rng: rng, l: &l, width: micron(c.UsableWidth() / 2), from: 10000, reach: 10000}
	for _, k := range rng.Perm(len(g.cuts)) {
		cut := g.cuts[k]
		p := lay.Placed{Cut: cut, Layers: 2, Degrees: degrees(rng, c), Flip: rng.IntN(2) == 0}
		switch {
		case cut.OnFold:
			p.Flip = p.Degrees != 90 // the half lies above its fold line
			s.put(p, cut.Outline, true)
		case cut.Pair != "" && (cut.Copy == piece.Left) == (len(cut.Piece)%2 == 0):
			s.put(p, cut.Outline, false)
		}
	}
	end := s.reach
	s.width, s.from, s.y = 2*s.width, end, 0
	for _, cut := range g.cuts {
		if !cut.OnFold && cut.Pair == "" {
			s.put(lay.Placed{Cut: cut, Section: 1, Layers: 1, Degrees: degrees(rng, c)}, cut.Outline, false)
		}
	}
	l.Sections = []lay.Section{
		{Fold: lay.Along, From: 10, To: mm(end), Width: c.UsableWidth() / 2, Depth: c.UsableWidth() / 2},
		{Fold: lay.Flat, From: mm(end), To: mm(s.reach), Width: c.UsableWidth()},
	}
	l.Length = mm(s.reach)
	return l
}
