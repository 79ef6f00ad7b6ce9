package needs

import (
	"testing"

	"pgregory.net/rapid"
)

// Rows of the extension service's table, yards.
func TestYardage(t *testing.T) {
	const yard = millimetresYard
	for _, c := range []struct{ yards, from, to, want float64 }{
		{2, 36, 60, 1.25}, // 2 yd of 35 to 36 in serve like 1 1/4 yd of 58 to 60 in
		{2, 35, 58, 1.25},
		{2.5, 36, 45, 2.125},
		{5, 36, 54, 3.125},
		{0.875, 66, 36, 1.75},
		{1.875, 36, 60, 1.125}, // half way between rows
	} {
		got, ok := Yardage(c.yards*yard, c.from*inch, c.to*inch)
		if !ok {
			t.Errorf("%v: not in the table", c)
		}
		near(t, "yards", got/yard, c.want, 1e-9)
	}
	for _, c := range [][3]float64{{9, 36, 60}, {1, 36, 60}, {2, 30, 60}, {2, 36, 72}} {
		if got, ok := Yardage(c[0]*yard, c[1]*inch, c[2]*inch); ok {
			t.Errorf("%v gives %g yd beyond the table", c, got/yard)
		}
	}
}

// Going to another width and back is the same length, and wider cloth never
// needs more.
func TestYardageBackAndForth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1.75, 5).Draw(t, "yards") * millimetresYard
		to := rapid.Float64Range(35, 66).Draw(t, "width") * inch
		other, ok := Yardage(length, 36*inch, to)
		if !ok {
			t.Skip("between the widths of the table")
		}
		back, ok := Yardage(other, to, 36*inch)
		if !ok || back-length > 1e-6 || length-back > 1e-6 {
			t.Fatalf("%g mm became %g and again %g", length, other, back)
		}
		if other > length+1e-9 {
			t.Fatalf("wider cloth needs %g mm instead of %g", other, length)
		}
	})
}
