package geom

import (
	"testing"

	"pgregory.net/rapid"
)

func TestExtendKnown(t *testing.T) {
	got := Polyline(Pt{0, 0}, Pt{10, 0}, Pt{10, 5}).Extend(3, 4)
	if len(got) != 2 || got.Start() != (Pt{-3, 0}) || got.End() != (Pt{10, 9}) {
		t.Errorf("an angle extended by 3 and 4: %v", got)
	}
	l := Line(Pt{0, 0}, Pt{0, 10})
	if got := (Curve{l}).Extend(-1, 0); len(got) != 1 || got[0] != l {
		t.Errorf("extended by nothing: %v", got)
	}
	if got := (Curve{l}).Extend(1, 2); len(got) != 1 || got.Start() != (Pt{0, -1}) || got.End() != (Pt{0, 12}) {
		t.Errorf("one line at both ends: %v", got)
	}
	if got := Curve(nil).Extend(1, 1); got != nil {
		t.Errorf("nothing extended: %v", got)
	}
	z := Curve{Line(Pt{1, 1}, Pt{1, 1})}
	if got := z.Extend(1, 1); len(got) != 1 || got[0] != z[0] {
		t.Errorf("a point has no direction to be extended in: %v", got)
	}
}

func TestExtend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := dice(t)
		c := smoothEdge(r)
		was := append(Curve(nil), c...)
		a, b := between(r, 0.1, 50), between(r, 0.1, 50)
		e := c.Extend(a, b)
		for i := range c {
			if c[i] != was[i] {
				t.Fatal("the curve itself was changed")
			}
		}
		if d := e.Length() - c.Length() - a - b; d > 1e-6 || d < -1e-6 {
			t.Fatalf("extended by %g and %g it is %g too long", a, b, d)
		}
		if k := e.Kinks(1e-6); len(k) > len(c.Kinks(1e-6)) {
			t.Fatalf("kinks at %v", k)
		}
		mid := e.Between(a, a+c.Length())
		if mid.Start().Dist(c.Start()) > 1e-6 || mid.End().Dist(c.End()) > 1e-6 {
			t.Fatal("the curve is not the middle of its extension")
		}
		want := c.Start().Sub(c.StartTangent().Mul(a))
		if e.Start().Dist(want) > 1e-9 || e.End().Dist(c.End().Add(c.EndTangent().Mul(b))) > 1e-9 {
			t.Fatal("an end is not on its tangent")
		}
	})
}
