package web

import (
	"testing"

	"gusset/internal/unit"
)

// Lengths of cloth are told in yards to those who measure in inches: because they
// have chosen so, or because the docket is written so and they have not.
func TestClothLengths(t *testing.T) {
	written, err := unit.Parse("60 in", "")
	if err != nil {
		t.Fatal(err)
	}
	// A yard is 0.9144 m (international yard and pound agreement, 1959).
	for _, c := range []struct {
		who       reader
		docket    unit.Unit
		yard, own string
	}{
		{reader{Lang: "en"}, unit.Centimetre, "1.37 m", "60 in"},
		{reader{Lang: "en"}, unit.Inch, "1 1/2 yd", "60 in"},
		{reader{Lang: "en", Unit: unit.Centimetre}, unit.Inch, "1.37 m", "152.4 cm"},
		{reader{Lang: "de", Unit: unit.Centimetre}, unit.Inch, "1,37 m", "152,4 cm"},
		{reader{Lang: "en", Unit: unit.Inch}, unit.Centimetre, "1 1/2 yd", "60 in"},
	} {
		if got := c.who.M(1.5*914.4, c.docket); got != c.yard {
			t.Errorf("%+v, docket in %s: %s, want %s", c.who, c.docket, got, c.yard)
		}
		if got := c.who.Q(written, c.docket); got != c.own {
			t.Errorf("%+v: %s, want %s", c.who, got, c.own)
		}
	}
}
