package referee

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// folds are the sections before the open one at the end, by plan. A part fold is
// 600 mm deep, so that 240 mm of single cloth lie beside it.
var planFolds = map[lay.Plan][]lay.Section{
	lay.Open:       {},
	lay.Lengthwise: {{Fold: lay.Along, Depth: 730}},
	lay.PartFold:   {{Fold: lay.Along, Depth: 600}},
	lay.Crosswise:  {{Fold: lay.Across}},
	lay.Turned:     {{Fold: lay.Swung}},
	lay.TwoFolds:   {{Fold: lay.Along, Depth: 730}, {Fold: lay.Across}},
}

// planned lays a garment by a plan on shelves: halves on a lengthwise fold,
// pairs shared out over the folds, narrow singles beside a part fold, the rest
// open behind. One-way cloth is turned instead of folded crosswise.
func (g garment) planned(rng *rand.Rand, c cloth.Cloth, plan lay.Plan) lay.Lay {
	l := lay.Lay{Cloth: c, Role: cloth.Main, Plan: plan}
	end := int64(10_000)
	folds := slices.Clone(planFolds[plan])
	done := map[string]bool{}
	for k, s := range folds {
		if s.Fold == lay.Across && c.Direction == cloth.OneWay {
			s.Fold = lay.Swung
			if plan == lay.Crosswise {
				l.Plan = lay.Turned
			}
		}
		s.From = mm(end)
		b := &shelves{rng: rng, l: &l, from: end, reach: end, section: k, width: micron(c.UsableWidth())}
		s.Width = c.UsableWidth() - s.Depth
		if s.Fold == lay.Along {
			b.width = micron(s.Depth)
		}
		for _, i := range rng.Perm(len(g.cuts)) {
			cut := g.cuts[i]
			p := lay.Placed{Cut: cut, Layers: 2, Degrees: degrees(rng, c), Flip: rng.IntN(2) == 0}
			switch {
			case done[cut.ID]:
				continue
			case cut.OnFold && s.Fold == lay.Along:
				p.Flip = p.Degrees != 90
				b.put(p, cut.Outline, true)
			case cut.Pair != "" && (k+1 == len(folds) || rng.IntN(2) == 0):
				b.put(p, cut.Outline, false)
			default:
				continue
			}
			done[cut.ID], done[cut.Pair] = true, true
		}
		reach := b.reach
		if s.Fold == lay.Along && s.Depth < 730 {
			beside := &shelves{rng: rng, l: &l, from: end, reach: end, section: k, low: 610_000, y: 610_000, width: micron(s.Width)}
			for _, cut := range g.cuts {
				if cut.Pair == "" && !cut.OnFold && boxOf(cut.Outline...).hi.X < 200_000 {
					beside.put(lay.Placed{Cut: cut, Layers: 1, Degrees: degrees(rng, c)}, cut.Outline, false)
					done[cut.ID] = true
				}
			}
			reach = max(reach, beside.reach)
		}
		s.To = mm(reach)
		if end = reach; s.Fold != lay.Along {
			end += reach - micron(s.From)
		}
		l.Sections = append(l.Sections, s)
	}
	b := &shelves{rng: rng, l: &l, from: end, reach: end, section: len(folds), width: micron(c.UsableWidth())}
	for _, cut := range g.cuts {
		if done[cut.ID] {
			continue
		}
		if w := g.whole[cut.ID]; w != nil {
			cut.Outline = w
		}
		b.put(lay.Placed{Cut: cut, Layers: 1, Degrees: degrees(rng, c)}, cut.Outline, false)
	}
	l.Sections = append(l.Sections, lay.Section{Fold: lay.Flat, From: mm(end), To: mm(b.reach), Width: c.UsableWidth()})
	l.Length = mm(b.reach)
	return l
}

// onPlan is a sound lay by one of some plans.
func onPlan(rng *rand.Rand, plans ...lay.Plan) *table {
	g := newGarment(rng)
	t := &table{rng: rng, cuts: g.cuts, c: drill(cloth.Directions[rng.IntN(3)])}
	t.l = g.planned(rng, t.c, plans[rng.IntN(len(plans))])
	return t
}

func TestSoundPlansPass(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	for n := range 600 {
		b := onPlan(rng, lay.Plans[n%len(lay.Plans)])
		if found := Check(b.cuts, b.c, b.l); len(found) > 0 {
			t.Fatalf("%s on %s cloth: %s: %s", b.l.Plan, b.c.Direction, found[0].Code(), found[0].Text())
		}
	}
}

