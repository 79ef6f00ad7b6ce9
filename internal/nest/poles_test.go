package nest

import (
	"math"
	"testing"
)

// The first pole of a square is its inscribed circle, of a right triangle its
// incircle (r = (a+b-c)/2), and no pole leaves the shape: identities of plane
// geometry.
func TestPoles(t *testing.T) {
	cases := []struct {
		name string
		ring []Pt
		r    float64
	}{
		{"square", []Pt{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, 50},
		{"3-4-5 triangle", []Pt{{0, 0}, {40, 0}, {0, 30}}, 10},
		{"strip", []Pt{{0, 0}, {200, 0}, {200, 20}, {0, 20}}, 10},
	}
	for _, c := range cases {
		poles := newPoles(c.ring)
		if len(poles) == 0 {
			t.Fatalf("%s: no poles", c.name)
		}
		if r := poles[0].r; math.Abs(r-c.r) > 0.02*c.r {
			t.Errorf("%s: first pole of radius %.3f, want %.3f", c.name, r, c.r)
		}
		for i, p := range poles {
			for k, a := range c.ring {
				b := c.ring[(k+1)%len(c.ring)]
				away := ((b.X-a.X)*(p.y-a.Y) - (b.Y-a.Y)*(p.x-a.X)) / math.Hypot(b.X-a.X, b.Y-a.Y)
				if away < p.r-1e-6 {
					t.Errorf("%s: pole %d of radius %.3f is only %.3f from edge %d", c.name, i, p.r, away, k)
				}
			}
		}
	}
}
