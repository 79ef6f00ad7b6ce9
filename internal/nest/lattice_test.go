package nest

import (
	"context"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func block(w, h float64) []Pt { return []Pt{{0, 0}, {w, 0}, {w, h}, {0, h}} }

var upright = []Orientation{{}}

// endForEnd lies back when it is turned.
var endForEnd = []Orientation{{}, {Degrees: 180}}

func tiedAt(shape []Pt, poses []Orientation, ties ...Tie) Part {
	return Part{Shape: shape, Poses: poses, Ties: ties}
}

// Lengths by hand; each problem is a strip 100 mm wide that every part fills
// from side to side, so that only the order along it matters. Parts in a row
// keep 5 µm apart.
func TestLatticeKnownLengths(t *testing.T) {
	hundred := []Lattice{{Axis: X, Period: 100}}
	fixed := []Lattice{{Axis: X, Period: 100, Phases: []float64{30}}}
	at := func(x float64) Tie { return Tie{At: Pt{x, 0}} }
	back := func(x float64) Tie { return Tie{At: Pt{x, 0}, Back: []bool{false, true}} }
	sixty := block(60, 100)
	for _, c := range []struct {
		name     string
		lattices []Lattice
		parts    []Part
		length   float64
	}{
		// At 0, 100 and 200, each 60 long.
		{"three alike", hundred, []Part{tiedAt(sixty, upright, at(0)), tiedAt(sixty, upright, at(0)), tiedAt(sixty, upright, at(0))}, 260},
		// The gaps of 40 take what is 39 long and free.
		{"free ones in the gaps", hundred, []Part{tiedAt(sixty, upright, at(0)), tiedAt(sixty, upright, at(0)),
			tiedAt(block(39, 100), upright), tiedAt(block(39, 100), upright)}, 200 - 1 + 0.005},
		// The second, tied 30 from its left end, reaches from 70 to 130: its point lies on 100.
		{"one tied in its middle", hundred, []Part{tiedAt(sixty, upright, at(0)), tiedAt(sixty, upright, at(30))}, 130},
		// Left end on 30: from 30 to 90, then from 130 to 190.
		{"a phase that is given", fixed, []Part{tiedAt(sixty, upright, at(0)), tiedAt(sixty, upright, at(0))}, 190},
		// Turned, a part reaches from v - 60 to v, where v and the phase f of the
		// upright one add up to 100 k. Upright first, from f: v = 200 - f ends it, and f
		// is at most 40; turned first, from b: the other starts at 140 - b, b at most 40.
		// Either way 160, as with both upright.
		{"end for end gains nothing", hundred, []Part{tiedAt(sixty, endForEnd, back(0)), tiedAt(sixty, endForEnd, back(0))}, 160},
		// Upright both take 120 + 59. One turned, from a to a + 59 and from 61 - a to
		// 120 - a: a is at most 1.
		{"end for end", []Lattice{{Axis: X, Period: 120}}, []Part{tiedAt(block(59, 100), endForEnd, back(17)),
			tiedAt(block(59, 100), endForEnd, back(17))}, 119},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Problem{Containers: []Container{{Width: 100}}, Parts: c.parts, Lattices: c.lattices}
			for _, rounds := range []int{0, 60} {
				l, _, err := Search(context.Background(), p, Budget{Rounds: rounds, Lanes: 2, Seed: 3}, nil, nil)
				if err != nil {
					t.Fatal(err)
				}
				judge(t, p, l)
				if len(l.Unplaced) > 0 || l.Length < c.length-0.02 || rounds > 0 && l.Length > c.length+0.02 {
					t.Errorf("%d rounds: length %.4f, by hand %.4f, unplaced %v", rounds, l.Length, c.length, l.Unplaced)
				}
			}
		})
	}
}

