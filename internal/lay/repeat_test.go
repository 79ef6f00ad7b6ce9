package lay_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

func striped(d cloth.Direction, along, across float64, even bool, bar float64) cloth.Cloth {
	c := drill(d)
	c.Repeat = cloth.Repeat{Along: unit.MM(along), Across: unit.MM(across), Even: even, Place: finding.Place{File: "cloths/x.yaml", Line: 9}}
	if bar >= 0 {
		c.Repeat.Bar, c.Repeat.Known = unit.MM(bar), true
	}
	return c
}

// meet marks a place of a cut, and its mirror image on the other hand.
func meet(cuts []finish.Cut, id, match string, line int, x, y float64, along, across bool) {
	hand := ""
	if _, h, ok := strings.Cut(id, "@"); ok {
		hand = "@" + h
	}
	for i := range cuts {
		m := finish.Matched{At: finish.Micron{X: int64(math.Round(x * 1000)), Y: int64(math.Round(y * 1000))}, Along: along, Across: across, Place: finding.Place{Line: line}}
		switch cuts[i].ID {
		case id:
			m.Match = strings.Replace(match, "*", hand, 1)
		case strings.Replace(id, "@left", "@right", 1):
			m.Match = strings.Replace(match, "*", "@right", 1)
			m.At.X = -m.At.X
		default:
			continue
		}
		cuts[i].Matched = append(cuts[i].Matched, m)
	}
}

// onStripes are trousers matched at the outseam both ways, at the inseam for
// bars that run across, at the seat seam and with the pocket on the front.
func onStripes(rng *rand.Rand) []finish.Cut {
	cuts := trousers(rng)
	v := func() float64 { return 20 * rng.Float64() }
	meet(cuts, "front@left", "outseam* at knee", 1, -120, 430+v(), true, true)
	meet(cuts, "back@left", "outseam* at knee", 1, 140+v(), 430, true, true)
	meet(cuts, "back@left", "seat at waist", 2, -60+v(), 1000, true, true)
	meet(cuts, "front@left", "pocket* at top", 3, 90, 830+v(), true, true)
	meet(cuts, "pocket@left", "pocket* at top", 3, v(), 180, true, true)
	meet(cuts, "back@left", "yoke* at middle", 4, 30+v(), 1040, true, true)
	meet(cuts, "yoke@left", "yoke* at middle", 4, 100, v()/5, true, true)
	meet(cuts, "apron", "apron at top", 5, -60-v(), 400, true, false)
	meet(cuts, "front@left", "apron at top", 5, 0, 900, true, false)
	return cuts
}

// astray is how far places miss each other up to whole periods.
func astray(a, b, period float64) float64 { return math.Abs(math.Remainder(a-b, period)) }

// On an open lay of one-way cloth no mirror is needed to say where a repeat
// meets: the places of a match lie whole periods apart.
func checkOpen(t *testing.T, l lay.Lay, c cloth.Cloth) (met int) {
	t.Helper()
	along, across := c.Periods()
	type at struct{ x, y float64 }
	seen := map[string]at{}
	for _, p := range l.Placed {
		for _, m := range p.Cut.Matched {
			q := p.Put(pt(m.At))
			o, again := seen[m.Match]
			if !again {
				seen[m.Match] = at{q.X, q.Y}
				continue
			}
			told := func(along bool) bool {
				return slices.ContainsFunc(l.Unmatched, func(u lay.Unmatched) bool { return u.Match == m.Match && (along && u.Along || !along && u.Across) })
			}
			if along > 0 && m.Along && !told(true) {
				met++
				if by := astray(q.X, o.x, along); by > 0.5 {
					t.Errorf("%s misses by %.3f mm along", m.Match, by)
				}
			}
			if across > 0 && m.Across && !told(false) {
				met++
				if by := astray(q.Y, o.y, across); by > 0.5 {
					t.Errorf("%s misses by %.3f mm across", m.Match, by)
				}
			}
		}
	}
	return met
}

