package referee

import (
	"math/rand/v2"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// stripes gives an open lay a plaid cloth and matches in which it is in step: a
// place is drawn on one piece, and its partner is whatever point of the other
// lies whole periods from it, or, when one of the two is turned end for end,
// from its mirror image about the squared line and a bar. Only one hand of each
// pair is matched, since the shelves do not mirror hands. It tells the places of
// the matches, none when the lay is folded.
func (t *table) stripes() []int {
	if t.l.Plan != lay.Open {
		return nil
	}
	along, across := 30_000+t.rng.Int64N(120_000), 30_000+t.rng.Int64N(90_000)
	bar := t.rng.Int64N(200_000)
	t.c.Repeat = cloth.Repeat{Along: unit.MM(mm(along)), Across: unit.MM(mm(across)), Even: true, Bar: unit.MM(mm(bar)), Known: true}
	t.l.Cloth = t.c
	var out []int
	for k, p := range t.l.Placed {
		if p.Cut.Copy != piece.Right {
			out = append(out, k)
		}
	}
	zero := point{X: 10_000, Y: bar - 10_000}
	for n := 1; n < len(out); n++ {
		a, b := t.l.Placed[out[n-1]], t.l.Placed[out[n]]
		q := point{X: t.rng.Int64N(300_000), Y: t.rng.Int64N(900_000)}
		u := onFlat(a, q)
		u = point{X: u.X - zero.X, Y: u.Y - zero.Y}
		if a.Degrees == 90 != (b.Degrees == 90) {
			u = point{X: -u.X, Y: -u.Y}
		}
		u.X += zero.X + along*(t.rng.Int64N(9)-4)
		u.Y += zero.Y + across*(t.rng.Int64N(9)-4)
		name := "seam at " + string(rune('a'+n))
		t.match(a.Cut.ID, finish.Matched{Match: name, At: q, Along: true, Across: true})
		t.match(b.Cut.ID, finish.Matched{Match: name, At: offFlat(b, u), Along: true, Across: true})
	}
	return out
}

func (t *table) match(id string, m finish.Matched) {
	for i := range t.cuts {
		if t.cuts[i].ID == id {
			t.cuts[i].Matched = append(t.cuts[i].Matched, m)
		}
	}
}

// onFlat puts a point of a piece, face up, where it lies: at -90 and 270 degrees
// x of the piece runs down across the cloth and y along it, at 90 both the other
// way.
func onFlat(p lay.Placed, q point) point {
	if p.Degrees == 90 {
		return point{X: p.AtX - q.Y, Y: p.AtY + q.X}
	}
	return point{X: p.AtX + q.Y, Y: p.AtY - q.X}
}

func offFlat(p lay.Placed, u point) point {
	if p.Degrees == 90 {
		return point{X: u.Y - p.AtY, Y: p.AtX - u.X}
	}
	return point{X: p.AtY - u.Y, Y: u.X - p.AtX}
}

func TestInStepPasses(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	for made := 0; made < 300; {
		b := newTable(rng)
		if len(b.stripes()) == 0 {
			continue
		}
		made++
		if found := Check(b.cuts, b.c, b.l); len(found) > 0 {
			t.Fatalf("%s: %s", found[0].Code(), found[0].Text())
		}
	}
}

// A thousand lays of each kind with one piece out of step, by no less than 0.51
// mm and no whole period: all told.
func TestPhaseMutants(t *testing.T) {
	for n, m := range []struct {
		name  string
		spoil func(b *table, p *lay.Placed)
	}{
		{"out of step along", func(b *table, p *lay.Placed) { p.AtX += b.outOfStep(b.c.Repeat.Along) }},
		{"out of step across", func(b *table, p *lay.Placed) { p.AtY += b.outOfStep(b.c.Repeat.Across) }},
		{"by half a period", func(b *table, p *lay.Placed) { p.AtX += micron(b.c.Repeat.Along.MM() / 2) }},
		{"another place on the cut", func(b *table, p *lay.Placed) {
			for i := range b.cuts {
				if b.cuts[i].ID == p.Cut.ID {
					b.cuts[i].Matched[0].At.Y += b.outOfStep(b.c.Repeat.Along)
				}
			}
		}},
		{"another repeat than it was laid for", func(b *table, p *lay.Placed) {
			by := 0.6 + b.rng.Float64()
			for i := range b.cuts {
				if b.cuts[i].ID == p.Cut.ID {
					k := &b.cuts[i].Matched[0]
					k.At.Y += micron(3 * b.c.Repeat.Along.MM()) // three periods off, where the other repeat misses three times as far
				}
			}
			b.c.Repeat.Along = unit.MM(b.c.Repeat.Along.MM() + by)
		}},
	} {
		t.Run(m.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(uint64(n), 6))
			for made := 0; made < 1000; {
				b := newTable(rng)
				matched := b.stripes()
				if len(matched) == 0 {
					continue
				}
				made++
				m.spoil(b, &b.l.Placed[matched[rng.IntN(len(matched))]])
				if found := Check(b.cuts, b.c, b.l); !found.Has("referee.phase") {
					t.Fatalf("passed: %v", found.Codes())
				}
			}
		})
	}
}

// outOfStep draws a shift that is no whole number of periods.
func (t *table) outOfStep(period unit.Length) int64 {
	by := 510 + t.rng.Int64N(micron(period.MM())-1020)
	return by + micron(period.MM())*(t.rng.Int64N(3)-1)
}

