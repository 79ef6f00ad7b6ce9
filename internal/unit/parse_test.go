package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Known lengths. The factors are exact by NIST Special Publication 811 (2008),
// appendix B.6 and B.8: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 yd = 0.9144 m. The
// paper sizes are those of ANSI/ASME Y14.1 (Letter, Legal, Ledger) in both
// units; a yard of 36 in and a foot of 12 in follow from the same table.
var known = []struct {
	text    string
	assumed Unit
	mm      float64
	unit    Unit
}{
	{"1 in", "", 25.4, Inch},
	{"1 ft", "", 304.8, Foot},
	{"1 yd", "", 914.4, Yard},
	{"36 in", "", 914.4, Inch},
	{"8 1/2 in", "", 215.9, Inch}, // Letter
	{`8½"`, "", 215.9, Inch},
	{"11 in", "", 279.4, Inch},
	{"14 in", "", 355.6, Inch}, // Legal
	{"17in", "", 431.8, Inch},  // Ledger
	{"34 1/2 in", "", 876.3, Inch},
	{"34-1/2 in", "", 876.3, Inch},
	{"34.5in", "", 876.3, Inch},
	{`34 1/2"`, "", 876.3, Inch},
	{"34 ½ inches", "", 876.3, Inch},
	{"34 1⁄2 ″", "", 876.3, Inch},
	{"2 1/4 yd", "", 2057.4, Yard},
	{"2¼ yards", "", 2057.4, Yard},
	{"3 ft", "", 914.4, Foot},
	{"3'", "", 914.4, Foot},
	{"⅛ in", "", 3.175, Inch},
	{"⅜ in", "", 9.525, Inch},
	{"⅝ in", "", 15.875, Inch},
	{"⅞ in", "", 22.225, Inch},
	{"¾ in", "", 19.05, Inch},
	{"⅓ yd", "", 304.8, Yard},
	{"2/3 yd", "", 609.6, Yard},
	{"88,5 cm", "", 885, Centimetre},
	{"88.5 cm", "", 885, Centimetre},
	{"8.85 cm", "", 88.5, Centimetre},
	{"6 mm", "", 6, Millimetre},
	{"6mm", "", 6, Millimetre},
	{"1.2 m", "", 1200, Metre},
	{"1,2 M", "", 1200, Metre},
	{"1 1/2 m", "", 1500, Metre},
	{"12 Centimetres", "", 120, Centimetre},
	{"12 centimeters", "", 120, Centimetre},
	{"+2.5 cm", "", 25, Centimetre},
	{"-1/2 in", "", -12.7, Inch},
	{"−1/2 in", "", -12.7, Inch},
	{"- 2 cm", "", -20, Centimetre},
	{"-0 cm", "", 0, Centimetre},
	{".5 in", "", 12.7, Inch},
	{",5 cm", "", 5, Centimetre},
	{" 7 \t cm ", "", 70, Centimetre},
	{"7\u00a0cm", "", 70, Centimetre},
	{"90", Centimetre, 900, Centimetre},
	{"36 1/2", Inch, 927.1, Inch},
	{"90 mm", Centimetre, 90, Millimetre},
	{"100 m", "", 100000, Metre},
	{"1.000 mm", "", 1, Millimetre},
}

func TestParse(t *testing.T) {
	for _, c := range known {
		l, err := Parse(c.text, c.assumed)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
			continue
		}
		if l.MM() != c.mm || l.Unit() != c.unit || math.Signbit(l.MM()) != (c.mm < 0) {
			t.Errorf("Parse(%q) = %v mm in %s, want %v mm in %s", c.text, l.MM(), l.Unit(), c.mm, c.unit)
		}
	}
}

// Texts that are no length, where the fault is, and a word the message has.
var refused = []struct {
	text    string
	assumed Unit
	at      int
	want    string
}{
	{"", "", 0, "a number"},
	{"   ", "", 3, "a number"},
	{"cm", "", 0, "a number"},
	{"wide", "", 0, "a number"},
	{"NaN cm", "", 0, "a number"},
	{"Inf cm", "", 0, "a number"},
	{"-", "", 1, "a number"},
	{"88", "", 2, "a unit"},
	{"88", "furlong", 2, "a unit"},
	{"88 cn", "", 3, "did you mean cm?"},
	{"88 mc", "", 3, "did you mean cm?"},
	{"88 c", "", 3, "did you mean cm?"},
	{"88 i", "", 3, "did you mean in?"},
	{"88 inchs", "", 3, "did you mean in?"},
	{"88 yrds", "", 3, "did you mean yd?"},
	{"88 millimetrs", "", 3, "did you mean mm?"},
	{"88 parsec", "", 3, "a unit (mm, cm, m, in, ft or yd)"},
	{"1e3 mm", "", 1, "a unit"},
	{"0x10 mm", "", 1, "a unit"},
	{"1_0 mm", "", 1, "a unit"},
	{"1,000 mm", "", 2, "thousands"},
	{"1.2.3 cm", "", 3, "a unit"},
	{"5. cm", "", 2, "digits after the decimal point"},
	{"5, cm", "", 2, "digits after the decimal comma"},
	{"1/0 in", "", 2, "from 1"},
	{"1/ in", "", 2, "from 1"},
	{"34 1 in", "", 3, "one number"},
	{"34 3/2 in", "", 3, "below 1"},
	{"34.5 1/2 in", "", 5, "a unit"},
	{"5 ft 3 in", "", 4, "nothing after it"},
	{`5'3"`, "", 2, "nothing after it"},
	{"5 cm 3 mm", "", 4, "nothing after it"},
	{"5 cm cm", "", 4, "nothing after it"},
	{"100.1 m", "", 0, "at most 100 m"},
	{"-110 yd", "", 0, "at most 100 m"},
	{"99999999999999999999999999999999 mm", "", 0, "at most 100 m"},
	{strings.Repeat("9", 65), Millimetre, 0, "64 characters"},
	{"5 \xff", "", 2, "a unit"},
	{"\xff", "", 0, "a number"},
}

func TestParseRefuses(t *testing.T) {
	for _, c := range refused {
		l, err := Parse(c.text, c.assumed)
		var pe *ParseError
		if !errors.As(err, &pe) {
			t.Errorf("Parse(%q) = %v, %v; want a ParseError", c.text, l, err)
			continue
		}
		if pe.At != c.at || !strings.Contains(pe.Want, c.want) || pe.Text != c.text {
			t.Errorf("Parse(%q): at %d want %q; expected at %d with %q", c.text, pe.At, pe.Want, c.at, c.want)
		}
		if !strings.Contains(pe.Error(), pe.Want) {
			t.Errorf("Error() = %q lacks %q", pe.Error(), pe.Want)
		}
	}
}

func TestParsePercent(t *testing.T) {
	for text, want := range map[string]float64{
		"3 %": 0.03, "3%": 0.03, "2,5 %": 0.025, "-4%": -0.04, "½ %": 0.005, "1000 %": 10, "0%": 0,
	} {
		if got, err := ParsePercent(text); err != nil || got != want {
			t.Errorf("ParsePercent(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "3", "%", "3 % %", "3 cm", "1001 %", "NaN %", "3 %x"} {
		var pe *ParseError
		if got, err := ParsePercent(text); !errors.As(err, &pe) {
			t.Errorf("ParsePercent(%q) = %v, %v; want a ParseError", text, got, err)
		}
	}
}
