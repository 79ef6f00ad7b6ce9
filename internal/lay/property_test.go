package lay_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/referee"
	"gusset/internal/unit"
)

// notQuick leaves a long search out of the quick run, which is for the race
// detector.
func notQuick(t *testing.T) {
	t.Helper()
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: searched in full without the race detector")
	}
}

// mirroredCut is the mirror image of a cut, under the name of the other hand
// where there is one.
func mirroredCut(k finish.Cut) finish.Cut {
	k.Outline = mirror(k.Outline)
	for i := range k.Fold {
		k.Fold[i].X = -k.Fold[i].X
	}
	return k
}

// A lay is sound or not whatever order its pieces are named in, and so is its
// mirror image on the mirrored cloth: known lays through the referee, and each
// with two pieces exchanged, which are mostly unsound.
func TestPermutedAndMirroredLays(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 5))
	unsound := 0
	for n := range 30 {
		cuts, c := trousers(rng), drill(cloth.Directions[n%3])
		plan := []lay.Plan{lay.Open, lay.Crosswise, lay.Turned}[n/3%3]
		l, _ := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: string(plan)})
		if n%2 == 1 { // two pieces exchange their places
			i, k := rng.IntN(len(l.Placed)), rng.IntN(len(l.Placed))
			a, b := &l.Placed[i], &l.Placed[k]
			a.AtX, b.AtX, a.AtY, b.AtY = b.AtX, a.AtX, b.AtY, a.AtY
		}
		want := len(referee.Check(cuts, c, l)) == 0
		if !want {
			unsound++
		}
		mixed := l
		mixed.Placed = append([]lay.Placed(nil), l.Placed...)
		others := append([]finish.Cut(nil), cuts...)
		rng.Shuffle(len(mixed.Placed), func(i, k int) { mixed.Placed[i], mixed.Placed[k] = mixed.Placed[k], mixed.Placed[i] })
		rng.Shuffle(len(others), func(i, k int) { others[i], others[k] = others[k], others[i] })
		if got := len(referee.Check(others, c, mixed)) == 0; got != want {
			t.Errorf("%s: sound is %v, with the pieces named in another order %v", plan, want, got)
		}
		wide := int64(1_460_000)
		for i := range mixed.Placed {
			p := &mixed.Placed[i]
			p.Cut, p.AtY = mirroredCut(p.Cut), wide-p.AtY
		}
		for i := range others {
			others[i] = mirroredCut(others[i])
		}
		if got := len(referee.Check(others, c, mixed)) == 0; got != want {
			t.Errorf("%s: sound is %v, mirrored %v", plan, want, got)
		}
	}
	if unsound < 5 {
		t.Errorf("only %d of the lays are unsound", unsound)
	}
}

// pieces cuts a rectangle by straight cuts from side to side.
func pieces(rng *rand.Rand, wide, long float64, n int) [][2]float64 {
	out := [][2]float64{{wide, long}}
	for len(out) < n {
		k := rng.IntN(len(out))
		r, at := out[k], 0.3+0.4*rng.Float64()
		if r[0] > r[1] {
			out[k] = [2]float64{r[0] * at, r[1]}
			out = append(out, [2]float64{r[0] - r[0]*at, r[1]})
		} else {
			out[k] = [2]float64{r[0], r[1] * at}
			out = append(out, [2]float64{r[0], r[1] - r[1]*at})
		}
	}
	return out
}

