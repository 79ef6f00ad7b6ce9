package scene

import (
	"math"
	"os"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/geom"
)

// A ray of the renderer meets the table where the lens draws that place: the two
// directions of the model are written separately.
func TestRayIsTheLensBackwards(t *testing.T) {
	s, _ := Standard(3, Condition{Panel: 0, Tilt: 25, Azimuth: 200, K1: -0.05, MorePixel: 2000, Table: Oak})
	for x := -400.0; x <= 400; x += 100 {
		for y := -500.0; y <= 500; y += 100 {
			p := geom.Pt{X: x, Y: y}
			if d := s.hit(s.View.Pixel(p)).at(0).Dist(p); d > 1e-6 {
				t.Errorf("%v comes back %.2g mm off", p, d)
			}
		}
	}
}

// The cells answer as the polygon itself does.
func TestCellsAgreeWithPolygon(t *testing.T) {
	s, truth := Standard(5, Condition{Panel: 0, MorePixel: 1200, Table: Oak})
	c := newCells(s.Outline, s.Ink)
	lo, hi := geom.BoundsOf(s.Outline)
	for x := lo.X - 6; x < hi.X+6; x += 3.37 {
		for y := lo.Y - 6; y < hi.Y+6; y += 3.91 {
			p := geom.Pt{X: x, Y: y}
			if got, want := c.in(p), geom.Inside(s.Outline, p); got != want {
				t.Fatalf("%v: inside is %v", p, got)
			}
		}
	}
	for _, v := range truth.Vs {
		if c.in(v) {
			t.Errorf("the mouth of a notch at %v is paper", v)
		}
	}
}

// Every card's corner marks are drawn where the scene says.
func TestCardsLieWhereTheyShould(t *testing.T) {
	s, _ := Standard(9, Condition{Panel: 2, Tilt: 10, MorePixel: 1600, Table: Cloth})
	prints, err := Prints(4, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	s.Printed(prints)
	s.cells, s.grain = newCells(s.Outline, s.Ink), newRoughness(1)
	for _, c := range s.Cards {
		for _, p := range cards.Corners() {
			for _, d := range []geom.Pt{{X: 3, Y: 3}, {X: -3, Y: 3}, {X: -3, Y: -3}, {X: 3, Y: -3}} {
				at := c.At.Add(p.Add(d).Rot(c.Angle))
				got, _ := s.surface(s.hit(s.View.Pixel(at)))
				if dark := got[0] < 0.3; dark != (d.X == d.Y) {
					t.Errorf("card %s, corner %v%+v: %.2f", c.ID, p, d, got[0])
				}
			}
		}
	}
}

// Rendered pictures are written to GUSSET_LOOK, to be looked at.
func TestLook(t *testing.T) {
	dir := os.Getenv("GUSSET_LOOK")
	if dir == "" {
		t.Skip("set GUSSET_LOOK to a folder to look at rendered photos")
	}
	prints, err := Prints(6, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for i := range 3 {
		s, _ := Standard(uint64(i), Condition{Panel: i, Tilt: 15 * float64(i), Azimuth: 200, K1: 0.05, MorePixel: 1600, Table: []Light{Oak, Cloth, Grey}[i], Wood: math.Max(0, 0.4-float64(i)), Shadow: 0.35})
		s.Printed(prints)
		data, err := s.Render()
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(dir+"/scene"+string(rune('0'+i))+".jpg", data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}
