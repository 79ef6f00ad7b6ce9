package camera

import (
	"cmp"
	"math"
	"slices"

	"gusset/internal/cards"
	"gusset/internal/geom"
)

// Seen is one card as one photo shows it: the pixels of its corner marks, in
// the order of cards.Corners.
type Seen struct {
	Photo int
	Card  cards.ID
	Px    [4]geom.Pt
}

// Tape is a distance measured from the cross of one card to that of another,
// in mm.
type Tape struct {
	A, B   cards.ID
	Length float64
}

// Shot is what is known of a photo beforehand: its size in pixels, and its
// focal length in pixels as far as it is stated (0 where it is not).
type Shot struct {
	W, H  int
	Focal float64
}

// usualFocal is the focal length of a phone's main camera, as a fraction of the
// longer side of the picture: 26 mm on film 36 mm wide (common practice).
const usualFocal = 26.0 / 36

// guess is the lens to begin with.
func (s Shot) guess() Lens {
	f := s.Focal
	if f == 0 {
		f = usualFocal * float64(max(s.W, s.H))
	}
	return Lens{F: f, CX: float64(s.W-1) / 2, CY: float64(s.H-1) / 2}
}

// Placed is where a card lies on the table: its middle, and the angle in
// radians by which it is turned counter-clockwise.
type Placed struct {
	At    geom.Pt
	Angle float64
}

// Solution is what the photos and tapes say together.
type Solution struct {
	Views []View // one for each photo
	Cards map[cards.ID]Placed
	// Scale is the true size of the printed cards divided by what was meant, and
	// Stretch how much longer than this they are up the sheet they were printed
	// on, and shorter across it, as a fraction.
	Scale, Stretch float64
	// RMS is the root mean square of what is left between measured and computed
	// corner marks in pixels, and RMSmm the same on the table.
	RMS, RMSmm float64
	Worst      cards.ID // the card that fits worst
	WorstMM    float64  // its own root mean square on the table
	TapeMiss   []float64
	// ScaleSD is the standard deviation of the scale of everything, as far as
	// the tapes' own uncertainty goes into it.
	ScaleSD float64
}

// What the unknowns are expected to be before anything is measured, as standard
// deviations. Those of the printed scale and of the tape are what printers and
// tapes of accuracy class II do (common practice); the others are wide.
const (
	pixelSD     = 0.06 // of a corner mark, pixels
	principalSD = 15.0 // of the principal point at 4000 pixels, pixels
	focalSD     = 0.15 // fraction
	k1SD, k2SD  = 0.2, 0.2
	scaleSD     = 0.01 // a page shrunk to fit is told apart from this by the tape
	stretchSD   = 0.003
)

// TapeSD is the standard deviation in mm of a tape reading of a length in mm:
// half a millimetre for holding and reading, and two tenths of a millimetre for
// each metre of the tape itself (from memory of OIML R 35 class II, whose limit
// is 0.3 + 0.2·L mm).
func TapeSD(length float64) float64 { return math.Hypot(0.5, 0.2*length/1000) }

// printed returns a card's own point as the printer made it: scaled, and longer
// up the printed sheet.
func printed(id cards.ID, p geom.Pt, scale, stretch float64) geom.Pt {
	along, across := scale*(1+stretch), scale*(1-stretch)
	if id.Turned() {
		along, across = across, along
	}
	return geom.Pt{X: p.X * across, Y: p.Y * along}
}

// On returns where a point of a card lies on the table.
func (s Solution) On(id cards.ID, p geom.Pt) geom.Pt {
	c := s.Cards[id]
	return c.At.Add(printed(id, p, s.Scale, s.Stretch).Rot(c.Angle))
}

// Connected reports the cards and photos that hang together with the first
// card seen, through photos that share cards: which photos do, which not.
func Connected(seen []Seen, photos int) (joined []bool) {
	joined = make([]bool, photos)
	if len(seen) == 0 {
		return joined
	}
	known := map[cards.ID]bool{}
	joined[seen[0].Photo] = true
	for again := true; again; {
		again = false
		for _, s := range seen {
			if joined[s.Photo] != known[s.Card] {
				joined[s.Photo], known[s.Card], again = true, true, true
			}
		}
	}
	return joined
}

// Solve finds lens, views and cards. Every photo must be Connected and all
// have the same size and lens; false where nothing sound comes out.
func Solve(shots []Shot, seen []Seen, tapes []Tape) (Solution, bool) {
	best, cost := Solution{}, math.Inf(1)
	for _, k := range []float64{1, 0.75, 1.35} { // a stated focal length may be of a crop
		u, ok := begin(shots, seen, k)
		if !ok {
			continue
		}
		u.seen, u.tapes = seen, tapes
		u.focal = shots[0].guess()
		x, c, ok := leastSquares(u.vector(), u.residuals)
		if !ok || c >= cost {
			continue
		}
		best, cost = u.solution(x).judged(seen, tapes), c
		if best.RMS < 3*pixelSD {
			break // nothing better is to be found
		}
	}
	return best, !math.IsInf(cost, 1)
}

// unknowns is the state of the search: a lens, a view for each photo, a place
// for each card (the first one at the origin, upright).
type unknowns struct {
	lens           Lens
	views          []View
	order          []cards.ID
	cards          map[cards.ID]Placed
	scale, stretch float64

	seen  []Seen
	tapes []Tape
	focal Lens // what the lens is expected to be
}