// Whatever repeats, and however it is folded, the referee finds nothing wrong,
// and on open one-way cloth the places of each match lie whole periods apart.
func TestStripesMeet(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 9))
	met := 0
	for k := range 30 {
		along, across := 40+80*rng.Float64(), 30+60*rng.Float64()
		switch k % 3 {
		case 0:
			across = 0
		case 1:
			along = 0
		}
		bar := -1.0
		if across > 0 && k%4 > 0 {
			bar = math.Mod(740, across/2) // the middle of the cloth, 74 cm, falls on a line of symmetry
		}
		c := striped(cloth.Directions[k/3%2], along, across, k%5 > 0, bar)
		cuts := onStripes(rng)
		fold := []string{"auto", "open", "lengthwise", "part-fold"}[k/2%4]
		t.Run(fmt.Sprintf("%d %s %.0f by %.0f", k, fold, along, across), func(t *testing.T) {
			l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: fold, Rounds: 15 * (k % 2), Seed: uint64(k)})
			if len(l.Unplaced) > 0 || found.Stops() > 0 {
				t.Errorf("unplaced %v, found %v", l.Unplaced, found.Codes())
			}
			pass(t, cuts, c, l)
			if l.Plan == lay.Open && c.TopsOneWay() {
				met += checkOpen(t, l, c)
			}
		})
	}
	if met < 40 {
		t.Errorf("only %d matches were measured", met)
	}
}

// By hand, bars every 100 mm along the cloth, two pieces 150 long side by side,
// and one matched 30 mm higher than the other: they lie 30 mm out of step, or
// 70 the other way, and the lay is the squaring, 150 and 30 long.
func TestStripedLength(t *testing.T) {
	cuts := []finish.Cut{single("a", rect(600, 150)), single("b", rect(600, 150))}
	meet(cuts, "a", "seam", 1, 600, 40, true, true)
	meet(cuts, "b", "seam", 1, 0, 70, true, true)
	c := striped(cloth.OneWay, 100, 0, true, -1)
	l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Rounds: 20})
	pass(t, cuts, c, l)
	if len(found) > 0 || math.Abs(l.Length-190) > 0.02 {
		t.Errorf("length %v, by hand 190; found %v", l.Length, found.Codes())
	}
	// Without the match they lie level.
	if l, _ := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, lay.Options{}); math.Abs(l.Length-160) > 0.02 {
		t.Errorf("plain cloth: length %v, by hand 160", l.Length)
	}
}

// Bars every 80 mm across, one 30 mm from the edge: the seat seam, matched, lies
// on the middle of a bar or of a space, 20 mm from the selvedge's inner border
// and every 40 mm on, and the hands mirror each other about such a line.
func TestHandsMirror(t *testing.T) {
	cuts := pair("back", rect(300, 500))
	meet(cuts, "back@left", "seat", 1, 0, 250, false, true)
	c := striped(cloth.TwoWay, 0, 80, true, 30)
	l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: "open", Rounds: 10})
	pass(t, cuts, c, l)
	if len(found) > 0 || len(l.Placed) != 2 {
		t.Fatalf("%v", found.Codes())
	}
	for _, p := range l.Placed {
		if y := p.Put(pt(p.Cut.Matched[0].At)).Y; astray(y, 20, 40) > 1e-3 {
			t.Errorf("the seat of %s lies at %v", p.Cut.ID, y)
		}
	}
}

// Two matches of the same two pieces that contradict each other: at the knee
// both lie at 400, at the thigh one lies 12.5 mm higher. The one listed first is
// kept.
func TestUnmatched(t *testing.T) {
	cuts := append(pair("front", rect(300, 900)), pair("back", rect(300, 900))...)
	meet(cuts, "front@left", "inseam* at thigh", 8, 300, 700, true, false)
	meet(cuts, "back@left", "inseam* at thigh", 8, 0, 712.5, true, false)
	meet(cuts, "front@left", "inseam* at knee", 5, 300, 400, true, false)
	meet(cuts, "back@left", "inseam* at knee", 5, 0, 400, true, false)
	c := striped(cloth.OneWay, 100, 0, true, -1)
	l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: "open"})
	pass(t, cuts, c, l)
	if codes := found.Codes(); !slices.Equal(codes, []string{"lay.unmatched", "lay.unmatched"}) || found[0].Place.Line != 8 {
		t.Fatalf("found %v", codes)
	}
	if want := "inseam@left at thigh cannot be matched along the cloth beside the other matches: the two places miss each other by 1.2 cm in the repeat"; found[0].Text() != want &&
		found[0].Text() != strings.Replace(want, "1.2 cm", "1.3 cm", 1) {
		t.Errorf("%s", found[0].Text())
	}
	if len(l.Unmatched) != 2 || math.Abs(l.Unmatched[0].Apart-12.5) > 1e-9 || !l.Unmatched[0].Along || l.Unmatched[0].Across {
		t.Errorf("%+v", l.Unmatched)
	}
}

