package geom

import (
	"math"
	"testing"
)

// y = a·x² has the curvature 2a/(1+4a²x²)^(3/2) (the textbook formula
// y″/(1+y′²)^(3/2) for a graph).
func TestCurvatureKnown(t *testing.T) {
	for _, a := range []float64{1e-4, 0.01, -0.3} {
		s := parabola(a, -50, 120)[0]
		for k := range 21 {
			u := float64(k) / 20
			x := s.At(u).X
			near(t, "curvature of a parabola", s.Curvature(u), 2*a/math.Pow(1+4*a*a*x*x, 1.5), 1e-9)
			near(t, "walked back", s.Reverse().Curvature(1-u), -s.Curvature(u), 1e-9)
		}
	}
	for _, s := range arc(Pt{3, 4}, 80, 0.3, 5, 64) {
		near(t, "curvature of a circle", s.Curvature(0.37), 1.0/80, 1e-6)
	}
	if k := Line(Pt{}, Pt{5, 1}).Curvature(0.5); k != 0 {
		t.Errorf("a straight line has the curvature %g", k)
	}
	if k := Cubic(Pt{}, Pt{}, Pt{5, 1}, Pt{9, 9}).Curvature(0); k != 0 {
		t.Errorf("where the derivative vanishes the curvature is %g", k)
	}
}

func TestTurnAtJoints(t *testing.T) {
	here := Line(Pt{10, 0}, Pt{10, 0})
	c := Curve{Line(Pt{}, Pt{10, 0}), here, Line(Pt{10, 0}, Pt{10, 20}), Line(Pt{10, 20}, Pt{30, 20}), Line(Pt{30, 20}, Pt{40, 20})}
	got := c.TurnAtJoints()
	want := []Joint{{10, math.Pi / 2}, {30, -math.Pi / 2}, {50, 0}}
	if len(got) != len(want) {
		t.Fatalf("joints %v, want %v", got, want)
	}
	for i := range got {
		near(t, "place of a joint", got[i].At, want[i].At, 1e-9)
		near(t, "turn at a joint", got[i].Turn, want[i].Turn, 1e-12)
	}
	if k := c.Kinks(1); len(k) != 2 || k[0] != 10 || k[1] != 30 {
		t.Errorf("kinks at %v", k)
	}
	if k := circle(50).Kinks(1e-9); len(k) != 0 {
		t.Errorf("a circle has kinks at %v", k)
	}
	// The turns of a closed polygon's corners and the curvature of what lies
	// between add up to one whole turn (Hopf's Umlaufsatz).
	var sum float64
	sq := Polyline(append(square(10), Pt{0, 0}, Pt{10, 0})...)
	for _, j := range sq.TurnAtJoints() {
		sum += j.Turn
	}
	near(t, "turns round a square", sum, 2*math.Pi, 1e-12)
}
