package body

import (
	"math"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// SurveyNote says what the figures are, wherever they are shown.
const SurveyNote = "Figures: 6,068 adults of the US Army's survey of 2012 (ANSUR II, public release). Adults only, fitter than most; " +
	"their waist was taken at the navel, so a waist where a belt settles is taken to be 5 cm smaller, give or take 7 cm, and slips there are seldom found."

// likelihood tells which measures do not go with the others.
func likelihood(b Body) finding.List {
	c := Compare(b)
	var out finding.List
	if b.Child && len(b.Measures) >= leastToCompare {
		return finding.List{notCompared.At(b.Place)}
	}
	for _, r := range c.Rows {
		if r.Verdict == Unlikely {
			out = append(out, b.implausible(r, c))
		}
	}
	for _, m := range c.Rare {
		if slices.Contains(b.Checked, m) || c.Row(m).Verdict == Unlikely {
			continue
		}
		out = append(out, rare.At(b.Places[m], m, b.Measures[m], largerOrSmaller(b, m)))
	}
	return out
}

func (b Body) implausible(r Row, c Comparison) finding.Finding {
	word := "most"
	if r.MM < r.Bound {
		word = "least"
	}
	u := b.Measures[r.Measure].Unit()
	beside := c.beside()
	f := implausible.At(b.Places[r.Measure], r.Measure, b.Measures[r.Measure], strings.Join(beside, ", "), word, unit.Format(r.Bound, u))
	if s, ok := slip(b.Measures[r.Measure], r); ok {
		f = f.Note(finding.Place{}, "%s would go with them: %s", unit.Format(s.mm, u), s.how)
	}
	if len(beside) == 1 {
		f = f.Note(b.Places[Measure(beside[0])], "or %s is the one that is wrong", beside[0])
	}
	return f
}

// largerOrSmaller says which end of the figures a rare measure lies at: it lies
// at the same one in every group.
func largerOrSmaller(b Body, m Measure) string {
	s, _ := surveyOf(m)
	mm, _ := b.MM(m)
	if g := groups[0]; mm > g.mean[g.index[s.key]]+s.offset(b.WaistAt).mean {
		return "larger"
	}
	return "smaller"
}

// slipped is a reading that may have been meant, and how it was missed.
type slipped struct {
	mm  float64
	how string
}

// slip looks for the usual slip that would explain a measure: of those that
// land where the middle nine of ten lie, the one nearest to what is usual.
func slip(l unit.Length, r Row) (slipped, bool) {
	ten := unit.Of(10, l.Unit()).MM()
	if l.Unit() == unit.Millimetre {
		ten = 100
	}
	all := []slipped{
		{l.MM() - ten, "ten too many were read"}, {l.MM() + ten, "ten too few were read"},
		{l.MM() * 2, "half was written"}, {l.MM() / 2, "twice as much was written"},
		{l.MM() * 2.54, "centimetres were written for inches"}, {l.MM() / 2.54, "inches were written for centimetres"},
	}
	best, found := slipped{}, false
	for _, s := range all {
		if d := math.Abs(s.mm - r.Usual); d <= r.Within && (!found || d < math.Abs(best.mm-r.Usual)) {
			best, found = s, true
		}
	}
	return best, found
}