// begin places the first card at the origin and everything else from it, one
// photo and one card after the other, by plain homographies.
func begin(shots []Shot, seen []Seen, k float64) (*unknowns, bool) {
	u := &unknowns{lens: shots[0].guess(), views: make([]View, len(shots)), cards: map[cards.ID]Placed{}, scale: 1}
	u.lens.F *= k
	sorted := slices.Clone(seen)
	slices.SortFunc(sorted, func(a, b Seen) int { return cmp.Compare(a.Card, b.Card) })
	u.order = append(u.order, sorted[0].Card)
	u.cards[sorted[0].Card] = Placed{}
	ready := make([]bool, len(shots))
	for again := true; again; {
		again = false
		for i := range shots {
			if !ready[i] && u.placePhoto(i, sorted) {
				ready[i], again = true, true
				u.placeCards(i, sorted)
			}
		}
	}
	return u, !slices.Contains(ready, false)
}

// placePhoto finds a photo's view from the cards it shows that lie already.
func (u *unknowns) placePhoto(photo int, seen []Seen) bool {
	var table, px []geom.Pt
	for _, s := range seen {
		c, ok := u.cards[s.Card]
		if s.Photo != photo || !ok {
			continue
		}
		for i, p := range cards.Corners() {
			table, px = append(table, c.At.Add(p.Rot(c.Angle))), append(px, s.Px[i])
		}
	}
	h, ok := FindHomography(table, px)
	if !ok {
		return false
	}
	u.views[photo], ok = u.lens.pose(h)
	return ok
}

// placeCards lays the further cards of a photo where it shows them.
func (u *unknowns) placeCards(photo int, seen []Seen) {
	for _, s := range seen {
		if _, known := u.cards[s.Card]; s.Photo != photo || known {
			continue
		}
		var at [4]geom.Pt
		sound := true
		for i, q := range s.Px {
			var ok bool
			at[i], ok = u.views[photo].Table(q, 0)
			sound = sound && ok && at[i].Len() < 20_000
		}
		if !sound {
			continue
		}
		mid := at[0].Add(at[1]).Add(at[2]).Add(at[3]).Mul(0.25)
		u.cards[s.Card] = Placed{At: mid, Angle: at[1].Sub(at[0]).Add(at[2].Sub(at[3])).Angle()}
		u.order = append(u.order, s.Card)
	}
}

// The vector of unknowns: lens (5), scale and stretch, six for each view, three
// for each card but the first. Each is in a unit of about its expected change.
const lensUnknowns = 7

func (u *unknowns) vector() []float64 {
	return make([]float64, lensUnknowns+6*len(u.views)+3*(len(u.order)-1))
}

// at returns the state moved by x.
func (u *unknowns) at(x []float64) (Lens, float64, float64) {
	l := u.lens
	size := 2 * max(l.CX, l.CY)
	l.F *= math.Exp(0.01 * x[0])
	l.CX += 0.002 * size * x[1]
	l.CY += 0.002 * size * x[2]
	l.K1 += 0.01 * x[3]
	l.K2 += 0.01 * x[4]
	return l, u.scale + 0.001*x[5], u.stretch + 0.001*x[6]
}

func (u *unknowns) view(i int, x []float64, l Lens) View {
	x = x[lensUnknowns+6*i:]
	v := u.views[i]
	v.Lens = l
	v.R = product(turnBy([3]float64{0.01 * x[0], 0.01 * x[1], 0.01 * x[2]}), v.R)
	for k := range v.T {
		v.T[k] += 10 * x[3+k]
	}
	return v
}

func (u *unknowns) card(i int, x []float64) Placed {
	c := u.cards[u.order[i]]
	if i == 0 {
		return c
	}
	x = x[lensUnknowns+6*len(u.views)+3*(i-1):]
	return Placed{At: c.At.Add(geom.Pt{X: x[0], Y: x[1]}), Angle: c.Angle + 0.01*x[2]}
}

// residuals lists what does not agree, each in standard deviations.
func (u *unknowns) residuals(x []float64) []float64 {
	s := u.solution(x)
	out := make([]float64, 0, 8*len(u.seen)+len(u.tapes)+7)
	for _, c := range u.seen {
		for i, p := range cards.Corners() {
			q, ok := s.Views[c.Photo].Project(s.On(c.Card, p), 0)
			if !ok {
				q = geom.Pt{X: -1e6, Y: -1e6}
			}
			out = append(out, (q.X-c.Px[i].X)/pixelSD, (q.Y-c.Px[i].Y)/pixelSD)
		}
	}
	for _, t := range u.tapes {
		out = append(out, (s.taped(t)-t.Length)/TapeSD(t.Length))
	}
	l, size := s.Views[0].Lens, 2*max(u.focal.CX, u.focal.CY)/4000
	return append(out,
		math.Log(l.F/u.focal.F)/focalSD, (l.CX-u.focal.CX)/(principalSD*size), (l.CY-u.focal.CY)/(principalSD*size),
		l.K1/k1SD, l.K2/k2SD, (s.Scale-1)/scaleSD, s.Stretch/stretchSD)
}

// taped is the computed length of a tape.
func (s Solution) taped(t Tape) float64 {
	return s.On(t.A, cards.Tape()).Dist(s.On(t.B, cards.Tape()))
}

// solution is the state moved by x, without its figures of merit.
func (u *unknowns) solution(x []float64) Solution {
	l, scale, stretch := u.at(x)
	s := Solution{Scale: scale, Stretch: stretch, Cards: map[cards.ID]Placed{}}
	for i := range u.views {
		s.Views = append(s.Views, u.view(i, x, l))
	}
	for i, id := range u.order {
		s.Cards[id] = u.card(i, x)
	}
	return s
}
