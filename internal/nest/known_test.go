package nest

import (
	"context"
	"encoding/json"
	"math"
	"testing"
)

func rect(w, h float64) []Pt { return []Pt{{0, 0}, {w, 0}, {w, h}, {0, h}} }

func still(shape []Pt) Part { return Part{Shape: shape, Poses: []Orientation{{}}} }

func quarters(shape []Pt) Part {
	return Part{Shape: shape, Poses: []Orientation{{}, {Degrees: 90}, {Degrees: 180}, {Degrees: 270}}}
}

// solve runs a search, judges it and wants every part placed.
func solve(t *testing.T, p Problem, b Budget) (Layout, Stats) {
	t.Helper()
	l, st, err := Search(context.Background(), p, b, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	judge(t, p, l)
	if len(l.Unplaced) > 0 {
		t.Errorf("unplaced: %v", l.Unplaced)
	}
	if l.Length < st.Bound-1e-6 {
		t.Errorf("length %v is less than the bound %v", l.Length, st.Bound)
	}
	return l, st
}

// A rectangle of 1000 x 600 cut through and through into 9 rectangles goes
// back into a strip 600 wide (and a hair for the clearance): 1000 long.
func TestCutRectangle(t *testing.T) {
	var parts []Part
	for _, r := range [][2]float64{
		{400, 350}, {400, 250}, // column of 400
		{250, 200}, {250, 400}, // column of 250
		{350, 150}, {150, 450}, {200, 100}, {200, 350}, // column of 350
	} {
		parts = append(parts, still(rect(r[0], r[1])))
	}
	p := Problem{Containers: []Container{{Width: 600.05}}, Parts: parts}
	l, st := solve(t, p, Budget{Rounds: 1500, Lanes: 2, Seed: 3})
	if l.Length > 1000*1.01 {
		t.Errorf("length %.2f, 1000 is possible", l.Length)
	}
	t.Logf("length %.3f, density %.2f %%, %s after %d rounds", l.Length, 100*st.Density, st.Stopped, st.Rounds)
}

// The seven pieces of a tangram (side 400) make their square. With 5 mm to
// spare across, a length within 8 % of 400 must be found.
func TestTangram(t *testing.T) {
	any8 := func(shape []Pt, flip bool) Part {
		p := Part{Shape: shape}
		for k := range 8 {
			p.Poses = append(p.Poses, Orientation{Degrees: float64(45 * k)})
			if flip {
				p.Poses = append(p.Poses, Orientation{Degrees: float64(45 * k), Flip: true})
			}
		}
		return p
	}
	tri := func(a, b, c Pt) []Pt { return []Pt{a, b, c} }
	parts := []Part{
		any8(tri(Pt{0, 0}, Pt{200, 200}, Pt{0, 400}), false),
		any8(tri(Pt{0, 0}, Pt{400, 0}, Pt{200, 200}), false),
		any8(tri(Pt{200, 400}, Pt{400, 200}, Pt{400, 400}), false),
		any8(tri(Pt{300, 100}, Pt{400, 0}, Pt{400, 200}), false),
		any8(tri(Pt{200, 200}, Pt{300, 300}, Pt{100, 300}), false),
		any8([]Pt{{200, 200}, {300, 100}, {400, 200}, {300, 300}}, false),
		any8([]Pt{{0, 400}, {100, 300}, {300, 300}, {200, 400}}, true),
	}
	var area float64
	for _, q := range parts {
		area += signedArea(q.Shape)
	}
	if math.Abs(area-160000) > 1e-6 {
		t.Fatalf("the pieces cover %v", area)
	}
	l, _ := solve(t, Problem{Containers: []Container{{Width: 405}}, Parts: parts}, Budget{Rounds: 3000, Lanes: 2, Seed: 1})
	if l.Length > 400*1.08 {
		t.Errorf("length %.1f, 400 is possible", l.Length)
	}
	t.Logf("length %.2f", l.Length)
}

// A triangle and its half turn lie in each other's slope: two right triangles
// of 400 x 300 fill a rectangle.
func TestTwoTriangles(t *testing.T) {
	tri := Part{Shape: []Pt{{0, 0}, {400, 0}, {0, 300}}, Poses: []Orientation{{}, {Degrees: 180}}}
	l, _ := solve(t, Problem{Containers: []Container{{Width: 300}}, Parts: []Part{tri, tri}}, Budget{Lanes: 1})
	// The clearance c across the slope costs c/sin of its angle: 0.005 * 5/3.
	if want := 400 + 0.005*5/3; math.Abs(l.Length-want) > 0.01 {
		t.Errorf("length %.4f, want %.4f", l.Length, want)
	}
}

// A block goes into the bay of a U of the same width.
func TestConcavity(t *testing.T) {
	u := still([]Pt{{0, 0}, {300, 0}, {300, 100}, {100, 100}, {100, 200}, {300, 200}, {300, 300}, {0, 300}})
	block := still(rect(200, 99))
	l, _ := solve(t, Problem{Containers: []Container{{Width: 300}}, Parts: []Part{u, block}}, Budget{Rounds: 50, Lanes: 1})
	if l.Length > 300.02 {
		t.Errorf("length %.3f, want 300: the block fits the bay", l.Length)
	}
}

// A pinned part stands exactly where it must, and the rest around it.
func TestPins(t *testing.T) {
	half := still([]Pt{{0, 10}, {500, 10}, {450, 200}, {0, 260}})
	half.Pins = []Pin{{Axis: Y, Of: Low, Value: 0}}
	far := still(rect(100, 100))
	far.Pins = []Pin{{Axis: X, Of: High, Value: 900}, {Axis: Y, Of: Origin, Value: 250}}
	parts := []Part{quarters(rect(333, 77)), half, far, half, quarters(rect(210, 150))}
	for _, rounds := range []int{0, 200} {
		l, _ := solve(t, Problem{Containers: []Container{{Width: 400}}, Parts: parts}, Budget{Rounds: rounds, Lanes: 2})
		for _, pl := range l.Placements {
			if pl.Part == 1 && pl.At.Y != -10 {
				t.Errorf("the half lies at %v, not on the edge", pl.At.Y)
			}
		}
	}
}

// Hazards are kept clear, and a container may be any polygon: here an L.
func TestOutlineAndHazards(t *testing.T) {
	l := Container{Outline: []Pt{{0, 0}, {1000, 0}, {1000, 300}, {420, 320}, {400, 800}, {0, 800}}}
	p := Problem{Containers: []Container{l}, Clearance: 2,
		Hazards: []Hazard{{Container: 0, Shape: rect(60, 60)}, {Container: 0, Shape: []Pt{{500, 100}, {560, 130}, {500, 160}}}}}
	for range 6 {
		p.Parts = append(p.Parts, quarters(rect(300, 130)))
	}
	solve(t, p, Budget{Lanes: 1})
	solve(t, p, Budget{Rounds: 300, Lanes: 2})
}

// What cannot lie anywhere is left over, the rest is placed, and a short strip
// gets what the search can fit.
func TestUnplaced(t *testing.T) {
	p := Problem{Containers: []Container{{Width: 300, MaxLength: 1000}},
		Parts: []Part{still(rect(100, 400)), still(rect(900, 200)), still(rect(1001, 10)), still(rect(500, 50))}}
	l, _, err := Search(context.Background(), p, Budget{Rounds: 100, Lanes: 1}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	judge(t, p, l)
	if len(l.Unplaced) != 2 || l.Unplaced[0] != 0 || l.Unplaced[1] != 2 {
		t.Errorf("unplaced %v, want 0 and 2", l.Unplaced)
	}
}

// Six blocks of which the first layout cannot place all, since largest first
// wastes the strip's end; the search must.
func TestTightStrip(t *testing.T) {
	var parts []Part
	for _, r := range [][2]float64{{600, 100}, {400, 100}, {500, 100}, {500, 100}, {300, 100}, {700, 100}} {
		parts = append(parts, still(rect(r[0], r[1])))
	}
	p := Problem{Containers: []Container{{Width: 300.1, MaxLength: 1002}}, Parts: parts}
	solve(t, p, Budget{Rounds: 3000, Lanes: 2, Seed: 5})
}

// Same seed, lanes and rounds: same bytes. The context ends a search with what
// it has.
func TestRepeatable(t *testing.T) {
	for _, n := range []int{14, briefItems + 1} {
		var parts []Part
		for k := range n {
			parts = append(parts, quarters([]Pt{{0, 0}, {100 + 20*float64(k%5), 0}, {90, 60 + 10*float64(k%4)}, {0, 120}}))
		}
		p := Problem{Containers: []Container{{Width: 400}}, Parts: parts}
		var first []byte
		for range 3 {
			l, st := solve(t, p, Budget{Rounds: 150, Lanes: 3, Seed: 9})
			data, err := json.Marshal([]any{l, st})
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = data
			} else if string(first) != string(data) {
				t.Fatalf("two results:\n%s\n%s", first, data)
			}
		}
	}
}

func TestStops(t *testing.T) {
	var parts []Part
	for k := range 12 {
		parts = append(parts, quarters([]Pt{{0, 0}, {100 + 20*float64(k%5), 0}, {90, 60 + 10*float64(k%4)}, {0, 120}}))
	}
	p := Problem{Containers: []Container{{Width: 400}}, Parts: parts}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var last Layout
	shorter := math.Inf(1)
	l, st, err := Search(ctx, p, Budget{Rounds: 1 << 40, Lanes: 2}, nil, func(l Layout, st Stats) {
		judge(t, p, l)
		if l.Length > shorter {
			t.Errorf("a longer layout was reported: %v after %v", l.Length, shorter)
		}
		shorter, last = l.Length, l
		if st.Rounds > 30 {
			stop()
		}
	})
	if err != nil || st.Stopped != StoppedContext || l.Length != last.Length {
		t.Errorf("stopped %q, length %v, last reported %v, error %v", st.Stopped, l.Length, last.Length, err)
	}
	// A layout given to start from is kept or bettered.
	again, _, err := Search(context.Background(), p, Budget{Lanes: 1}, &l, nil)
	if err != nil || again.Length > l.Length+1e-6 {
		t.Errorf("from a layout of %v came one of %v, error %v", l.Length, again.Length, err)
	}
	judge(t, p, again)
	if _, st, _ := Search(context.Background(), Problem{Containers: p.Containers, Parts: []Part{still(rect(500, 300))}}, Budget{Rounds: 1000}, nil, nil); st.Stopped != StoppedProved || st.Rounds != 0 {
		t.Errorf("one part: stopped %q after %d rounds", st.Stopped, st.Rounds)
	}
}

func TestMalformed(t *testing.T) {
	good := still(rect(10, 10))
	strip := []Container{{Width: 100}}
	cases := map[string]Problem{
		"no container":      {Parts: []Part{good}},
		"no width":          {Containers: []Container{{}}, Parts: []Part{good}},
		"NaN clearance":     {Containers: strip, Clearance: math.NaN()},
		"two points":        {Containers: strip, Parts: []Part{still([]Pt{{0, 0}, {1, 1}})}},
		"clockwise":         {Containers: strip, Parts: []Part{still([]Pt{{0, 0}, {0, 1}, {1, 1}})}},
		"bow tie":           {Containers: strip, Parts: []Part{still([]Pt{{0, 0}, {4, 4}, {4, 0}, {0, 3}, {-5, 1}})}},
		"infinite point":    {Containers: strip, Parts: []Part{still([]Pt{{0, 0}, {math.Inf(1), 0}, {1, 1}})}},
		"no pose":           {Containers: strip, Parts: []Part{{Shape: rect(1, 1)}}},
		"steep tilt":        {Containers: strip, Parts: []Part{{Shape: rect(1, 1), Poses: good.Poses, Tilt: 50}}},
		"unknown container": {Containers: strip, Parts: []Part{{Shape: rect(1, 1), Poses: good.Poses, Containers: []int{1}}}},
		"two pins":          {Containers: strip, Parts: []Part{{Shape: rect(1, 1), Poses: good.Poses, Pins: []Pin{{Axis: X}, {Axis: X}}}}},
		"hazard nowhere":    {Containers: strip, Hazards: []Hazard{{Container: 2, Shape: rect(1, 1)}}},
	}
	for name, p := range cases {
		if _, _, err := Search(context.Background(), p, Budget{}, nil, nil); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

// Tilt is used where it helps and never passed.
func TestTilt(t *testing.T) {
	tall := still(rect(40, 300))
	tall.Tilt = 8
	// 300 high does not stand in 298 wide, but leans in.
	l, _ := solve(t, Problem{Containers: []Container{{Width: 304}}, Parts: []Part{tall, tall, tall}}, Budget{Rounds: 20, Lanes: 1})
	if len(l.Placements) != 3 {
		t.Errorf("placed %d", len(l.Placements))
	}
}
