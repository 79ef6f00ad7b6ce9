package lay_test

import (
	"bytes"
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/referee"
	"gusset/internal/source"
	"gusset/internal/unit"
)

const soundLay = `gusset: lay/1
title: the drill as I would lay it
docket: quay-long
cloth: rust-drill
for: main
sections:
  - {fold: lengthwise, to: 12 1/2 in}
  - {fold: open, from: 40 cm, to: 2 m}
pieces:
  - {piece: front@left, along: 30 cm, across: 12.5 cm, face-down: yes, pinned: yes}
  - {piece: band, section: 2, along: 1.2 m, across: 20 cm, turned: yes, plies: 1}
  - {piece: pocket#2, section: 2, along: 60 cm, across: 30 cm, tilt: -2.5}
  - {piece: yoke@right}
`

func loaded(text string) (lay.File, finding.List) {
	return lay.Load(source.File{Path: "mine.yaml", Data: []byte(text)})
}

func TestLoadFile(t *testing.T) {
	f, found := loaded(soundLay)
	for _, x := range found {
		t.Errorf("%s: %s", x.Place, x.Text())
	}
	if f.Name != "mine" || f.Docket != "quay-long" || f.Cloth != "rust-drill" || f.Role != cloth.Main || len(f.Sections) != 2 || len(f.Pieces) != 4 {
		t.Fatalf("read as %+v", f)
	}
	s := f.Sections
	if s[0].Fold != lay.Along || s[0].HasFrom || math.Abs(s[0].To.MM()-317.5) > 1e-9 || s[0].HasDepth || s[1].From.MM() != 400 {
		t.Errorf("sections %+v", s)
	}
	front, band, pocket, yoke := f.Pieces[0], f.Pieces[1], f.Pieces[2], f.Pieces[3]
	if !front.Pinned || !front.FaceDown || front.Turned || front.Along.MM() != 300 || front.Across.MM() != 125 || front.Place.Line != 10 {
		t.Errorf("front %+v", front)
	}
	if !band.Turned || band.Section != 1 || band.Plies != 1 || pocket.Tilt != -2.5 || yoke.Placed || !pocket.Placed {
		t.Errorf("%+v %+v %+v", band, pocket, yoke)
	}
}

// Each slip is told by its own finding, on its line.
func TestBrokenFiles(t *testing.T) {
	for _, c := range []struct {
		old, new, code string
		line           int
	}{
		{"gusset: lay/1", "gusset: lay/2", "source.newer", 1},
		{"gusset: lay/1", "gusset: order/1", "source.other-kind", 1},
		{"docket: quay-long\n", "", "source.missing-key", 1},
		{"docket: quay-long", "docket: ../quay", "lay.bad-name", 3},
		{"cloth: rust-drill", "cloth: Rust Drill", "lay.bad-name", 4},
		{"for: main", "for: mane", "source.unknown-word", 5},
		{"fold: open", "fold: flat", "source.unknown-word", 8},
		{"from: 40 cm", "from: 40", "source.bad-length", 8},
		{"from: 40 cm", "from: -4 cm", "source.out-of-range", 8},
		{"from: 40 cm", "depth: 40 cm", "lay.no-depth", 8},
		{"section: 2, along: 1.2 m", "section: 3, along: 1.2 m", "lay.no-section", 11},
		{"section: 2, along: 1.2 m", "section: 0, along: 1.2 m", "source.out-of-range", 11},
		{"along: 30 cm, ", "", "lay.half-place", 10},
		{"along: 30 cm, across: 12.5 cm, ", "", "lay.pinned-nowhere", 10},
		{"pinned: yes", "pined: yes", "source.unknown-key", 10},
		{"pinned: yes", "pinned: perhaps", "source.unknown-word", 10},
		{"tilt: -2.5", "tilt: -50", "source.out-of-range", 12},
		{"plies: 1", "plies: 3", "source.out-of-range", 11},
		{"piece: yoke@right", "piece: front@left", "lay.written-twice", 13},
		{"piece: yoke@right", "piece: the yoke", "lay.bad-name", 13},
		{"{piece: yoke@right}", "yoke", "source.wrong-type", 13},
		{"  - {fold: lengthwise, to: 12 1/2 in}\n  - {fold: open, from: 40 cm, to: 2 m}\n", "  []\n", "lay.bad-sections", 7},
	} {
		text := strings.Replace(soundLay, c.old, c.new, 1)
		_, found := loaded(text)
		if text == soundLay || !found.Has(c.code) {
			t.Errorf("%q: want %s, found %v", c.new, c.code, found.Codes())
			continue
		}
		for _, x := range found {
			if x.Code() == c.code && x.Place.Line != c.line {
				t.Errorf("%q: told on line %d, want %d", c.new, x.Place.Line, c.line)
			}
		}
	}
}

