package body

import (
	"math"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// ReadTwice lists the measures that are read twice, since a slip there spoils
// the size.
var ReadTwice = []Measure{Bust, Waist, Hip, CrotchTotal}

// counted is what readings count as: of two their mean, of more the middle one.
func counted(read []unit.Length) unit.Length {
	sorted := slices.Clone(read)
	slices.SortStableFunc(sorted, func(a, b unit.Length) int {
		switch {
		case a.MM() < b.MM():
			return -1
		case a.MM() > b.MM():
			return 1
		}
		return 0
	})
	a, b := sorted[(len(sorted)-1)/2], sorted[len(sorted)/2]
	if a.MM() == b.MM() {
		return a
	}
	return unit.MM((a.MM() + b.MM()) / 2).In(a.Unit())
}

// mayStray is how far two careful readings of a measure may lie apart, in mm
// (common practice; ISO 20685 allows a scanner 9 mm from the tape at large
// girths, 4 mm at small ones and lengths, from memory).
func mayStray(mm float64) float64 {
	if mm > 300 {
		return 10
	}
	return 5
}

// readings tells which measures ought to be read again.
func readings(b Body) finding.List {
	var out finding.List
	var once []string
	var at finding.Place
	example := ""
	for _, m := range Measures() {
		read := b.Readings[m]
		if len(read) == 1 && slices.Contains(ReadTwice, m) && !slices.Contains(b.Checked, m) {
			if once == nil {
				at, example = b.Places[m], string(m)+": ["+pointed(read[0])+", "+pointed(read[0])+"]"
			}
			once = append(once, string(m))
		}
		if gap, stray := apart(read), mayStray(b.Measures[m].MM()); gap > stray+1e-9 {
			u := read[0].Unit()
			out = append(out, readingsDiffer.At(b.Places[m], m, unit.Format(gap, u), spoken(read), unit.Format(stray, u)))
		}
	}
	if once != nil {
		out = append(out, readOnce.At(at, strings.Join(once, " and "), example))
	}
	return out
}

// apart is how far apart the two nearest readings lie; 0 for fewer than two.
func apart(read []unit.Length) float64 {
	gap := math.Inf(1)
	for i, a := range read {
		for _, b := range read[:i] {
			gap = min(gap, math.Abs(a.MM()-b.MM()))
		}
	}
	if math.IsInf(gap, 1) {
		return 0
	}
	return gap
}

func spoken(read []unit.Length) string {
	texts := make([]string, len(read))
	for i, l := range read {
		texts[i] = l.String()
	}
	return strings.Join(texts, "; ")
}

// pointed writes a length so that it may stand in a list in brackets, where a
// comma would part it.
func pointed(l unit.Length) string { return strings.ReplaceAll(l.String(), ",", ".") }
