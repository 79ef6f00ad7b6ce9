package nest

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Twelve tabs of 80 by 40 strewn beside a block in a free band 200 wide come
// together in three columns of four at the band's beginning, by arithmetic: five
// would need 200 and the clearances between them.
func TestGatherTabs(t *testing.T) {
	p := Problem{Containers: []Container{{Width: 500}}, Parts: []Part{still(rect(1000, 300))}}
	l := Layout{Lengths: []float64{1000}, Length: 1000, Placements: []Placement{{}}}
	for n := range 12 {
		p.Parts = append(p.Parts, still(rect(80, 40)))
		l.Placements = append(l.Placements, Placement{Part: n + 1, At: Pt{float64(n) * 81, 301 + float64(n%4)*39}})
	}
	judge(t, p, l)
	got := Gather(p, l)
	judge(t, p, got)
	if got.Length != l.Length || len(got.Placements) != 13 {
		t.Fatalf("length %v, %d placed", got.Length, len(got.Placements))
	}
	for _, pl := range got.Placements[1:] {
		if far := pl.At.X + 80; far > 3*80+1 {
			t.Errorf("part %d reaches to %.1f", pl.Part, far)
		}
	}
}

// A part that may tilt and has room enough is gathered as it was given.
func TestGatherLeavesUpright(t *testing.T) {
	tab := still(rect(80, 40))
	tab.Tilt = 5
	p := Problem{Containers: []Container{{Width: 500}}, Parts: []Part{still(rect(1000, 300)), tab, tab, tab}}
	l := Layout{Lengths: []float64{1000}, Length: 1000, Placements: []Placement{{}}}
	for n, d := range []float64{5, -2.5, 3.3} {
		l.Placements = append(l.Placements, Placement{Part: n + 1, Degrees: d, At: Pt{200 * float64(n+1), 350}})
	}
	judge(t, p, l)
	got := Gather(p, l)
	judge(t, p, got)
	for _, pl := range got.Placements {
		if pl.Degrees != 0 {
			t.Errorf("part %d leans by %v degrees", pl.Part, pl.Degrees)
		}
	}
}

// Gathering keeps every part and every rule, and makes nothing longer; what is
// no layout of the problem stays as it is.
func TestGatherKeepsTheRules(outer *testing.T) {
	rapid.Check(outer, func(t *rapid.T) {
		p := Problem{Containers: []Container{{Width: 320}}}
		for n := range rapid.IntRange(1, 7).Draw(t, "parts") {
			part := Part{Shape: star(t, fmt.Sprint("shape ", n)), Poses: []Orientation{{}, {Degrees: 180}}}
			if by := rapid.SampledFrom([]float64{0.2, 1}).Draw(t, "scale"); by < 1 {
				for k := range part.Shape {
					part.Shape[k].X *= by
					part.Shape[k].Y *= by
				}
			}
			part.Tilt = rapid.SampledFrom([]float64{0, 7}).Draw(t, "tilt")
			p.Parts = append(p.Parts, part)
		}
		l, _, err := Search(context.Background(), p, Budget{Rounds: rapid.IntRange(0, 20).Draw(t, "rounds"), Lanes: 1}, nil, nil)
		if err != nil || len(l.Unplaced) > 0 {
			t.Fatalf("unplaced %v, error %v", l.Unplaced, err)
		}
		got := Gather(p, l)
		judge(outer, p, got)
		if outer.Failed() || len(got.Unplaced) > 0 || got.Length > l.Length+slack {
			t.Fatalf("length %v from %v, unplaced %v", got.Length, l.Length, got.Unplaced)
		}
		l.Placements = slices.Clone(l.Placements)
		l.Placements[0].At.Y = math.Inf(1)
		if same := Gather(p, l); !slices.Equal(same.Placements, l.Placements) {
			t.Fatal("a layout that breaks a rule is not left as it is")
		}
	})
}
