package referee

import (
	"math/rand/v2"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// table is one sound lay about to be spoilt.
type table struct {
	rng  *rand.Rand
	cuts []finish.Cut
	c    cloth.Cloth
	l    lay.Lay
}

func newTable(rng *rand.Rand) *table {
	g := newGarment(rng)
	t := &table{rng: rng, cuts: g.cuts, c: drill(cloth.Directions[rng.IntN(3)])}
	if rng.IntN(2) == 0 {
		t.l = g.open(rng, t.c)
	} else {
		t.l = g.folded(rng, t.c)
	}
	return t
}

// pick is a random placement that fits, nil when there is none.
func (t *table) pick(fits func(lay.Placed) bool) *lay.Placed {
	for _, k := range t.rng.Perm(len(t.l.Placed)) {
		if fits(t.l.Placed[k]) {
			return &t.l.Placed[k]
		}
	}
	return nil
}

func anyPiece(lay.Placed) bool     { return true }
func onOneLayer(p lay.Placed) bool { return p.Layers == 1 }
func onFold(p lay.Placed) bool     { return p.Layers == 2 && p.Cut.OnFold }
func asPair(p lay.Placed) bool     { return p.Layers == 2 && !p.Cut.OnFold }

func lies(p lay.Placed) ring {
	q, _ := quarterTurns(p.Degrees)
	return ring(p.Cut.Outline).put(p.Flip, q, point{X: p.AtX, Y: p.AtY})
}

// tenth is 0.1 mm, the least fault of place tried.
const tenth = 100

// mutants are the ways to spoil a lay; each names the finding that must come,
// and tells whether this lay can be spoilt so.
var mutants = []struct {
	name, want string
	spoil      func(*table) bool
}{
	{"0.1 mm onto another piece", "referee.overlap", (*table).pushTogether},
	{"face down on a single layer", "referee.mirror", func(t *table) bool {
		p := t.pick(onOneLayer)
		if p != nil {
			p.Flip = true
		}
		return p != nil
	}},
	{"across the grain", "referee.grain", func(t *table) bool {
		t.pick(anyPiece).Degrees += 90
		return true
	}},
	{"a hair off the grain", "referee.grain", func(t *table) bool {
		t.pick(anyPiece).Degrees += 1e-9 + t.rng.Float64()
		return true
	}},
	{"end for end on one-way cloth", "referee.nap", func(t *table) bool {
		t.pick(anyPiece).Degrees = 90
		return t.c.Direction == cloth.OneWay
	}},
	{"the other hand under the right name", "referee.altered", func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Cut.Pair != "" })
		p.Cut.Outline = ring(p.Cut.Outline).mirrored(0)
		return true
	}},
	{"left twice instead of left and right", "referee.twice", (*table).wrongCopy},
	{"right missing since left lies twice", "referee.missing", (*table).wrongCopy},
	{"past the far selvedge by 0.1 mm", "referee.beyond", func(t *table) bool {
		p := t.pick(anyPiece)
		p.AtY += micron(t.l.Sections[p.Section].Width) + tenth - boxOf(lies(*p)...).hi.Y
		return true
	}},
	{"past the near selvedge or fold by 0.1 mm", "referee.beyond", func(t *table) bool {
		p := t.pick(anyPiece)
		p.AtY -= tenth + boxOf(lies(*p)...).lo.Y
		return true
	}},
	{"past the end of its section by 0.1 mm", "referee.beyond", func(t *table) bool {
		p := t.pick(anyPiece)
		p.AtX += micron(t.l.Sections[p.Section].To) + tenth - boxOf(lies(*p)...).hi.X
		return true
	}},
	{"before its section by 0.1 mm", "referee.beyond", func(t *table) bool {
		p := t.pick(anyPiece)
		p.AtX += micron(t.l.Sections[p.Section].From) - tenth - boxOf(lies(*p)...).lo.X
		return true
	}},
	{"left out", "referee.missing", func(t *table) bool {
		k := t.rng.IntN(len(t.l.Placed))
		t.l.Placed = slices.Delete(t.l.Placed, k, k+1)
		return true
	}},
	{"cut again on free cloth", "referee.twice", func(t *table) bool {
		p := *t.pick(func(p lay.Placed) bool { return p.Section == len(t.l.Sections)-1 })
		s := &t.l.Sections[p.Section]
		p.AtX += micron(s.To) - boxOf(lies(p)...).lo.X
		s.To = mm(boxOf(lies(p)...).hi.X)
		t.l.Length = s.To
		t.l.Placed = append(t.l.Placed, p)
		return true
	}},
	{"said to have found no place", "referee.both", func(t *table) bool {
		t.l.Unplaced = append(t.l.Unplaced, t.pick(anyPiece).Cut.ID)
		return true
	}},
	{"of another garment", "referee.unknown", func(t *table) bool {
		t.pick(anyPiece).Cut.ID = "sleeve@left"
		return true
	}},
	{"for another cloth", "referee.unknown", func(t *table) bool {
		k := t.rng.IntN(len(t.l.Placed))
		for i := range t.cuts {
			if t.cuts[i].ID == t.l.Placed[k].Cut.ID {
				t.cuts[i].Cloth = cloth.Lining
			}
		}
		return true
	}},
	{"off the fold by 0.1 mm", "referee.fold", func(t *table) bool {
		p := t.pick(onFold)
		if p != nil {
			p.AtY += tenth
		}
		return p != nil
	}},
	{"off the fold by a micrometre", "referee.fold", func(t *table) bool {
		p := t.pick(onFold)
		if p != nil {
			p.AtY++
		}
		return p != nil
	}},
	{"a pair whose other half differs by a micrometre", "referee.unequal", func(t *table) bool {
		p := t.pick(asPair)
		if p == nil {
			return false
		}
		k := slices.IndexFunc(t.cuts, func(c finish.Cut) bool { return c.ID == p.Cut.Pair })
		r := slices.Clone(t.cuts[k].Outline)
		r[t.rng.IntN(len(r))].Y++
		t.cuts[k].Outline = r
		return !same(r, ring(p.Cut.Outline).mirrored(0), true)
	}},
	{"a single piece on folded cloth", "referee.single", func(t *table) bool {
		p := t.pick(func(p lay.Placed) bool { return p.Cut.Pair == "" && !p.Cut.OnFold })
		p.Section, p.Layers = 0, 2
		return t.l.Sections[0].Fold != lay.Flat
	}},
	{"through the wrong number of layers", "referee.layers", func(t *table) bool {
		p := t.pick(anyPiece)
		p.Layers = 3 - p.Layers
		return true
	}},
	{"in no section", "referee.astray", func(t *table) bool {
		t.pick(anyPiece).Section = []int{-1, len(t.l.Sections)}[t.rng.IntN(2)]
		return true
	}},
	{"a section 0.1 mm too wide", "referee.section", func(t *table) bool {
		t.l.Sections[t.rng.IntN(len(t.l.Sections))].Width += 0.1
		return true
	}},
	{"cloth 0.1 mm too short", "referee.section", func(t *table) bool {
		t.c = drill(t.c.Direction)
		t.c.Length = unit.MM(t.l.Length - 0.1)
		return true
	}},
	{"length understated by 0.1 mm", "referee.length", func(t *table) bool {
		t.l.Length -= 0.1
		return true
	}},
}

