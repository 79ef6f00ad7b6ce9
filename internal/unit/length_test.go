package unit

import (
	"math"
	"testing"
)

func TestString(t *testing.T) {
	for _, c := range []struct {
		l    Length
		want string
	}{
		{Length{}, "0 mm"},
		{MM(6), "6 mm"},
		{Of(34.5, Inch), "34 1/2 in"},
		{MM(876.3).In(Inch), "34 1/2 in"},
		{typed(t, "88,5 cm", ""), "88,5 cm"},
		{typed(t, " 34 ½\" ", ""), `34 ½"`},
		{typed(t, "90 ", Centimetre), "90 cm"},
		{typed(t, "88,5 cm", "").In(Millimetre), "885 mm"},
		{typed(t, "88,5 cm", "").In(Centimetre), "88,5 cm"},
		{MM(5).In("ell"), "5 mm"},
	} {
		if got := c.l.String(); got != c.want {
			t.Errorf("String() = %q, want %q", got, c.want)
		}
	}
}

func typed(t *testing.T, text string, assumed Unit) Length {
	t.Helper()
	l, err := Parse(text, assumed)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		unit Unit
		want string
	}{
		{6, Millimetre, "6 mm"}, {6.5, Millimetre, "6.5 mm"}, {6.04, Millimetre, "6 mm"},
		{885, Centimetre, "88.5 cm"}, {440, Centimetre, "44 cm"}, {-25, Centimetre, "-2.5 cm"},
		{0.2, Centimetre, "0 cm"}, {-0.2, Centimetre, "0 cm"}, {1000, Centimetre, "100 cm"},
		{1520, Metre, "1.52 m"}, {2600, Metre, "2.60 m"}, {-1, Metre, "0.00 m"},
		{876.3, Inch, "34 1/2 in"}, {25.4, Inch, "1 in"}, {12.7, Inch, "1/2 in"}, {-12.7, Inch, "-1/2 in"},
		{3.175, Inch, "1/8 in"}, {1.5875, Inch, "1/16 in"}, {25.4 * 2.99, Inch, "3 in"},
		{0.5, Inch, "0 in"}, {-0.5, Inch, "0 in"}, {25.4 * 5.6875, Inch, "5 11/16 in"},
		{2057.4, Yard, "2 1/4 yd"}, {914.4, Foot, "3 ft"}, {1520, Yard, "1.66 yd"}, {1000, Foot, "3.28 ft"},
		{7, "ell", "7 mm"}, {math.NaN(), Centimetre, "nan cm"}, {math.Inf(1), Inch, "+inf in"},
	} {
		if got := Format(c.mm, c.unit); got != c.want {
			t.Errorf("Format(%v, %s) = %q, want %q", c.mm, c.unit, got, c.want)
		}
	}
}

func TestUnits(t *testing.T) {
	systems := map[Unit]System{
		Millimetre: Metric, Centimetre: Metric, Metre: Metric,
		Inch: Imperial, Foot: Imperial, Yard: Imperial, "ell": "", "": "",
	}
	for u, want := range systems {
		if u.System() != want || u.Valid() != (want != "") {
			t.Errorf("%q: system %q, valid %v", u, u.System(), u.Valid())
		}
	}
	if !(Length{}).IsZero() || MM(0.001).IsZero() || (Length{}).Unit() != Millimetre {
		t.Error("the zero Length is 0 mm and only it is zero")
	}
	if l := Of(math.NaN(), Inch); !math.IsNaN(l.MM()) {
		t.Error("Of keeps NaN for a later check to see")
	}
	defer func() {
		if recover() == nil {
			t.Error("Of with an unknown unit should panic")
		}
	}()
	Of(1, "ell")
}
