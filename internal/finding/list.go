package finding

import (
	"cmp"
	"slices"
)

// List is what a stage or loader found, in the order it was found.
type List []Finding

// Stops counts the findings that stop.
func (l List) Stops() int { return l.count(Stop) }

// Warns counts the findings that warn.
func (l List) Warns() int { return l.count(Warn) }

func (l List) count(s Severity) int {
	n := 0
	for _, f := range l {
		if f.Severity() == s {
			n++
		}
	}
	return n
}

// Worst is the heaviest severity in the list; false when the list is empty.
func (l List) Worst() (Severity, bool) {
	worst := Advice
	for _, f := range l {
		worst = max(worst, f.Severity())
	}
	return worst, len(l) > 0
}

// Has reports whether a finding with that code is in the list.
func (l List) Has(code string) bool {
	return slices.ContainsFunc(l, func(f Finding) bool { return f.Code() == code })
}

// Codes gives the code of each finding, in order.
func (l List) Codes() []string {
	codes := make([]string, len(l))
	for i, f := range l {
		codes[i] = f.Code()
	}
	return codes
}

// Filter is a new list of the findings that keep accepts.
func (l List) Filter(keep func(Finding) bool) List {
	var kept List
	for _, f := range l {
		if keep(f) {
			kept = append(kept, f)
		}
	}
	return kept
}

// AtLeast is a new list of the findings of severity s or heavier.
func (l List) AtLeast(s Severity) List {
	return l.Filter(func(f Finding) bool { return f.Severity() >= s })
}

// Sorted is a copy ordered by file, line and then piece, findings at the same
// place staying in the order they were found.
func (l List) Sorted() List {
	sorted := slices.Clone(l)
	slices.SortStableFunc(sorted, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Place.File, b.Place.File),
			cmp.Compare(a.Place.Line, b.Place.Line),
			cmp.Compare(a.Place.Piece, b.Place.Piece),
		)
	})
	return sorted
}
