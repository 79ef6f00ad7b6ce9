package camera

import (
	"math"
	"math/rand/v2"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/geom"
)

// setUp is a random table: six cards round a piece of 1.1 m, seen in one photo
// of 12 megapixels.
type setUp struct {
	truth Solution
	shots []Shot
	seen  []Seen
	tapes []Tape
}

func randomSetUp(r *rand.Rand, photos int, noise float64) setUp {
	var s setUp
	l := Lens{F: 2950 + 60*r.NormFloat64(), CX: 2015.5 + 8*r.NormFloat64(), CY: 1511.5 + 8*r.NormFloat64(), K1: 0.05 * (2*r.Float64() - 1), K2: 0.008}
	s.truth = Solution{Scale: 1 + 0.003*r.NormFloat64(), Stretch: 0.002 * r.NormFloat64(), Cards: map[cards.ID]Placed{}}
	for i, at := range []geom.Pt{{X: -600, Y: 270}, {X: 600, Y: -270}, {X: 600, Y: 270}, {X: -600, Y: -270}, {X: 0, Y: 300}, {X: 0, Y: -300}} {
		s.truth.Cards[cards.ID(i)] = Placed{At: at.Add(geom.Pt{X: 10 * r.NormFloat64(), Y: 10 * r.NormFloat64()}), Angle: 0.05 * r.NormFloat64()}
	}
	for i := range photos {
		s.truth.Views = append(s.truth.Views, Looking(l, geom.Pt{}, 1350, 0.15+0.35*r.Float64(), math.Pi/2+math.Pi*float64(i)+0.2*r.NormFloat64(), false))
		s.shots = append(s.shots, Shot{W: 4032, H: 3024})
		for id := cards.ID(0); id < 6; id++ {
			c := Seen{Photo: i, Card: id}
			for k, p := range cards.Corners() {
				q := s.truth.Views[i].Pixel(s.truth.On(id, p))
				c.Px[k] = q.Add(geom.Pt{X: noise * r.NormFloat64(), Y: noise * r.NormFloat64()})
			}
			s.seen = append(s.seen, c)
		}
	}
	for _, t := range [][2]cards.ID{{0, 1}, {2, 3}} {
		tape := Tape{A: t[0], B: t[1]}
		tape.Length = s.truth.taped(tape)
		s.tapes = append(s.tapes, tape)
	}
	return s
}

// worst compares distances between places on the table in the pixels of the
// first photo: how far, in mm, points up to 550 mm from the middle are out after
// the best turn and shift.
func (s setUp) worst(got Solution) float64 {
	var true_, found []geom.Pt
	for x := -500.0; x <= 500; x += 250 {
		for y := -200.0; y <= 200; y += 200 {
			p := geom.Pt{X: x, Y: y}
			q, ok := got.Views[0].Table(s.truth.Views[0].Pixel(p), 0)
			if !ok {
				return math.Inf(1)
			}
			true_, found = append(true_, p), append(found, q)
		}
	}
	return rigidMiss(true_, found)
}

// rigidMiss is the largest distance left after the best turn and shift.
func rigidMiss(a, b []geom.Pt) float64 {
	n := float64(len(a))
	var ma, mb geom.Pt
	for i := range a {
		ma, mb = ma.Add(a[i].Mul(1/n)), mb.Add(b[i].Mul(1/n))
	}
	var s, c float64
	for i := range a {
		u, v := a[i].Sub(ma), b[i].Sub(mb)
		s, c = s+v.Cross(u), c+v.Dot(u)
	}
	t := math.Atan2(s, c)
	worst := 0.0
	for i := range a {
		worst = max(worst, b[i].Sub(mb).Rot(t).Dist(a[i].Sub(ma)))
	}
	return worst
}

// Without noise everything is found again, the printer's scale and stretch
// among it.
func TestSolveExact(t *testing.T) {
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(seed, 1))
		s := randomSetUp(r, 1+int(seed%2), 0)
		got, ok := Solve(s.shots, s.seen, s.tapes)
		if !ok {
			t.Fatalf("seed %d: nothing found", seed)
		}
		// The weak expectations pull by a little, which is why this is not nothing.
		if w := s.worst(got); w > 0.02 || got.RMS > 0.01 {
			t.Errorf("seed %d: %.4f mm out, residual %.4f px", seed, w, got.RMS)
		}
		if d := got.Scale - s.truth.Scale; math.Abs(d) > 3e-5 {
			t.Errorf("seed %d: printed scale %.5f out", seed, d)
		}
		if d := got.Stretch - s.truth.Stretch; math.Abs(d) > 1e-4 {
			t.Errorf("seed %d: printed stretch %.5f out", seed, d)
		}
	}
}

// With the noise of real corner marks and tapes the map stays true.
func TestSolveNoisy(t *testing.T) {
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 2))
		s := randomSetUp(r, 1+int(seed%3), 0.05)
		for i := range s.tapes {
			s.tapes[i].Length = math.Round(s.tapes[i].Length + 0.4*r.NormFloat64())
		}
		got, ok := Solve(s.shots, s.seen, s.tapes)
		if w := s.worst(got); !ok || w > 0.6 {
			t.Errorf("seed %d: %.3f mm out over 1 m, residual %.3f px", seed, w, got.RMS)
		}
	}
}

func TestConnected(t *testing.T) {
	seen := []Seen{{Photo: 0, Card: 0}, {Photo: 0, Card: 1}, {Photo: 1, Card: 2}, {Photo: 2, Card: 1}}
	if got := Connected(seen, 3); !got[0] || got[1] || !got[2] {
		t.Error(got)
	}
}

func BenchmarkSolve(b *testing.B) {
	s := randomSetUp(rand.New(rand.NewPCG(1, 1)), 2, 0.05)
	for b.Loop() {
		Solve(s.shots, s.seen, s.tapes)
	}
}
