package body

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/source"
)

// loaded reads a body from the lines under its header.
func loaded(lines string) (Body, []string, string) {
	b, found := Load(source.File{Path: "bodies/x.yaml", Data: []byte("gusset: body/1\ntitle: X\nwaist-at: natural\n" + lines)})
	var texts []string
	for _, f := range found {
		texts = append(texts, f.Text()+" / "+f.Mend())
		for _, n := range f.Notes {
			texts = append(texts, n.Text)
		}
	}
	return b, found.Codes(), strings.Join(texts, "\n")
}

// What is told of a body, in the maker's words.
func TestFindings(t *testing.T) {
	const twice = "measures:\n  waist: [78 cm, 78 cm]\n  hip: [98 cm, 98 cm]\n  thigh: 58 cm\n"
	for _, c := range []struct{ name, lines, codes, says string }{
		{"sound", twice, "", ""},
		{"read once", "measures: {waist: 78 cm, hip: 98 cm, thigh: 58 cm}", "body.read-once", "hip and waist read once"},
		{"decimal comma in the example", "measures: {hip: \"98,5 cm\", thigh: 58 cm}", "body.read-once", "hip: [98.5 cm, 98.5 cm]"},
		{"readings apart", "measures: {hip: [98 cm, 99.5 cm], thigh: 58 cm}", "body.readings-differ", "98 cm; 99.5 cm"},
		{"just not apart", "measures: {hip: [98 cm, 99 cm], thigh: 58 cm}", "", ""},
		{"a third reading settles it", "measures: {hip: [98 cm, 108 cm, 98.5 cm], thigh: 58 cm}", "", ""},
		{"small measures stray less", "measures: {neck: [36 cm, 37.5 cm]}", "body.readings-differ", "1 cm is as much"},
		{"smaller still", "measures: {ankle: [21 cm, 22 cm]}", "body.readings-differ", "0.5 cm is as much"},
		{"exchanged", "measures: {thigh: 98 cm, hip: [58 cm, 58 cm]}", "body.unlikely", "thigh (98 cm) is larger than hip (58 cm)"},
		{"large waist", "measures: {waist: [102 cm, 102 cm], hip: [100 cm, 100 cm]}", "body.unusual", "few bodies have"},
		{"large waist, checked", "checked: [waist, hip]\nmeasures: {waist: [102 cm, 102 cm], hip: [100 cm, 100 cm]}", "", ""},
		{"rise", "measures: {outside-leg: 104 cm, inside-leg: 78 cm, body-rise: 36 cm}", "body.sum", "26 cm"},
		{"rise as it should be", "measures: {outside-leg: 104 cm, inside-leg: 78 cm, body-rise: 27 cm}", "", ""},
		{"ten too many", strings.ReplaceAll(twice, "98 cm", "108 cm") + "  inside-leg: 78 cm\n  height: 168 cm\n",
			"body.implausible", "ten too many were read"},
		{"ten too many, checked", "checked: [hip]\n" + strings.ReplaceAll(twice, "98 cm", "108 cm") + "  inside-leg: 78 cm\n  height: 168 cm\n", "", ""},
		{"inches for centimetres", "measures: {hip: [98 cm, 98 cm], thigh: 23 in, inside-leg: 31 cm}", "body.implausible", "centimetres were written for inches"},
		{"only two", "measures: {hip: [98 cm, 98 cm], thigh: 78 cm}", "body.implausible", "is the one that is wrong"},
		{"rare", "measures: {hip: [135 cm, 135 cm]}", "body.rare", "larger than that of 99 in 100"},
		{"rarely small", "measures: {hip: [80 cm, 80 cm]}", "body.rare", "smaller than that of 99 in 100"},
		{"child", "child: yes\nmeasures: {height: 128 cm, hip: [68 cm, 68 cm]}", "body.not-compared", "adults only"},
		{"no such group", "against: boys\n" + twice, "source.unknown-word", "women"},
	} {
		_, codes, texts := loaded(c.lines)
		if got := strings.Join(codes, ","); got != c.codes || !strings.Contains(texts, c.says) {
			t.Errorf("%s: %s, want %s saying %q:\n%s", c.name, got, c.codes, c.says, texts)
		}
	}
}

// Two readings count as their mean, three as the middle one; a decimal comma
// may stand in a list that is not in brackets.
func TestReadings(t *testing.T) {
	b, _, _ := loaded("measures:\n  hip:\n  - 98,5 cm\n  - 99 cm\n  waist: [31 in, 30 in, 30 1/2 in]\n  thigh: [58 cm, 58 cm]\n")
	for m, want := range map[Measure]struct {
		mm   float64
		text string
	}{Hip: {987.5, "98.8 cm"}, Waist: {30.5 * 25.4, "30 1/2 in"}, Thigh: {580, "58 cm"}} {
		if l := b.Measures[m]; math.Abs(l.MM()-want.mm) > 1e-9 || l.String() != want.text {
			t.Errorf("%s is %s (%.2f mm), want %s", m, l, l.MM(), want.text)
		}
	}
	if len(b.Readings[Waist]) != 3 || b.Readings[Waist][1].String() != "30 in" {
		t.Errorf("readings of the waist: %v", b.Readings[Waist])
	}
}

// An estimate is given where it is good enough, and no other: a thigh from the
// hip, and no inside leg from the girths.
func TestEstimates(t *testing.T) {
	b, _, _ := loaded("measures: {waist: [78 cm, 78 cm], hip: [98 cm, 98 cm], height: 168 cm}")
	c := Compare(b)
	if r := c.Row(Thigh); r.Verdict != Estimated || r.Given || r.Usual < 560 || r.Usual > 600 || r.Within > goodEnough[Thigh] {
		t.Errorf("thigh: %+v", r)
	}
	for _, m := range []Measure{InsideLeg, Bust, HighBust, BodyRise, CrotchTotal} {
		if r := c.Row(m); r.Verdict != MeasureIt {
			t.Errorf("%s: %+v", m, r)
		}
	}
	large, _, _ := loaded("measures: {waist: [118 cm, 118 cm], hip: [138 cm, 138 cm], height: 168 cm}")
	if r := Compare(large).Row(Thigh); r.Verdict != MeasureIt {
		t.Errorf("a thigh estimated for a rare body: %+v", r)
	}
	child, _, _ := loaded("child: yes\nmeasures: {waist: 58 cm, hip: 68 cm, height: 128 cm}")
	if r := Compare(child).Row(Thigh); r.Verdict != MeasureIt || r.Usual != 0 {
		t.Errorf("a thigh estimated for a child: %+v", r)
	}
}