// Why a repeating cloth is not folded.
func TestRepeatFold(t *testing.T) {
	cuts := pair("front", rect(400, 500))
	for _, k := range []struct {
		c     cloth.Cloth
		fold  string
		plan  lay.Plan
		codes []string
		text  string
	}{
		{striped(cloth.TwoWay, 0, 80, true, 20), "auto", lay.Lengthwise, nil, ""}, // the middle, 74 cm from the edge, is 2 cm and 9 times 8
		{striped(cloth.TwoWay, 0, 80, true, 35), "lengthwise", lay.Open, []string{"lay.repeat-fold"},
			"drill is not folded lengthwise: the fold would lie 1.5 cm beside the middle of a bar or of a space"},
		{striped(cloth.TwoWay, 0, 80, false, 30), "auto", lay.Open, []string{"lay.uneven", "lay.repeat-fold"},
			"drill is not folded lengthwise: its repeat across is uneven, so the two layers would not show the same"},
		{striped(cloth.TwoWay, 0, 80, true, -1), "auto", lay.Open, []string{"lay.bar-unknown", "lay.repeat-fold"},
			"drill is not folded lengthwise: where the bars lie that run along it is not told, so nothing says that a fold falls on one"},
		{striped(cloth.TwoWay, 80, 0, true, -1), "crosswise", lay.Open, []string{"lay.repeat-fold"},
			"drill is not folded crosswise: the fold would have to fall on a bar that runs across, wherever the pieces end"},
		{striped(cloth.TwoWay, 80, 0, false, -1), "lengthwise", lay.Lengthwise, []string{"lay.uneven"}, ""},
	} {
		k.c.Title = "drill"
		l, found := lay.Make(context.Background(), k.c, cloth.Main, cuts, lay.Options{Fold: k.fold})
		pass(t, cuts, k.c, l)
		if l.Plan != k.plan || !slices.Equal(found.Codes(), k.codes) {
			t.Errorf("%s: %s, found %v, want %v", k.fold, l.Plan, found.Codes(), k.codes)
			continue
		}
		if n := len(found); k.text != "" && found[n-1].Text() != k.text {
			t.Errorf("%s", found[n-1].Text())
		}
	}
}

func TestRepeatKinds(t *testing.T) {
	for _, k := range lay.RepeatKinds {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// A half piece on the fold of a plaid lies with its fold line on a bar, and
// opened out it does too.
func TestHalfOnBars(t *testing.T) {
	for _, fold := range []string{"lengthwise", "open"} {
		cuts := []finish.Cut{half("front", 5, 250, 500), single("yoke", rect(200, 80))}
		meet(cuts, "front", "yoke", 1, 105, 480, true, true)
		meet(cuts, "yoke", "yoke", 1, 100, 0, true, true)
		c := striped(cloth.TwoWay, 120, 80, true, 20)
		l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: fold, Rounds: 10})
		pass(t, cuts, c, l)
		if len(found) > 0 || len(l.Unplaced) > 0 {
			t.Errorf("%s: %v, unplaced %v", fold, found.Codes(), l.Unplaced)
		}
		for _, p := range l.Placed {
			if p.Cut.ID == "front" && fold == "open" {
				if y := p.Put(pt(finish.Micron{X: 5000})).Y; astray(y, 10, 40) > 1e-3 {
					t.Errorf("its middle lies at %v", y)
				}
			}
		}
	}
}