// What Load reads, YAML writes back the same, whatever the unit.
func TestFileWrittenBack(t *testing.T) {
	f, _ := loaded(soundLay)
	again, found := loaded(string(f.YAML()))
	if len(found) > 0 || !bytes.Equal(f.YAML(), again.YAML()) || again.Title != f.Title {
		t.Errorf("%v\n%s\n%s", found.Codes(), f.YAML(), again.YAML())
	}
}

// written is a lay as a file of it comes back, with every piece pinned or none.
func written(t *testing.T, l lay.Lay, u unit.Unit, pinned bool) lay.File {
	t.Helper()
	f, found := loaded(string(l.ToFile("a-docket", u).YAML()))
	if len(found) > 0 {
		t.Fatalf("%s: %s\n%s", found[0].Place, found[0].Text(), l.ToFile("a-docket", u).YAML())
	}
	if pinned {
		f = f.AllPinned()
	}
	return f
}

// around lays by a file and has the referee judge both lays.
func around(t *testing.T, c cloth.Cloth, cuts []finish.Cut, f lay.File, o lay.Options) (asIs, best lay.Lay, found finding.List) {
	t.Helper()
	asIs, best, found = lay.Around(context.Background(), c, cloth.Main, cuts, f, o, func(l lay.Lay) bool {
		return referee.CheckWritten(cuts, c, l, f).Stops() == 0
	})
	for _, x := range referee.CheckWritten(cuts, c, best, f) {
		t.Errorf("%s: %s", x.Code(), x.Text())
	}
	return asIs, best, found
}

// Every plan's lay, written down in every unit and read again, is the same to
// the micrometre.
func TestRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 4))
	units := []unit.Unit{unit.Centimetre, unit.Inch, unit.Millimetre}
	for n := range 3 {
		cuts := trousers(rng)
		for i := range cuts {
			cuts[i].Hidden = strings.HasPrefix(cuts[i].ID, "pocket")
		}
		c := drill(cloth.Directions[n%2])
		c.Name = "drill"
		for _, plan := range lay.Plans {
			o := lay.Options{Fold: string(plan), OffGrain: lay.OffGrain{UpTo: 2.5}, Table: []float64{0, 1500}[n%2]}
			l, _ := lay.Make(context.Background(), c, cloth.Main, cuts, o)
			f := written(t, l, units[n], true)
			asIs, best, found := around(t, c, cuts, f, o)
			if found.Stops() > 0 || !slices.Equal(best.Sections, l.Sections) || len(asIs.Placed) != len(l.Placed) || best.Length != l.Length {
				t.Fatalf("%s: %v, %v instead of %v", plan, found.Codes(), best.Sections, l.Sections)
			}
			for i, p := range l.Placed {
				q := best.Placed[i]
				if p.Cut.ID != q.Cut.ID || p.AtX != q.AtX || p.AtY != q.AtY || p.Flip != q.Flip || math.Abs(p.Degrees-q.Degrees) > 1e-9 || p.Layers != q.Layers {
					t.Errorf("%s: %s came back as %v %v %v", plan, p.Cut.ID, q.AtX-p.AtX, q.AtY-p.AtY, q.Degrees-p.Degrees)
				}
			}
		}
	}
}

