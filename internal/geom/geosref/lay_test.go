package geosref

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// microns rounds a star and keeps it plain.
func microns(pts []geom.Pt) []finish.Micron {
	out := make([]finish.Micron, len(pts))
	for i, p := range pts {
		out[i] = finish.Micron{X: int64(math.Round(p.X * 1000)), Y: int64(math.Round(p.Y * 1000))}
	}
	return out
}

func imageOf(ring []finish.Micron) []finish.Micron {
	out := make([]finish.Micron, len(ring))
	for i, p := range ring {
		out[len(ring)-1-i] = finish.Micron{X: -p.X, Y: p.Y}
	}
	return out
}

// stars are cuts: pairs of mirror images, and singles.
func stars(r *rand.Rand) []finish.Cut {
	var out []finish.Cut
	for n := range 4 {
		ring := microns(star(r, 5+r.IntN(9), geom.Pt{}, between(r, 120, 330)))
		name := fmt.Sprintf("star-%d", n)
		left, right := name+"@left", name+"@right"
		out = append(out,
			finish.Cut{ID: left, Piece: name, Copy: piece.Left, Cloth: cloth.Main, Outline: ring, Pair: right},
			finish.Cut{ID: right, Piece: name, Copy: piece.Right, Cloth: cloth.Main, Outline: imageOf(ring), Pair: left})
	}
	for n := range 4 {
		name := fmt.Sprintf("single-%d", n)
		ring := microns(star(r, 5+r.IntN(9), geom.Pt{}, between(r, 80, 240)))
		out = append(out, finish.Cut{ID: name, Piece: name, Copy: piece.Single, Cloth: cloth.Main, Outline: ring})
	}
	return out
}

// flatCloth is what a placed piece cuts of the cloth unfolded, by hand: a
// lengthwise fold lies at its depth, a crosswise one at the section's end, and
// what is swung round lies a section's length farther, side on side.
func flatCloth(l lay.Lay, p lay.Placed) [][]geom.Pt {
	s := l.Sections[p.Section]
	put := func(f func(geom.Pt) geom.Pt) []geom.Pt {
		ring := p.Outline()
		for i := range ring {
			ring[i] = f(ring[i])
		}
		return ring
	}
	out := [][]geom.Pt{put(func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X, Y: q.Y + s.Depth} })}
	if p.Layers < 2 {
		return out
	}
	above := map[lay.Fold]func(geom.Pt) geom.Pt{
		lay.Along:  func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X, Y: s.Depth - q.Y} },
		lay.Across: func(q geom.Pt) geom.Pt { return geom.Pt{X: 2*s.To - q.X, Y: q.Y} },
		lay.Swung:  func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X + s.To - s.From, Y: l.Cloth.UsableWidth() - q.Y} },
	}
	return append(out, put(above[s.Fold]))
}

// On the cloth unfolded GEOS finds every piece of every lay once, with the area
// that it is cut with, inside the cloth used, and no two sharing any of it; the
// union of all is as large as their sum, and the density follows from it.
func TestLaysAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 11))
	pairs := 0
	for n := range 18 {
		cuts := stars(r)
		c := cloth.Cloth{Name: "drill", Title: "drill", Width: unit.MM(1480), Selvedge: unit.MM(10), Length: unit.MM(9000),
			Direction: cloth.Directions[n%2], Washed: true}
		l, found := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: string(lay.Plans[n%len(lay.Plans)]), Rounds: 10 * (n % 2), Seed: 1})
		if found.Stops() > 0 {
			t.Fatal(found.Codes())
		}
		used := polygon([]geom.Pt{{X: lay.Squaring}, {X: l.Length}, {X: l.Length, Y: 1460}, {X: lay.Squaring, Y: 1460}})
		all := region(nil)
		var rings [][]geom.Pt
		sum := 0.0
		for _, p := range l.Placed {
			want := geom.Area(millimetres(p.Cut.Outline))
			for _, ring := range flatCloth(l, p) {
				g := polygon(ring)
				if a := g.Area(); math.Abs(a-want) > 1e-6*want {
					t.Errorf("%s: %s covers %v mm², it is cut with %v", l.Plan, p.Cut.ID, a, want)
				}
				if out := g.Difference(used).Area(); out > 1e-6 {
					t.Errorf("%s: %s reaches out of the cloth by %v mm²", l.Plan, p.Cut.ID, out)
				}
				for _, other := range rings {
					pairs++
					if x := g.Intersection(polygon(other)).Area(); x > 1e-6 {
						t.Errorf("%s: %s shares %v mm² with another", l.Plan, p.Cut.ID, x)
					}
				}
				rings = append(rings, ring)
				all, sum = all.Union(g), sum+want
			}
		}
		if len(rings) != len(cuts) {
			t.Errorf("%s: %d pieces are cut of %d", l.Plan, len(rings), len(cuts))
		}
		if a := all.Area(); math.Abs(a-sum) > 1e-6*sum {
			t.Errorf("%s: all pieces cover %v mm², one by one %v", l.Plan, a, sum)
		}
		if want := all.Area() / (1460 * l.Length); math.Abs(l.Density-want) > 1e-6 {
			t.Errorf("%s: density %v, by GEOS %v", l.Plan, l.Density, want)
		}
	}
	t.Logf("%d pairs of pieces", pairs)
}

func millimetres(ring []finish.Micron) []geom.Pt {
	out := make([]geom.Pt, len(ring))
	for i, p := range ring {
		out[i] = geom.Pt{X: float64(p.X) / 1000, Y: float64(p.Y) / 1000}
	}
	return out
}
