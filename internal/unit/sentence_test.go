package unit

import "testing"

// 25.4 mm are an inch (by definition, ISO 80000-3), so 6 mm are 3.8 sixteenths and
// 40 mm 25.2.
func TestSentence(t *testing.T) {
	for _, c := range []struct {
		text string
		unit Unit
		want string
	}{
		{"topstitch, two rows 6 mm apart", Inch, "topstitch, two rows 1/4 in apart"},
		{"fold 40 mm, then 2.5cm", Yard, "fold 1 9/16 in, then 1 in"},
		{"roll 1 mm to the inside", Inch, "roll 1/16 in to the inside"},
		{"a gap of 0.5 mm", Inch, "a gap of 0.5 mm"},
		{"1 1/2 in deep, 3 mmm wide", Inch, "1 1/2 in deep, 3 mmm wide"},
		{"6 mm", Centimetre, "6 mm"},
	} {
		if got := Sentence(c.text, c.unit); got != c.want {
			t.Errorf("%q in %s: %q, want %q", c.text, c.unit, got, c.want)
		}
	}
}