// Pinned pieces stay where they are while the rest is searched: some pieces of a
// lay are pinned, some written, some left without a place, on every plan, and
// the referee agrees with what comes of it.
func TestAroundPins(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for n := range 12 {
		cuts, c := trousers(rng), drill(cloth.Directions[n%2])
		o := lay.Options{Fold: string(lay.Plans[n%len(lay.Plans)]), Rounds: 10 * (n % 2)}
		l, _ := lay.Make(context.Background(), c, cloth.Main, cuts, o)
		f := written(t, l, unit.Centimetre, false)
		for i := range f.Pieces {
			switch rng.IntN(3) {
			case 0:
				f.Pieces[i].Pinned = true
			case 1:
				f.Pieces[i].Placed = false
			}
		}
		asIs, best, found := around(t, c, cuts, f, o)
		if found.Stops() > 0 && !found.Has("lay.crowded") {
			t.Errorf("%s: %v", l.Plan, found.Codes())
		}
		if len(best.Unplaced) > 0 != found.Has("lay.crowded") {
			t.Errorf("%s: left out %v, found %v", l.Plan, best.Unplaced, found.Codes())
		}
		if asIs.Length > l.Length {
			t.Errorf("%s: as written %v, was %v", l.Plan, asIs.Length, l.Length)
		}
	}
}

// By hand: on 1460 mm, a band 1400 by 100 is pinned 300 mm from the squared
// line, across; a rectangle 600 by 300 without a place fits before it.
func TestSearchedBeforeAPin(t *testing.T) {
	cuts := []finish.Cut{single("band", rect(1400, 100)), single("front", rect(600, 299))}
	c := drill(cloth.OneWay)
	text := "gusset: lay/1\ndocket: d\ncloth: c\nfor: main\nsections: [{fold: open}]\npieces:\n" +
		"  - {piece: band, along: 40 cm, across: 71 cm, pinned: yes}\n"
	f, found := loaded(text)
	if len(found) > 0 {
		t.Fatal(found[0].Text())
	}
	asIs, best, found := around(t, c, cuts, f, lay.Options{})
	if len(found) > 0 || !slices.Equal(asIs.Unplaced, []string{"front"}) || len(best.Unplaced) > 0 || best.Length != 410 {
		t.Errorf("%v: %v left, %v mm", found.Codes(), best.Unplaced, best.Length)
	}
	for _, p := range best.Placed {
		if p.Cut.ID == "band" && (!p.Pinned || p.Outline()[0].X != 310) {
			t.Errorf("the band lies at %v", p.Outline())
		}
	}
}

// A written lay that is sound is never given up for a longer one, and pieces
// that may touch by the rules may touch in a file.
func TestWrittenLayIsKept(t *testing.T) {
	cuts := []finish.Cut{single("a", rect(730, 500)), single("b", rect(730, 500))}
	text := "gusset: lay/1\ndocket: d\ncloth: c\nfor: main\nsections: [{fold: open}]\npieces:\n" +
		"  - {piece: a, along: 50 cm, across: 37.5 cm}\n  - {piece: b, along: 50 cm, across: 110.5 cm}\n"
	f, _ := loaded(text)
	_, best, found := around(t, drill(cloth.OneWay), cuts, f, lay.Options{Rounds: 5})
	if len(found) > 0 || best.Length != 510 {
		t.Errorf("%v, %v mm", found.Codes(), best.Length)
	}
}

// What a file says beside the pieces there are.
func TestFileBesideThePieces(t *testing.T) {
	cuts := append(pair("front", rect(300, 400)), single("band", rect(600, 90)))
	head := "gusset: lay/1\ndocket: d\ncloth: c\nfor: main\nsections: [{fold: lengthwise}, {fold: open}]\npieces:\n"
	for _, c := range []struct{ pieces, code string }{
		{"  - {piece: frnot@left, along: 45 cm, across: 20 cm}\n", "lay.unknown-piece"},
		{"  - {piece: front@left, along: 45 cm, across: 20 cm}\n  - {piece: front@right, section: 2, along: 1 m, across: 20 cm}\n", "lay.with-twin"},
		{"  - {piece: front@right, section: 2, along: 1 m, across: 20 cm}\n  - {piece: front@left, along: 45 cm, across: 20 cm}\n", "lay.with-twin"},
	} {
		f, found := loaded(head + c.pieces)
		if len(found) > 0 {
			t.Fatal(found[0].Text())
		}
		_, _, found = lay.Around(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, f, lay.Options{}, func(lay.Lay) bool { return true })
		if !found.Has(c.code) {
			t.Errorf("want %s, found %v", c.code, found.Codes())
		}
	}
}