// within tells of a placement by the fold of its section and its layers.
func (t *table) within(f lay.Fold, layers int) func(lay.Placed) bool {
	return func(p lay.Placed) bool { return t.l.Sections[p.Section].Fold == f && p.Layers == layers }
}

// spotsOf are the places of the flat cloth that a point before the cutter is cut
// at, by hand: a lengthwise fold lies at its depth from the near selvedge; a
// crosswise one at the section's end; what is swung round lies a section's
// length farther, the near side on the far one.
func (t *table) spotsOf(p lay.Placed, at point) []point {
	s := t.l.Sections[p.Section]
	wide := micron(t.c.UsableWidth())
	depth, from, to := micron(s.Depth), micron(s.From), micron(s.To)
	out := []point{{X: at.X, Y: at.Y + depth}}
	if p.Layers == 1 {
		return out
	}
	switch s.Fold {
	case lay.Along:
		out = append(out, point{X: at.X, Y: depth - at.Y})
	case lay.Across:
		out = append(out, point{X: 2*to - at.X, Y: at.Y})
	case lay.Swung:
		out = append(out, point{X: at.X + to - from, Y: wide - at.Y})
	}
	return out
}

// innerPoint is a point well inside a piece as it lies: of many drawn in its
// box, the first that the winding rule calls inside.
func (t *table) innerPoint(p lay.Placed) point {
	r := lies(p)
	b := boxOf(r...)
	for {
		q := point{X: b.lo.X + t.rng.Int64N(b.hi.X-b.lo.X), Y: b.lo.Y + t.rng.Int64N(b.hi.Y-b.lo.Y)}
		if inside(q, r) {
			return q
		}
	}
}

func (t *table) flawAt(at point, size float64) {
	t.c.Flaws = append(t.c.Flaws, cloth.Flaw{
		At:   cloth.Spot{FromEnd: unit.MM(mm(at.X)), FromSelvedge: unit.MM(mm(at.Y) + 10)},
		Size: unit.MM(size),
	})
}

