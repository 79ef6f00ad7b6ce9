package unit

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

var all = []Unit{Millimetre, Centimetre, Metre, Inch, Foot, Yard}

// A formatted length read again is the same to half of the last place written.
func TestFormatThenParse(t *testing.T) {
	half := map[Unit]float64{
		Millimetre: 0.05, Centimetre: 0.5, Metre: 5, Inch: 25.4 / 32, Foot: 304.8 / 200, Yard: 914.4 / 200,
	}
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-99_000, 99_000).Draw(t, "mm")
		u := rapid.SampledFrom(all).Draw(t, "unit")
		l, err := Parse(Format(mm, u), "")
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(l.MM()-mm) > half[u]*(1+1e-9) || l.Unit() != u {
			t.Fatalf("%v mm written %q and read as %v mm", mm, Format(mm, u), l.MM())
		}
	})
}

// What was read is said back so that reading it again gives the same length.
func TestStringThenParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom([]string{"", "+", "-", "- "}).Draw(t, "sign") +
			rapid.StringMatching(`[0-9]{1,2}( [1-7]/8|[½¼¾⅛⅜⅝⅞]|[.,][0-9]{1,2})?`).Draw(t, "number") +
			rapid.SampledFrom([]string{"", " ", "  "}).Draw(t, "space") +
			rapid.SampledFrom([]string{"", "mm", "cm", "in", `"`, "feet", "'"}).Draw(t, "unit")
		l, err := Parse(text, Centimetre)
		if err != nil {
			t.Fatalf("Parse(%q): %v", text, err)
		}
		again, err := Parse(l.String(), "")
		if err != nil || again != l {
			t.Fatalf("%q read as %#v, then as %#v, %v", text, l, again, err)
		}
	})
}

// Parse agrees with plain float arithmetic on eighths of an inch, which floats
// hold exactly: value * 254 is an integer over 8, rounded once by the division.
func TestParseAgreesWithFloats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole, eighths := rapid.IntRange(0, 300).Draw(t, "whole"), rapid.IntRange(0, 7).Draw(t, "eighths")
		l, err := Parse(fmt.Sprintf("%d %d/8 in", whole, eighths), "")
		want := (float64(whole) + float64(eighths)/8) * 254 / 10
		if err != nil || l.MM() != want {
			t.Fatalf("%d %d/8 in = %v, %v; want %v", whole, eighths, l.MM(), err, want)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, c := range known {
		f.Add(c.text)
	}
	for _, c := range refused {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := Parse(text, Centimetre)
		if err != nil {
			pe := err.(*ParseError)
			if pe.At < 0 || pe.At > len(text) || pe.Want == "" {
				t.Fatalf("%q: fault at %d, want %q", text, pe.At, pe.Want)
			}
			return
		}
		if !(math.Abs(l.MM()) <= LongestMM) || !l.Unit().Valid() {
			t.Fatalf("%q read as %v mm in %q", text, l.MM(), l.Unit())
		}
		if again, err := Parse(l.String(), ""); err != nil || again.MM() != l.MM() || again.Unit() != l.Unit() {
			t.Fatalf("%q said back as %q, read as %v, %v", text, l.String(), again, err)
		}
	})
}
