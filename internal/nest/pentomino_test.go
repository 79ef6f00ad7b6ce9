package nest

import (
	"fmt"
	"math"
	"os"
	"testing"
)

// pentominoes are the twelve shapes of five squares, by their usual letters (S.
// W. Golomb, Polyominoes, 2nd edition, Princeton 1994, chapter 1), as outlines
// on a grid.
var pentominoes = map[string][]Pt{
	"F": {{1, 0}, {2, 0}, {2, 2}, {3, 2}, {3, 3}, {1, 3}, {1, 2}, {0, 2}, {0, 1}, {1, 1}},
	"I": {{0, 0}, {5, 0}, {5, 1}, {0, 1}},
	"L": {{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 2}, {0, 2}},
	"N": {{0, 0}, {3, 0}, {3, 1}, {4, 1}, {4, 2}, {2, 2}, {2, 1}, {0, 1}},
	"P": {{0, 0}, {3, 0}, {3, 1}, {2, 1}, {2, 2}, {0, 2}},
	"T": {{1, 0}, {2, 0}, {2, 2}, {3, 2}, {3, 3}, {0, 3}, {0, 2}, {1, 2}},
	"U": {{0, 0}, {3, 0}, {3, 2}, {2, 2}, {2, 1}, {1, 1}, {1, 2}, {0, 2}},
	"V": {{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 3}, {0, 3}},
	"W": {{0, 0}, {2, 0}, {2, 1}, {3, 1}, {3, 3}, {2, 3}, {2, 2}, {1, 2}, {1, 1}, {0, 1}},
	"X": {{1, 0}, {2, 0}, {2, 1}, {3, 1}, {3, 2}, {2, 2}, {2, 3}, {1, 3}, {1, 2}, {0, 2}, {0, 1}, {1, 1}},
	"Y": {{0, 0}, {4, 0}, {4, 1}, {2, 1}, {2, 2}, {1, 2}, {1, 1}, {0, 1}},
	"Z": {{0, 0}, {2, 0}, {2, 2}, {3, 2}, {3, 3}, {1, 3}, {1, 1}, {0, 1}},
}

// The twelve pentominoes fill rectangles of 3 x 20, 4 x 15, 5 x 12 and 6 x 10
// squares (2, 368, 1010 and 2339 ways: C. B. and J. Haselgrove, Eureka 23, 1960;
// Golomb, chapter 1). Held to the squares by a lattice each way, they are found
// in strips of those widths with one row of squares to spare, which is 5, 6.7,
// 8.3 and 10 % of the length.
func TestPentominoes(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: searched in full without the race detector")
	}
	const square = 50
	var parts []Part
	for _, name := range []string{"F", "I", "L", "N", "P", "T", "U", "V", "W", "X", "Y", "Z"} {
		part := Part{}
		for _, q := range pentominoes[name] {
			part.Shape = append(part.Shape, Pt{square * q.X, square * q.Y})
		}
		if a := signedArea(part.Shape); a != 5*square*square {
			t.Fatalf("%s covers %v", name, a)
		}
		part.Shape = shrunk(part.Shape)
		part.Ties = []Tie{{Lattice: 0}, {Lattice: 1}}
		for k := range 4 {
			for _, flip := range []bool{false, true} {
				part.Poses = append(part.Poses, Orientation{Degrees: float64(90 * k), Flip: flip})
			}
		}
		parts = append(parts, part)
	}
	grid := []Lattice{{Axis: X, Period: square, Phases: []float64{0}}, {Axis: Y, Period: square, Phases: []float64{0}}}
	for _, wide := range []float64{3, 4, 5, 6} {
		t.Run(fmt.Sprintf("%v wide", wide), func(t *testing.T) {
			p := Problem{Containers: []Container{{Width: square * wide}}, Parts: parts, Lattices: grid}
			l, _ := solve(t, p, Budget{Rounds: 4000, Lanes: 2})
			if rows := math.Round(l.Length / square); rows > 60/wide+1 {
				t.Errorf("%v rows, %v are possible", rows, 60/wide)
			}
		})
	}
}

// shrunk moves every side of a shape on the grid in by a hundredth of a
// millimetre.
func shrunk(shape []Pt) []Pt {
	n := len(shape)
	out := make([]Pt, n)
	const by = 0.01
	for i, p := range shape {
		a, b := shape[(i+n-1)%n], shape[(i+1)%n]
		in := func(p, q Pt) Pt { // to the left of the side
			return Pt{-sign(q.Y - p.Y), sign(q.X - p.X)}
		}
		u, v := in(a, p), in(p, b)
		out[i] = Pt{p.X + by*(u.X+v.X), p.Y + by*(u.Y+v.Y)}
	}
	return out
}

func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// Two containers of 300 x 200 and 500 x 200, and rectangles that fill both, each
// in one way only (by hand: only two of 300 fill the first, 120 and 79 high; one
// of 500 and two of 250 the second): all find their place.
func TestTwoContainers(t *testing.T) {
	var parts []Part
	for _, r := range [][2]float64{{300, 120}, {300, 79}, {500, 110}, {250, 89}, {249, 89}} {
		parts = append(parts, still(rect(r[0], r[1])))
	}
	p := Problem{Containers: []Container{{Width: 200, MaxLength: 301}, {Width: 200, MaxLength: 501}}, Parts: parts}
	l, _ := solve(t, p, Budget{Rounds: 1000, Lanes: 2, Seed: 2})
	for _, pl := range l.Placements {
		if want := min(pl.Part/2, 1); pl.Container != want {
			t.Errorf("part %d lies in container %d, it fits with the others in %d only", pl.Part, pl.Container, want)
		}
	}
}