// planMutants are the faults that folds, flaws and remnants bring.
var planMutants = []struct {
	name, want string
	plans      []lay.Plan
	spoil      func(*table) bool
}{
	{"one-way cloth folded crosswise", "referee.nap", []lay.Plan{lay.TwoFolds}, func(t *table) bool {
		t.l.Sections[1].Fold = lay.Across
		return t.c.Direction == cloth.OneWay && t.pick(t.within(lay.Across, 2)) != nil
	}},
	{"turned cloth folded back after all", "referee.nap", []lay.Plan{lay.Turned}, func(t *table) bool {
		t.l.Plan, t.l.Sections[0].Fold = lay.Crosswise, lay.Across
		return t.c.Direction == cloth.OneWay && t.pick(t.within(lay.Across, 2)) != nil
	}},
	{"end for end on turned one-way cloth", "referee.nap", []lay.Plan{lay.Turned}, func(t *table) bool {
		p := t.pick(t.within(lay.Swung, 2))
		if p == nil || t.c.Direction != cloth.OneWay {
			return false
		}
		p.Degrees = 90
		return true
	}},
	{"half a piece where no lengthwise fold is", "referee.nofold", []lay.Plan{lay.Crosswise, lay.Turned}, func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Cut.OnFold })
		p.Section, p.Layers = 0, 2
		for i := range t.cuts {
			if t.cuts[i].ID == p.Cut.ID {
				open, _ := whole(t.cuts[i])
				p.Cut.Outline = open
			}
		}
		return true
	}},
	{"half a piece where no fold is, as a half", "referee.altered", []lay.Plan{lay.Crosswise, lay.Turned}, func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Cut.OnFold })
		p.Section, p.Layers = 0, 2
		for _, k := range t.cuts {
			if k.ID == p.Cut.ID {
				p.Cut = k
			}
		}
		return true
	}},
	{"past a crosswise fold by 0.1 mm", "referee.beyond", []lay.Plan{lay.Crosswise, lay.Turned}, func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Section == 0 })
		p.AtX += micron(t.l.Sections[0].To) + tenth - boxOf(lies(*p)...).hi.X
		return true
	}},
	{"the next section begins 0.1 mm before a folded one ends", "referee.section", []lay.Plan{lay.Crosswise, lay.Turned, lay.TwoFolds, lay.PartFold}, func(t *table) bool {
		k := 1 + t.rng.IntN(len(t.l.Sections)-1)
		t.l.Sections[k].From -= 0.1
		return true
	}},
	{"the next section begins where the layer below ends", "referee.section", []lay.Plan{lay.Crosswise, lay.Turned}, func(t *table) bool {
		t.l.Sections[1].From = t.l.Sections[0].To
		return true
	}},
	{"folded otherwise than planned", "referee.section", []lay.Plan{lay.PartFold, lay.Lengthwise, lay.Crosswise, lay.Turned}, func(t *table) bool {
		other := []lay.Plan{lay.Open, lay.Lengthwise, lay.Crosswise, lay.Turned}
		p := other[t.rng.IntN(len(other))]
		was := t.l.Plan
		t.l.Plan = p
		return p != was
	}},
	{"a fold that is none", "referee.section", lay.Plans, func(t *table) bool {
		t.l.Sections[t.rng.IntN(len(t.l.Sections))].Fold = "rolled"
		return true
	}},
	{"two layers past a part fold's depth by 0.1 mm", "referee.beyond", []lay.Plan{lay.PartFold}, func(t *table) bool {
		p := t.pick(asPair)
		p.AtY += micron(t.l.Sections[0].Depth) + tenth - boxOf(lies(*p)...).hi.Y
		return true
	}},
	{"single cloth's piece 0.1 mm on the layer folded over", "referee.beyond", []lay.Plan{lay.PartFold}, func(t *table) bool {
		p := t.pick(t.within(lay.Along, 1))
		if p == nil {
			return false
		}
		p.AtY += micron(t.l.Sections[0].Depth) + 10_000 - tenth - boxOf(lies(*p)...).lo.Y
		return true
	}},
	{"a part fold deeper than it is", "referee.section", []lay.Plan{lay.PartFold}, func(t *table) bool {
		t.l.Sections[0].Depth += 0.1
		return true
	}},
	{"a part fold past the middle", "referee.section", []lay.Plan{lay.PartFold}, func(t *table) bool {
		s := &t.l.Sections[0]
		s.Depth = 730.1
		s.Width = 1460 - s.Depth
		return true
	}},
	{"a half off a part fold by 0.1 mm", "referee.fold", []lay.Plan{lay.PartFold, lay.TwoFolds}, func(t *table) bool {
		p := t.pick(onFold)
		if p == nil {
			return false
		}
		p.AtY += tenth
		return true
	}},
	{"through one layer where the cloth lies in two", "referee.layers", []lay.Plan{lay.Crosswise, lay.Turned, lay.TwoFolds}, func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Layers == 2 && t.l.Sections[p.Section].Depth != 600 })
		if p == nil {
			return false
		}
		p.Layers = 1
		return true
	}},
	{"in the section of the other fold", "referee.beyond", []lay.Plan{lay.TwoFolds}, func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Section < 2 && p.Cut.Pair != "" })
		if p == nil {
			return false
		}
		p.Section = 1 - p.Section
		return true
	}},
	{"0.1 mm onto another piece of a folded section", "referee.overlap", []lay.Plan{lay.PartFold, lay.Crosswise, lay.Turned, lay.TwoFolds}, (*table).pushTogether},
	{"on a flaw, in either layer", "referee.flaw", lay.Plans, func(t *table) bool {
		p := t.pick(anyPiece)
		spots := t.spotsOf(*p, t.innerPoint(*p))
		t.flawAt(spots[t.rng.IntN(len(spots))], 0.2)
		return true
	}},
	{"a flaw reaches 0.1 mm under a piece", "referee.flaw", []lay.Plan{lay.Open}, func(t *table) bool {
		p := t.pick(anyPiece)
		r := lies(*p)
		low := slices.MinFunc(r, func(a, b point) int { return int(a.X - b.X) })
		t.flawAt(point{X: low.X - 9_900, Y: low.Y}, 20)
		return true
	}},
	{"0.1 mm past the end of a remnant", "referee.remnant", []lay.Plan{lay.Open}, func(t *table) bool {
		t.remnant(t.l.Length-0.1, 1470)
		return true
	}},
	{"0.1 mm past the slanting side of a remnant", "referee.remnant", []lay.Plan{lay.Open}, func(t *table) bool {
		p := t.pick(anyPiece)
		r := lies(*p)
		high := slices.MaxFunc(r, func(a, b point) int { return int(a.Y - b.Y) })
		t.remnant(t.l.Length+1, mm(high.Y)+10-0.1)
		return true
	}},
	{"a remnant with a bite out of it", "referee.remnant", []lay.Plan{lay.Open}, func(t *table) bool {
		q := t.innerPoint(*t.pick(anyPiece))
		x, y := mm(q.X), mm(q.Y)+10
		t.outlined(0, 0, t.l.Length+1, 0, t.l.Length+1, 1480, x+1, 1480, x, y, x-1, 1480, 0, 1480)
		return true
	}},
}

