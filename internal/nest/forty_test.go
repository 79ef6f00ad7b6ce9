package nest

import (
	"math"
	"slices"
	"testing"
)

// forty are garment-like pieces of our own, ten shapes four times each: long
// panels with a curved side, yokes, bands, cuffs, pockets.
func forty() Problem {
	panel := func(long, wide, curve float64) []Pt {
		out := []Pt{{0, 0}, {long, 0}, {long, wide}}
		for k := 1; k < 8; k++ {
			x := 1 - float64(k)/8
			out = append(out, Pt{x * long, wide - float64(curve*math.Sin(math.Pi*x))})
		}
		return append(out, Pt{0, wide})
	}
	p := Problem{Containers: []Container{{Width: 1500}}}
	for _, shape := range [][]Pt{
		panel(1020, 310, 40), panel(1040, 380, -50), panel(420, 240, 30), panel(380, 210, -35), rect(760, 90),
		rect(260, 110), panel(180, 160, 20), {{0, 0}, {520, 60}, {520, 190}, {0, 150}}, rect(60, 420), panel(300, 80, 12),
	} {
		part := Part{Shape: shape, Poses: []Orientation{{}, {Degrees: 180}}}
		p.Parts = append(p.Parts, part, part, part, part)
	}
	return p
}

// A fixed number of rounds must reach a density, whatever the machine.
func TestFortyPieces(t *testing.T) {
	l, st := solve(t, forty(), Budget{Rounds: 600, Lanes: 2, Seed: 1})
	if st.Density < 0.88 {
		t.Errorf("density %.3f, length %.0f", st.Density, l.Length)
	}
	t.Logf("density %.2f %%, %d positions weighed", 100*st.Density, st.Tried)
}

// Moving pieces allocates nothing once the fences are there.
func TestMovesAllocateNothing(t *testing.T) {
	p := forty()
	f := newField(&p)
	f.cover()
	spots := f.firstLayout(t.Context(), slices.Repeat([]spot{nowhere}, len(f.items)), 1, 1, orders)
	m := newMess(f, spots)
	s := newSolver(t.Context(), f, m, Budget{Rounds: 1 << 40}, 0)
	s.level()
	m.limit[0] *= 0.9
	for i, sp := range m.spots {
		m.put(i, m.clamp(i, sp))
	}
	m.judgeAll()
	for range 200 {
		s.pass(m)
	}
	if m.loss() == 0 {
		t.Fatal("nothing quarrels, so nothing would move")
	}
	if n := testing.AllocsPerRun(50, func() { s.pass(m) }); n > 0 {
		t.Errorf("a pass allocates %v times", n)
	}
}

func BenchmarkFirstLayoutFortyPieces(b *testing.B) {
	p := forty()
	for b.Loop() {
		if _, _, err := Search(b.Context(), p, Budget{Lanes: 2, Seed: 1}, nil, nil); err != nil {
			b.Fatal(err)
		}
	}
}
