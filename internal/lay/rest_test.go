package lay_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// By hand, on cloth of 1460 mm by 2 m: pieces in a corner, in the middle, on a
// fold, and a flaw. What is told is at most two cells (8 mm) less than there is.
func TestRestKnown(t *testing.T) {
	c := drill(cloth.OneWay)
	c.Length = unit.MM(2000)
	flawed := c
	flawed.Flaws = []cloth.Flaw{{At: cloth.Spot{FromEnd: unit.MM(1010), FromSelvedge: unit.MM(740)}, Size: unit.MM(20)}}
	for _, k := range []struct {
		name       string
		cloth      cloth.Cloth
		cuts       []finish.Cut
		o          lay.Options
		long, wide float64
	}{
		{"nothing cut", c, nil, lay.Options{}, 1990, 1460},
		{"a flaw in the middle: the whole width on one side of it", flawed, nil, lay.Options{}, 990, 1460},
		{"a band across: what is behind", c, []finish.Cut{single("band", rect(1460, 400))}, lay.Options{}, 1590, 1460},
		{"a long narrow piece: what is beside", c, []finish.Cut{single("panel", rect(400, 1900))}, lay.Options{}, 1990, 1060},
		{"two hands on the fold lie in the middle: one side", c, pair("leg", rect(400, 1900)), lay.Options{Fold: "lengthwise"}, 1990, 330},
	} {
		l, _ := lay.Make(context.Background(), k.cloth, cloth.Main, k.cuts, k.o)
		if l.Sections == nil {
			l.Cloth = k.cloth
		}
		r := l.Rest(0, math.Inf(1))
		if r.Long > k.long || r.Wide > k.wide || r.Long < k.long-8 || r.Wide < k.wide-8 {
			t.Errorf("%s: %v by %v, want %v by %v", k.name, r.Long, r.Wide, k.long, k.wide)
		}
	}
}

// The rectangle told is free: a general-purpose geometry library
// (simplefeatures) finds no piece of the lay in it, whatever the plan, unfolded
// by hand.
func TestRestIsFree(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 2))
	for n := range 12 {
		cuts, c := trousers(rng), drill(cloth.Directions[n%2])
		c.Length = unit.MM(3500)
		l, _ := lay.Make(context.Background(), c, cloth.Main, cuts, lay.Options{Fold: string(lay.Plans[n%len(lay.Plans)])})
		r := l.Rest(0, l.Length)
		if r.Area() <= 0 {
			t.Errorf("%s: nothing left", l.Plan)
		}
		free := polygonOf([]geom.Pt{{X: r.From, Y: r.Low}, {X: r.From + r.Long, Y: r.Low}, {X: r.From + r.Long, Y: r.Low + r.Wide}, {X: r.From, Y: r.Low + r.Wide}})
		for _, p := range l.Placed {
			s := l.Sections[p.Section]
			ways := []func(q geom.Pt) geom.Pt{func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X, Y: q.Y + s.Depth} }}
			if p.Layers == 2 {
				ways = append(ways, map[lay.Fold]func(q geom.Pt) geom.Pt{
					lay.Along:  func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X, Y: s.Depth - q.Y} },
					lay.Across: func(q geom.Pt) geom.Pt { return geom.Pt{X: 2*s.To - q.X, Y: q.Y} },
					lay.Swung:  func(q geom.Pt) geom.Pt { return geom.Pt{X: q.X + s.To - s.From, Y: 1460 - q.Y} },
				}[s.Fold])
			}
			for _, way := range ways {
				ring := p.Outline()
				for i := range ring {
					ring[i] = way(ring[i])
				}
				x, err := sf.Intersection(free, polygonOf(ring))
				if err != nil || x.Area() > 1e-6 {
					t.Errorf("%s: %s lies in it by %v mm² (%v)", l.Plan, p.Cut.ID, x.Area(), err)
				}
			}
		}
	}
}

func polygonOf(ring []geom.Pt) sf.Geometry {
	var flat []float64
	for _, p := range append(ring[:len(ring):len(ring)], ring[0]) {
		flat = append(flat, p.X, p.Y)
	}
	return sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(flat, sf.DimXY))}).AsGeometry()
}