// remnant is cloth so long and so wide, the far end a little wider.
func (t *table) remnant(long, wide float64) {
	t.outlined(0, 0, long, 0, long, wide, 0, wide)
}

// outlined gives the cloth an outline: from the end, from the edge, and so on.
func (t *table) outlined(v ...float64) {
	for i := 0; i < len(v); i += 2 {
		t.c.Outline = append(t.c.Outline, cloth.Spot{FromEnd: unit.MM(v[i]), FromSelvedge: unit.MM(v[i+1])})
	}
}

// thousand is how many of each kind are spoilt; the quick run, for the race
// detector, spoils fewer.
func thousand() int {
	if os.Getenv("GUSSET_QUICK") != "" {
		return 50
	}
	return 1000
}

// A thousand lays of each kind, by the plans that have it, each told by the
// right finding.
func TestPlanMutants(t *testing.T) {
	for n, m := range planMutants {
		t.Run(m.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(uint64(n), 77))
			for made, tried := 0, 0; made < thousand(); tried++ {
				b := onPlan(rng, m.plans...)
				if tried > 200_000 {
					t.Fatalf("only %d could be made", made)
				}
				if !m.spoil(b) {
					continue
				}
				made++
				if found := Check(b.cuts, b.c, b.l); !found.Has(m.want) {
					t.Fatalf("%s on %s cloth passed: %v", b.l.Plan, b.c.Direction, found.Codes())
				}
			}
		})
	}
}

// Flaws beside every piece, and a remnant that all pieces lie within, are no
// fault.
func TestFlawsAndRemnantsPass(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	for n := range 300 {
		b := onPlan(rng, lay.Plans[n%len(lay.Plans)])
		b.flawAt(point{X: micron(b.l.Length) + 10_100, Y: rng.Int64N(1_400_000)}, 20)
		if b.l.Plan == lay.Open {
			b.remnant(b.l.Length, 1470)
		}
		if found := Check(b.cuts, b.c, b.l); len(found) > 0 {
			t.Fatalf("%s: %s: %s", b.l.Plan, found[0].Code(), found[0].Text())
		}
	}
}

// tilted lays the pockets, which are hidden, off the grain by permission, each
// by itself behind the rest.
func (t *table) tilted() {
	t.l.OffGrain = lay.OffGrain{UpTo: 2.5}
	for i := range t.cuts {
		t.cuts[i].Hidden = t.cuts[i].Piece == "pocket"
	}
	last := len(t.l.Sections) - 1
	for i := range t.l.Placed {
		p := &t.l.Placed[i]
		if p.Cut.Piece != "pocket" {
			continue
		}
		p.Cut.Hidden = true
		p.Degrees += 5*t.rng.Float64() - 2.5
		b := boxOf(ring(p.Cut.Outline)...)
		room := 2 * (b.hi.X - b.lo.X + b.hi.Y - b.lo.Y)
		p.AtX, p.AtY = micron(t.l.Length)+room, 700_000
		t.l.Sections[last].To = mm(p.AtX + room)
		t.l.Length = t.l.Sections[last].To
	}
}

// A thousand lays of each kind with a hidden piece off its grain, spoilt.
func TestTiltMutants(t *testing.T) {
	off := func(p lay.Placed) bool { return p.Cut.Hidden }
	for n, m := range []struct {
		name  string
		wants []string // any of them
		spoil func(*table) bool
	}{
		{"sound", nil, func(*table) bool { return true }},
		{"a little more than is permitted", []string{"referee.tilt"}, func(t *table) bool {
			p := t.pick(off)
			p.Degrees = -90 + (2.51+t.rng.Float64())*float64(1-2*t.rng.IntN(2))
			return true
		}},
		{"without permission", []string{"referee.grain"}, func(t *table) bool {
			t.l.OffGrain = lay.OffGrain{}
			return true
		}},
		{"a piece that is seen", []string{"referee.grain"}, func(t *table) bool {
			t.pick(func(p lay.Placed) bool { return !p.Cut.Hidden }).Degrees += 1
			return true
		}},
		{"a piece hidden in the lay only", []string{"referee.grain"}, func(t *table) bool {
			p := t.pick(func(p lay.Placed) bool { return p.Cut.Piece == "yoke" })
			p.Cut.Hidden = true
			p.Degrees += 1
			return true
		}},
		{"stretched by a hundredth", []string{"referee.altered"}, func(t *table) bool {
			p := t.pick(off)
			r := slices.Clone(p.Cut.Outline)
			for i := range r {
				r[i].Y += r[i].Y / 100
			}
			p.Cut.Outline = r
			return true
		}},
		{"the top the other way on one-way cloth", []string{"referee.nap"}, func(t *table) bool {
			if t.c.Direction != cloth.OneWay {
				return false
			}
			t.pick(off).Degrees += 180
			return true
		}},
		{"face down", []string{"referee.mirror", "referee.altered"}, func(t *table) bool {
			t.pick(off).Flip = true
			return true
		}},
	} {
		t.Run(m.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(uint64(n), 78))
			for made := 0; made < thousand(); {
				b := onPlan(rng, lay.Open)
				b.tilted()
				if !m.spoil(b) {
					continue
				}
				made++
				found := Check(b.cuts, b.c, b.l)
				if len(m.wants) == 0 && len(found) > 0 {
					t.Fatalf("%s: %s", found[0].Code(), found[0].Text())
				}
				if len(m.wants) > 0 && !slices.ContainsFunc(m.wants, found.Has) {
					t.Fatalf("passed: %v", found.Codes())
				}
			}
		})
	}
}