func (t *table) wrongCopy() bool {
	p := t.pick(func(p lay.Placed) bool { return p.Cut.Pair != "" && p.Layers == 1 })
	if p == nil {
		return false
	}
	k := slices.IndexFunc(t.cuts, func(c finish.Cut) bool { return c.ID == p.Cut.Pair })
	p.Cut = t.cuts[k]
	return true
}

// pushTogether slides a piece along or across until it meets another, and
// 0.1 mm on; false when that only grazes a corner, as simplefeatures measures
// it.
func (t *table) pushTogether() bool {
	p := t.pick(anyPiece)
	other := t.pick(func(q lay.Placed) bool { return q.Section == p.Section && q.Cut.ID != p.Cut.ID })
	if other == nil {
		return false
	}
	across := t.rng.IntN(2) == 0
	gap, ok := slide(lies(*p), lies(*other), across)
	if !ok {
		return false
	}
	if gap += tenth; across {
		p.AtY += gap
	} else {
		p.AtX += gap
	}
	x, err := sf.Intersection(polygon(lies(*p)), polygon(lies(*other)))
	return err == nil && x.Area() > 1
}

// slide is how far a may go in +x (+y when across) until it touches b: the
// least distance from a corner of one to an edge of the other, rounded down.
func slide(a, b ring, across bool) (int64, bool) {
	if across {
		a, b = a.put(true, 1, point{}), b.put(true, 1, point{}) // exchanges x and y
	}
	least, ok := int64(1)<<40, false
	try := func(p, r, s point, sign int64) {
		if r.Y == s.Y || p.Y < min(r.Y, s.Y) || p.Y > max(r.Y, s.Y) {
			return
		}
		x := float64(r.X) + float64(s.X-r.X)*(float64(p.Y-r.Y)/float64(s.Y-r.Y))
		if d := sign * (int64(x) - p.X); d >= 0 && d < least {
			least, ok = d, true
		}
	}
	for i := range a {
		for j := range b {
			r, s := b.edge(j)
			try(a[i], r, s, 1)
			r, s = a.edge(i)
			try(b[j], r, s, -1)
		}
	}
	return least, ok
}

func TestSoundLaysPass(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		b := newTable(rng)
		if found := Check(b.cuts, b.c, b.l); len(found) > 0 {
			t.Fatalf("%s on %s cloth: %s: %s", b.l.Plan, b.c.Direction, found[0].Code(), found[0].Text())
		}
	}
}

// A thousand spoilt lays of each kind, all told, each by the right finding.
func TestMutants(t *testing.T) {
	for n, m := range mutants {
		t.Run(m.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(uint64(n), 2))
			for made := 0; made < 1000; {
				b := newTable(rng)
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

// Where the referee sees pieces share cloth in whole lays, a general-purpose
// geometry library (simplefeatures) measures area in common, and the other way
// round.
func TestLaysAgainstArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	told := 0
	for range 200 {
		b := newTable(rng)
		for range 3 {
			b.pushTogether()
		}
		for i, p := range b.l.Placed {
			for _, q := range b.l.Placed[:i] {
				x, err := sf.Intersection(polygon(lies(p)), polygon(lies(q)))
				if err != nil {
					t.Fatal(err)
				}
				if got := share(lies(p), lies(q)); got != (x.Area() > 1) {
					t.Fatalf("%s and %s: share says %v, the library measures %g µm²", p.Cut.ID, q.Cut.ID, got, x.Area())
				} else if got {
					told++
				}
			}
		}
	}
	if told < 100 {
		t.Errorf("only %d overlaps seen", told)
	}
}

func BenchmarkCheck(b *testing.B) {
	t := newTable(rand.New(rand.NewPCG(1, 1)))
	for b.Loop() {
		Check(t.cuts, t.c, t.l)
	}
}
