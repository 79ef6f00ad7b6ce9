package fit

import (
	"gusset/internal/body"
	"gusset/internal/unit"
)

// leastEase is the least wearing ease for a woven cloth at a girth: what a body
// needs to breathe, sit and step.
type leastEase struct {
	measure body.Measure
	ease    unit.Length
	source  string
}

// costumeText is the source of most rows: Central Washington University, Costume
// Construction textbook, chapter 16, table of minimum wearing ease.
const costumeText = "CWU costume textbook, ch. 16"

// minimums lists the least ease by measure; the lower end of each given range.
var minimums = []leastEase{
	{body.Waist, unit.Of(0.5, unit.Inch), costumeText}, // skirts and trousers 1/2 to 3/4 in
	{body.Hip, unit.Of(2, unit.Inch), costumeText},     // 2 to 2 3/4 in
	{body.Thigh, unit.Of(1, unit.Inch), costumeText},   // 1 in or more
	{body.Bust, unit.Of(1.5, unit.Inch), costumeText},  // bodice 1 1/2 to 2 in
}

func minimumFor(m body.Measure) (leastEase, bool) {
	for _, r := range minimums {
		if r.measure == m {
			return r, true
		}
	}
	return leastEase{}, false
}