// writtenOut is the file of a lay with some pieces pinned, and one of those.
func (t *table) writtenOut() (lay.File, *lay.Placed) {
	f := t.l.ToFile("d", unit.Millimetre)
	for i := range f.Pieces {
		f.Pieces[i].Pinned = t.rng.IntN(2) == 0
	}
	k := t.rng.IntN(len(t.l.Placed))
	for i := range f.Pieces {
		if f.Pieces[i].ID == t.l.Placed[k].Cut.ID {
			f.Pieces[i].Pinned = true
		}
	}
	return f, &t.l.Placed[k]
}

// A pinned piece that lies elsewhere than written, be it by a micrometre: a
// thousand of each kind, all told.
func TestPinMutants(t *testing.T) {
	for n, m := range []struct {
		name  string
		spoil func(t *table, f *lay.File, p *lay.Placed) bool
	}{
		{"along by a micrometre", func(_ *table, _ *lay.File, p *lay.Placed) bool { p.AtX++; return true }},
		{"across by a micrometre", func(_ *table, _ *lay.File, p *lay.Placed) bool { p.AtY--; return true }},
		{"anywhere", func(t *table, _ *lay.File, p *lay.Placed) bool {
			p.AtX += 1 + t.rng.Int64N(500_000)
			return true
		}},
		{"turned end for end in its place", func(_ *table, _ *lay.File, p *lay.Placed) bool {
			box := boxOf(lies(*p)...)
			p.Degrees = -p.Degrees
			now := boxOf(lies(*p)...)
			p.AtX += box.lo.X - now.lo.X
			p.AtY += box.lo.Y - now.lo.Y
			return p.Degrees == 90 || p.Degrees == -90
		}},
		{"turned over in its place", func(_ *table, _ *lay.File, p *lay.Placed) bool {
			p.Flip = !p.Flip
			return true
		}},
		{"through the other number of layers", func(_ *table, _ *lay.File, p *lay.Placed) bool {
			p.Layers = 3 - p.Layers
			return true
		}},
		{"its other hand in its place", func(t *table, _ *lay.File, p *lay.Placed) bool {
			for _, k := range t.cuts {
				if k.ID == p.Cut.Pair {
					p.Cut = k
					return true
				}
			}
			return false
		}},
		{"on a section folded otherwise", func(t *table, f *lay.File, p *lay.Placed) bool {
			if f.Sections[p.Section].Fold == lay.Flat {
				return false
			}
			p.Section = len(t.l.Sections) - 1
			return true
		}},
		{"taken off the cloth", func(t *table, _ *lay.File, p *lay.Placed) bool {
			id := p.Cut.ID
			t.l.Placed = slices.DeleteFunc(t.l.Placed, func(q lay.Placed) bool { return q.Cut.ID == id })
			return true
		}},
	} {
		t.Run(m.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(uint64(n), 79))
			for made := 0; made < thousand(); {
				b := onPlan(rng, lay.Plans...)
				for i := range b.l.Placed {
					if b.l.Placed[i].Degrees == 270 { // another way to write -90
						b.l.Placed[i].Degrees = -90
					}
				}
				f, p := b.writtenOut()
				if found := CheckWritten(b.cuts, b.c, b.l, f); len(found) > 0 {
					t.Fatalf("%s before anything moved: %s: %s", b.l.Plan, found[0].Code(), found[0].Text())
				}
				if !m.spoil(b, &f, p) {
					continue
				}
				made++
				if found := CheckWritten(b.cuts, b.c, b.l, f); !found.Has("referee.pin-moved") {
					t.Fatalf("%s passed: %v", b.l.Plan, found.Codes())
				}
			}
		})
	}
}
