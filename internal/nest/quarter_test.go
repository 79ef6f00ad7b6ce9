package nest

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Slow twin: however two shapes are turned and flipped, tilted ones among them,
// their quarrel is that of a fence made for the two as they lie.
func TestQuartersShareFences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{Containers: []Container{{Width: 1000}}}
		for _, name := range []string{"a", "b"} {
			part := Part{Shape: star(t, name), Tilt: rapid.SampledFrom([]float64{0, 4}).Draw(t, "tilt")}
			for range rapid.IntRange(1, 4).Draw(t, "poses") {
				part.Poses = append(part.Poses, Orientation{
					Degrees: rapid.SampledFrom([]float64{-90, 0, 90, 180, 270, 450, 30, 300, -45}).Draw(t, "turn"),
					Flip:    rapid.Bool().Draw(t, "flip"),
				})
			}
			p.Parts = append(p.Parts, part)
		}
		f := newField(&p)
		f.cover()
		draw := func(i int) *solid { return rapid.SampledFrom(f.items[i].poses).Draw(t, "pose").solid }
		for range 10 {
			a, b := draw(0), draw(1)
			dx, dy := rapid.Float64Range(-200, 200).Draw(t, "dx"), rapid.Float64Range(-200, 200).Draw(t, "dy")
			whole := newFence([][]Pt{hull(a.ring())}, [][]Pt{hull(b.ring())}, f.clear+margin)
			deep := f.severity(a, b, dx, dy, math.Inf(1)) > 0
			var k probe
			if near := k.near(a, b, dx, dy, f.clear-1e-9); near && !deep {
				t.Fatalf("too near at (%v, %v), told as clear", dx, dy)
			}
			if deep && (whole.depth(dx, dy, math.Inf(1)) == 0 || !k.near(a, b, dx, dy, 20*f.clear)) {
				t.Fatalf("clear at (%v, %v), told as too near", dx, dy)
			}
		}
	})
}

// Turned and flipped and taken back, a point is where it was; and what lies
// beside another is found from it by the way that beside tells.
func TestQuarterGroup(t *testing.T) {
	p := Pt{3, 7}
	for a := range quarterKinds {
		q := quarter{a & 3, a > 3}
		m, there := q.back(), turnOf(q.orientation()).apply(p)
		if got := (Pt{m[0]*there.X + m[1]*there.Y, m[2]*there.X + m[3]*there.Y}); got != p {
			t.Errorf("%v: back at %v", q, got)
		}
		for b := range quarterKinds {
			o := quarter{b & 3, b > 3}
			if got := turnOf(q.orientation()).apply(turnOf(q.beside(o).orientation()).apply(p)); got != turnOf(o.orientation()).apply(p) {
				t.Errorf("%v beside %v: %v", o, q, got)
			}
		}
	}
}