// Across a strip 100 mm wide. Two parts 30 wide tied on their lower sides every
// 60 mm lie side by side, on 0 and 60; every 80 mm they cannot, since the second
// would have to start on 80 and end on 110.
func TestLatticeAcross(t *testing.T) {
	for _, c := range []struct{ period, length float64 }{{60, 50}, {80, 100.005}} {
		p := Problem{
			Containers: []Container{{Width: 100}},
			Lattices:   []Lattice{{Axis: Y, Period: c.period}},
			Parts:      []Part{tiedAt(block(50, 30), upright, Tie{}), tiedAt(block(50, 30), upright, Tie{})},
		}
		l, _, err := Search(context.Background(), p, Budget{Rounds: 40, Lanes: 2, Seed: 1}, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		judge(t, p, l)
		if math.Abs(l.Length-c.length) > 0.01 {
			t.Errorf("every %v mm: length %v, by hand %v", c.period, l.Length, c.length)
		}
	}
}

// A part as wide as the strip leaves the phase no choice: the narrow one, which
// would like to lie on the border, must follow it. And a lattice runs on through
// containers: the second begins 130 mm along it.
func TestLatticePhaseFollows(t *testing.T) {
	p := Problem{
		Containers: []Container{{Width: 100}},
		Lattices:   []Lattice{{Axis: Y, Period: 40}},
		Parts: []Part{
			tiedAt(block(50, 20), upright, Tie{At: Pt{0, 0}}),
			tiedAt(block(50, 100), upright, Tie{At: Pt{0, 15}}),
		},
	}
	l, _, err := Search(context.Background(), p, Budget{Lanes: 1}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	judge(t, p, l)
	if len(l.Unplaced) > 0 || math.Abs(l.Phases[0]-15) > 1e-6 || astray(l.Placements[0].At.Y, 15, 40) > 1e-6 {
		t.Errorf("%+v", l)
	}
	p = Problem{
		Containers: []Container{{Width: 100, MaxLength: 70}, {Width: 100, Origin: Pt{X: 130}}},
		Lattices:   []Lattice{{Axis: X, Period: 100}},
		Parts: []Part{
			{Shape: block(60, 100), Poses: upright, Ties: []Tie{{}}, Containers: []int{0}},
			{Shape: block(60, 100), Poses: upright, Ties: []Tie{{}}, Containers: []int{1}},
		},
	}
	// The first at v from 0 to 10, the second at 100 + v - 130 + 100: from 70.
	l, _, err = Search(context.Background(), p, Budget{Rounds: 20, Lanes: 1}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	judge(t, p, l)
	if len(l.Unplaced) > 0 || math.Abs(l.Lengths[1]-130) > 1e-6 {
		t.Errorf("%+v", l)
	}
}

// tiedProblem draws parts on two lattices, some of them free, in one strip or
// two.
func tiedProblem(t *rapid.T) Problem {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	p := Problem{Containers: []Container{{Width: f("width", 300, 600), Origin: Pt{f("from", 0, 99), f("up", 0, 99)}}}}
	p.Lattices = []Lattice{{Axis: X, Period: f("along", 20, 150)}, {Axis: Y, Period: f("across", 10, 90)}}
	if rapid.Bool().Draw(t, "given") {
		p.Lattices[1].Phases = []float64{0, p.Lattices[1].Period / 2}
	}
	for i := range rapid.IntRange(2, 7).Draw(t, "parts") {
		w, h := f("w", 40, 250), f("h", 20, 180)
		part := Part{Shape: []Pt{{0, 0}, {w, 0}, {w, 0.7 * h}, {0.6 * w, h}, {0, 0.9 * h}}, Poses: upright}
		if rapid.Bool().Draw(t, "two ways") {
			part.Poses = []Orientation{{}, {Degrees: 180}, {Degrees: 180, Flip: true}}
		}
		back := make([]bool, len(part.Poses))
		for k := range back {
			back[k] = k > 0
		}
		switch rapid.IntRange(0, 3).Draw(t, fmt.Sprintf("ties of %d", i)) {
		case 1:
			part.Ties = []Tie{{Lattice: 0, At: Pt{f("x", 0, w), f("y", 0, h)}, Back: back}}
		case 2:
			part.Ties = []Tie{{Lattice: 1, At: Pt{f("x", 0, w), f("y", 0, h)}}}
		case 3:
			part.Ties = []Tie{{Lattice: 0, At: Pt{f("x", 0, w), 0}}, {Lattice: 1, At: Pt{0, f("y", 0, h)}, Back: back}}
		}
		p.Parts = append(p.Parts, part)
	}
	return p
}

// Whatever is tied lies on its lattice, in the first layout, after a search, and
// in every layout reported on the way; what is found is never worse than what
// was given to start from.
func TestLatticeProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := tiedProblem(rt)
		first, _, err := Search(context.Background(), p, Budget{Lanes: 2, Seed: 1}, nil, nil)
		if err != nil {
			rt.Fatal(err)
		}
		judge(t, p, first)
		if len(first.Unplaced) > 0 {
			rt.Fatalf("unplaced %v in a strip without end", first.Unplaced)
		}
		l, _, err := Search(context.Background(), p, Budget{Rounds: 30, Lanes: 2, Seed: 2}, &first, func(l Layout, _ Stats) { judge(t, p, l) })
		if err != nil {
			rt.Fatal(err)
		}
		judge(t, p, l)
		if l.Length > first.Length+slack { // as exactly as parts are held to lattices and edges
			rt.Fatalf("%v after %v", l.Length, first.Length)
		}
	})
}

func TestLatticeRefusals(t *testing.T) {
	sound := func() Problem {
		return Problem{
			Containers: []Container{{Width: 100}},
			Lattices:   []Lattice{{Axis: X, Period: 100}, {Axis: X, Period: 50}},
			Parts:      []Part{tiedAt(block(10, 10), endForEnd, Tie{Back: []bool{false, true}})},
		}
	}
	for name, spoil := range map[string]func(*Problem){
		"":                    func(*Problem) {},
		"no period":           func(p *Problem) { p.Lattices[0].Period = 0 },
		"an endless period":   func(p *Problem) { p.Lattices[0].Period = math.Inf(1) },
		"a third axis":        func(p *Problem) { p.Lattices[1].Axis = 2 },
		"a phase":             func(p *Problem) { p.Lattices[1].Phases = []float64{math.NaN()} },
		"no such lattice":     func(p *Problem) { p.Parts[0].Ties[0].Lattice = 2 },
		"two on one axis":     func(p *Problem) { p.Parts[0].Ties = []Tie{{Lattice: 0}, {Lattice: 1}} },
		"nowhere":             func(p *Problem) { p.Parts[0].Ties[0].At.X = math.NaN() },
		"a pose without back": func(p *Problem) { p.Parts[0].Ties[0].Back = []bool{true} },
		"an endless origin":   func(p *Problem) { p.Containers[0].Origin.X = math.Inf(-1) },
	} {
		p := sound()
		spoil(&p)
		if _, _, err := Search(context.Background(), p, Budget{}, nil, nil); (err == nil) != (name == "") {
			t.Errorf("%q: %v", name, err)
		}
	}
}