// A lay that is feasible by construction is found, in small cases, to 5 % of
// its length: a rectangle of the cloth, cut into pieces; open, each of them a
// single; folded lengthwise or crosswise, each of them a pair, the rectangle then
// half as wide or taken twice. A hundredth of the width is to spare. In whatever
// order the pieces are named.
func TestFeasibleByConstruction(t *testing.T) {
	notQuick(t)
	for _, k := range []struct {
		plan       lay.Plan
		wide, long float64 // of the rectangle cut up
		takes      float64 // times its length
	}{
		{lay.Open, 1446, 700, 1}, {lay.Lengthwise, 722, 700, 1}, {lay.Crosswise, 1446, 400, 2}, {lay.Turned, 1446, 400, 2},
	} {
		for seed := range uint64(4) {
			rng := rand.New(rand.NewPCG(seed, 41))
			var cuts []finish.Cut
			for i, r := range pieces(rng, k.wide, k.long, 4) {
				name := fmt.Sprintf("part-%d", i)
				if k.plan == lay.Open {
					cuts = append(cuts, single(name, rect(r[0], r[1])))
				} else {
					cuts = append(cuts, pair(name, rect(r[0], r[1]))...)
				}
			}
			for range 2 {
				rng.Shuffle(len(cuts), func(i, j int) { cuts[i], cuts[j] = cuts[j], cuts[i] })
				c := drill(cloth.TwoWay)
				l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: string(k.plan), Rounds: 400})
				pass(t, cuts, c, l)
				if most := lay.Squaring + 1.05*k.takes*k.long; l.Length > most || len(found.Codes()) > 0 && found.Stops() > 0 {
					t.Errorf("%s, seed %d: takes %.0f mm, %.0f are enough", k.plan, seed, l.Length, lay.Squaring+k.takes*k.long)
				}
			}
		}
	}
}

// Sections on a short table, flaws, remnants and pieces off the grain, singly
// and together, on every plan: the referee passes every lay, no section is
// longer than the table, and only permitted pieces lie off the grain.
func TestSectionsFlawsRemnantsTilt(t *testing.T) {
	notQuick(t)
	rng := rand.New(rand.NewPCG(3, 14))
	tilted, bounded := 0, 0
	for n := range 36 {
		cuts, c := trousers(rng), drill(cloth.Directions[n%2])
		o := lay.Options{Fold: string(lay.Plans[n%len(lay.Plans)]), Seed: uint64(n), Rounds: 6 * (n % 2)}
		if n%3 == 0 {
			o.Table = 1300 + 400*rng.Float64()
		}
		if n%4 < 2 {
			for range 1 + rng.IntN(4) {
				c.Flaws = append(c.Flaws, cloth.Flaw{
					At:   cloth.Spot{FromEnd: unit.MM(2500 * rng.Float64()), FromSelvedge: unit.MM(20 + 1440*rng.Float64())},
					Size: unit.MM(5 + 60*rng.Float64()),
				})
			}
		}
		if n%5 == 4 {
			o.Fold = string(lay.Open)
			for _, v := range [][2]float64{{0, 0}, {4800, 0}, {5000, 700}, {4600, 1480}, {150, 1480}, {0, 1100}} {
				c.Outline = append(c.Outline, cloth.Spot{FromEnd: unit.MM(v[0]), FromSelvedge: unit.MM(v[1])})
			}
			c.Length = unit.MM(5000)
		}
		if n%2 == 0 {
			o.OffGrain = lay.OffGrain{UpTo: 3, Pieces: []string{"pocket", "loops"}}
		}
		l, found := lay.Make(context.Background(), c, cloth.Main, cuts, o)
		pass(t, cuts, c, l)
		if len(l.Unplaced) > 0 {
			t.Errorf("case %d, %s: no place for %v: %v", n, l.Plan, l.Unplaced, found.Codes())
		}
		for i, s := range l.Sections {
			if long := s.To - s.From; o.Table > 0 && !found.Has("lay.table") && long > o.Table-lay.Squaring*float64(1-min(i, 1))+1e-6 {
				t.Errorf("case %d: section %d is %.1f mm long on a table of %.1f", n, i+1, long, o.Table)
			} else if o.Table > 0 {
				bounded++
			}
		}
		for _, p := range l.Placed {
			if p.Degrees != -90 && p.Degrees != 90 && p.Degrees != 270 {
				if tilted++; o.OffGrain.UpTo == 0 || p.Cut.Piece != "pocket" && p.Cut.Piece != "loops" {
					t.Errorf("case %d: %s lies off the grain", n, p.Cut.ID)
				}
			}
			lo, hi := geom.BoundsOf(p.Outline())
			if s := l.Sections[p.Section]; lo.X < s.From-1e-6 || hi.X > s.To+1e-6 {
				t.Errorf("case %d: %s crosses the end of its section", n, p.Cut.ID)
			}
		}
	}
	if tilted == 0 || bounded == 0 {
		t.Errorf("%d pieces off the grain, %d sections bounded", tilted, bounded)
	}
}