// Two pinned bands leave no room for a third between them, in sections bounded
// by the pins.
func TestCrowded(t *testing.T) {
	cuts := append(pair("front", rect(700, 300)), single("band", rect(1400, 90)), single("long", rect(100, 500)))
	text := "gusset: lay/1\ndocket: d\ncloth: c\nfor: main\nsections: [{fold: lengthwise}, {fold: open, from: 40 cm, to: 49 cm}, {fold: lengthwise, from: 49 cm, to: 79 cm}]\npieces:\n" +
		"  - {piece: band, section: 2, along: 49 cm, across: 71 cm, pinned: yes}\n" +
		"  - {piece: front@left, section: 3, along: 79 cm, across: 36 cm, pinned: yes}\n" +
		"  - {piece: long, section: 2, along: 52 cm, across: 36 cm}\n"
	f, found := loaded(text)
	if len(found) > 0 {
		t.Fatal(found[0].Text())
	}
	_, best, found := around(t, drill(cloth.OneWay), cuts, f, lay.Options{})
	if !found.Has("lay.crowded") || !slices.Equal(best.Unplaced, []string{"long"}) {
		t.Errorf("%v, left %v", found.Codes(), best.Unplaced)
	}
}

// The same pieces and cloth have one digest; what a lay depends on changes it,
// and names do not.
func TestDigest(t *testing.T) {
	cuts := trousers(rand.New(rand.NewPCG(2, 2)))
	c := drill(cloth.OneWay)
	base := lay.Digest(c, cloth.Main, cuts, lay.Options{Rounds: 5})
	named := c
	named.Title, named.Place = "another", finding.Place{Line: 7}
	if lay.Digest(named, cloth.Main, cuts, lay.Options{Rounds: 9, Seed: 3}) != base {
		t.Error("a name or the effort changes the digest")
	}
	other := slices.Clone(cuts)
	other[0].Outline = slices.Clone(other[0].Outline)
	other[0].Outline[0].X++
	shorter, flawed := c, c
	shorter.Length = unit.MM(500)
	flawed.Flaws = []cloth.Flaw{{At: cloth.Spot{FromEnd: unit.MM(100), FromSelvedge: unit.MM(100)}, Size: unit.MM(20)}}
	for name, got := range map[string]string{
		"a corner moved by a micrometre": lay.Digest(c, cloth.Main, other, lay.Options{}),
		"shorter cloth":                  lay.Digest(shorter, cloth.Main, cuts, lay.Options{}),
		"a flaw":                         lay.Digest(flawed, cloth.Main, cuts, lay.Options{}),
		"a table":                        lay.Digest(c, cloth.Main, cuts, lay.Options{Table: 900}),
		"a fold":                         lay.Digest(c, cloth.Main, cuts, lay.Options{Fold: "open"}),
	} {
		if got == base {
			t.Errorf("%s leaves the digest", name)
		}
	}
}

func TestHandKinds(t *testing.T) {
	for _, k := range lay.HandKinds {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// FuzzLoad: no input makes the loader panic; what loads without a fault is
// written back and read as the same, and can be laid by without a panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(soundLay))
	f.Add([]byte("gusset: lay/1\ndocket: d\ncloth: c\nfor: main\nsections: [{fold: crosswise, to: 1 m}, {fold: turned}]\npieces: [{piece: front@left, along: 1 m, across: 0 cm, pinned: yes}]\n"))
	f.Add([]byte("gusset: lay/1\ndocket: d\ncloth: c\nfor: lining\nsections: [{fold: lengthwise, depth: 9 m}]\npieces: [{piece: band, along: 99 m, across: 9 m, tilt: 45, plies: 2}]\n"))
	f.Add([]byte("gusset: lay/1\nsections: [{}]\npieces: [{section: 2}]\n"))
	cuts := append(pair("front", rect(300, 400)), single("band", rect(600, 90)), half("shield", 5, 80, 200))
	f.Fuzz(func(t *testing.T, data []byte) {
		v, found := lay.Load(source.File{Path: "x.yaml", Data: data})
		if len(found) > 0 {
			return
		}
		again, found := lay.Load(source.File{Path: "x.yaml", Data: v.YAML()})
		if len(found) > 0 || !bytes.Equal(again.YAML(), v.YAML()) {
			t.Fatalf("written back as\n%s\n%v", v.YAML(), found.Codes())
		}
		c := drill(cloth.OneWay)
		l, _, _ := lay.Around(context.Background(), c, cloth.Main, cuts, v.AllPinned(), lay.Options{}, func(lay.Lay) bool { return true })
		referee.CheckWritten(cuts, c, l, v)
	})
}
