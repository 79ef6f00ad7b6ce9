package referee

import (
	"math/rand/v2"
	"testing"

	"gusset/internal/finish"
)

// Plain cases by hand.
func TestStrip(t *testing.T) {
	square := func(x, y int64) []finish.Micron { return xy(x, y, x+10, y, x+10, y+10, x, y+10) }
	for _, c := range []struct {
		name  string
		rings [][]finish.Micron
		sound bool
	}{
		{"side by side, filling it", [][]finish.Micron{square(0, 0), square(10, 0), square(0, 10), square(10, 10)}, true},
		{"the other way round", [][]finish.Micron{xy(0, 0, 0, 10, 10, 10, 10, 0)}, true},
		{"one unit over", [][]finish.Micron{square(0, 0), square(9, 0)}, false},
		{"one unit out of the side", [][]finish.Micron{square(0, 11)}, false},
		{"one unit before the beginning", [][]finish.Micron{square(-1, 0)}, false},
		{"one unit past the end", [][]finish.Micron{square(11, 0)}, false},
		{"a bow tie", [][]finish.Micron{xy(0, 0, 10, 10, 10, 0, 0, 10)}, false},
	} {
		if err := Strip(c.rings, 20, 20); (err == nil) != c.sound {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Shelves of random pieces are sound; a thousand with a piece pushed 0.1 mm onto
// another are not.
func TestStripMutants(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	of := func(b *table) [][]finish.Micron {
		var out [][]finish.Micron
		for _, p := range b.l.Placed {
			out = append(out, lies(p))
		}
		return out
	}
	for made := 0; made < 1000; {
		b := newTable(rng)
		if len(b.l.Sections) > 1 {
			continue
		}
		if err := Strip(of(b), 1_460_000, micron(b.l.Length)); err != nil {
			t.Fatal(err)
		}
		if !b.pushTogether() {
			continue
		}
		made++
		if Strip(of(b), 2_000_000, 2*micron(b.l.Length)) == nil {
			t.Fatal("passed")
		}
	}
}