// What the lay says cannot be had is no fault, but only for that repeat.
func TestUnmatchedIsExcused(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 3))
	for made := 0; made < 50; {
		b := newTable(rng)
		matched := b.stripes()
		if len(matched) == 0 {
			continue
		}
		made++
		last := &b.l.Placed[matched[len(matched)-1]]
		last.AtX += 2000
		name := "seam at " + string(rune('a'+len(matched)-1))
		b.l.Unmatched = []lay.Unmatched{{Match: name, Along: true, Apart: 2}}
		if found := Check(b.cuts, b.c, b.l); found.Has("referee.phase") {
			t.Fatalf("%v", found.Codes())
		}
		b.l.Unmatched[0].Along, b.l.Unmatched[0].Across = false, true
		if found := Check(b.cuts, b.c, b.l); !found.Has("referee.phase") {
			t.Fatal("passed")
		}
	}
}

// A pair cut at one go on a fold that lies on a bar, by hand: 1480 mm of cloth
// with 10 mm selvedges, bars every 80 mm from 20 mm on, so the fold at 740 is a
// bar. The left hand's seat lies 300 mm from the fold, so the right's lies 300
// mm on its other side; 300 - (-300) is 7 periods and a half: 40 mm out of step.
// At 320 mm it is 8 periods.
func TestFoldedPairPhase(t *testing.T) {
	outline := microns([][2]float64{{0, 0}, {200, 0}, {200, 500}, {0, 500}})
	left := finish.Cut{ID: "back@left", Piece: "back", Copy: piece.Left, Cloth: cloth.Main, Outline: outline, Pair: "back@right"}
	right := finish.Cut{ID: "back@right", Piece: "back", Copy: piece.Right, Cloth: cloth.Main, Outline: outline.mirrored(0), Pair: "back@left"}
	left.Matched = []finish.Matched{{Match: "seat", At: point{X: 0, Y: 100_000}, Across: true}}
	right.Matched = []finish.Matched{{Match: "seat", At: point{X: 0, Y: 100_000}, Across: true}}
	c := drill(cloth.TwoWay)
	c.Repeat = cloth.Repeat{Across: unit.MM(80), Even: true, Bar: unit.MM(20), Known: true}
	for _, k := range []struct {
		from float64 // of the seat from the fold
		flip bool
		bar  float64
		want string
	}{
		{300, false, 20, "referee.phase"}, {320, false, 20, ""}, {320.2, false, 20, ""}, {320.3, false, 20, "referee.phase"},
		{320, true, 20, ""}, {300, true, 20, "referee.phase"},
		{320, false, 25, "referee.bar-fold"}, // the fold 5 mm beside a bar
	} {
		p := lay.Placed{Cut: left, Layers: 2, Degrees: -90, Flip: k.flip, AtX: 10_000, AtY: micron(k.from)}
		c.Repeat.Bar = unit.MM(k.bar)
		l := lay.Lay{Cloth: c, Role: cloth.Main, Plan: lay.Lengthwise, Length: 510, Placed: []lay.Placed{p},
			Sections: []lay.Section{{Fold: lay.Along, From: 10, To: 510, Width: 730, Depth: 730}}}
		var codes []string
		for _, code := range Check([]finish.Cut{left, right}, c, l).Codes() {
			if strings.Contains(code, "phase") || strings.Contains(code, "bar") || strings.Contains(code, "hands") {
				codes = append(codes, code)
			}
		}
		if (k.want == "") != (len(codes) == 0) || k.want != "" && codes[0] != k.want {
			t.Errorf("%v mm from the fold, flip %v, bar at %v: %v, want %q", k.from, k.flip, k.bar, codes, k.want)
		}
	}
	// Cut singly, the hands must mirror each other about a bar: 320 mm behind the
	// middle of the cloth and 320 or 400 before it do, 330 and 360 do not.
	for at, want := range map[float64]bool{320: true, 330: false, 360: false, 400: true} {
		l := lay.Lay{Cloth: c, Role: cloth.Main, Plan: lay.Open, Length: 510, Sections: []lay.Section{{Fold: lay.Flat, From: 10, To: 510, Width: 1460}}}
		l.Placed = []lay.Placed{
			{Cut: left, Layers: 1, Degrees: -90, AtX: 10_000, AtY: micron(730 + 320)},
			{Cut: right, Layers: 1, Degrees: -90, AtX: 10_000, AtY: micron(730 - at)},
		}
		c.Repeat.Bar = unit.MM(20)
		found := Check([]finish.Cut{left, right}, c, l)
		if found.Has("referee.hands") == want || found.Has("referee.phase") == want {
			t.Errorf("the right hand %v from the middle: %v", at, found.Codes())
		}
	}
}

// An uneven repeat is one-way cloth.
func TestUnevenIsOneWay(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 4))
	told := 0
	for range 40 {
		b := newTable(rng)
		b.c.Repeat = cloth.Repeat{Along: unit.MM(90)}
		turned := false
		for _, p := range b.l.Placed {
			turned = turned || p.Degrees == 90
		}
		if b.l.Plan != lay.Open || !turned {
			continue
		}
		if told++; !Check(b.cuts, b.c, b.l).Has("referee.nap") {
			t.Fatal("passed")
		}
	}
	if told == 0 {
		t.Error("none was tried")
	}
}
