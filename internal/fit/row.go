package fit

import (
	"gusset/internal/body"
	"gusset/internal/unit"
)

// row is what a size can be read from by one measure: body measures in mm, one
// for each of the sizes that the chart gives.
type row struct {
	values []float64 // rising
	from   int       // the size of the first
	// finished says that the paper prints the finished garment only, and less is
	// the least ease that was taken off.
	finished bool
	less     leastEase
}

// row returns what the pattern knows of a measure; false when no size can be
// read from it: too few values, or none that rise. The body chart goes before
// the finished measures.
func (k *chooser) row(m body.Measure) (row, bool) {
	if m == "" {
		return row{}, false
	}
	if r, ok := k.read(k.p.Chart.Rows[m], 0); ok {
		return r, true
	}
	least, known := minimumFor(m)
	if !known {
		return row{}, false
	}
	r, ok := k.read(k.p.Chart.Finished[m], least.ease.MM())
	r.finished, r.less = true, least
	return r, ok
}

// read takes the values of a row, less so much, between its gaps at the ends.
func (k *chooser) read(lengths []unit.Length, less float64) (row, bool) {
	if len(lengths) != len(k.p.Sizes) {
		return row{}, false
	}
	r := row{}
	for i, l := range lengths {
		if l.IsZero() {
			continue
		}
		if len(r.values) == 0 {
			r.from = i
		}
		v := l.MM() - less
		if n := len(r.values); n > 0 && v < r.values[n-1] {
			return row{}, false
		}
		r.values = append(r.values, v)
	}
	n := len(r.values)
	return r, n == 1 || n > 1 && r.values[0] < r.values[n-1]
}

// at returns the position in the size list that a measure has, clamped to the
// row's ends.
func (r row) at(mm float64) float64 {
	n := len(r.values)
	return float64(r.from) + invert(r.values, min(max(mm, r.values[0]), r.values[n-1]))
}

// nearest returns the printed size whose value is nearest; half way the smaller.
func (r row) nearest(mm float64) int { return r.from + nearestRow(r.values, mm) }

// outside says how far a measure lies outside the row, which way, and which end
// of the row is nearest: its size and its value.
func (r row) outside(mm float64) (off float64, word string, size int, value float64) {
	last := len(r.values) - 1
	if mm > r.values[last] {
		return mm - r.values[last], "more", r.from + last, r.values[last]
	}
	return r.values[0] - mm, "less", r.from, r.values[0]
}

// value returns the body measure of a size position, as far as the row goes.
func (r row) value(at float64) float64 {
	return between(r.values, min(max(at-float64(r.from), 0), float64(len(r.values)-1)))
}

// fullBust is how much more the full bust than the high bust makes a size be
// chosen by the high bust: 2 in (Texas agricultural extension service).
var fullBust = unit.Of(2, unit.Inch)

// byHighBust reports whether the size at a measure is chosen by the high bust:
// at the bust of a pattern that is chosen by it, where the full bust is full.
// Neck, shoulders and armholes then fit, and the bust is enlarged by a change. A
// chart without a row of its own for the high bust is read as though it were the
// bust.
func (k *chooser) byHighBust(m body.Measure) bool {
	full, hasFull := k.b.MM(body.Bust)
	high, hasHigh := k.b.MM(body.HighBust)
	return m == body.Bust && k.p.Choose == body.Bust && hasFull && hasHigh && full-high >= fullBust.MM()-0.5
}

// tell says, once for a measure, what there is to know of a size read from its
// row: that it is from finished measures, and which bust it was chosen by.
func (k *chooser) tell(m body.Measure, r row, at float64) {
	if k.told[m] {
		return
	}
	k.told[m] = true
	if r.finished {
		k.add(byFinished.At(k.p.Chart.Places[m], m, unit.Format(r.less.ease.MM(), k.u), r.less.source))
	}
	full, high := k.b.Measures[body.Bust].MM(), k.b.Measures[body.HighBust].MM()
	switch {
	case k.byHighBust(m):
		if more := full - r.value(at); more > tapeSlack {
			k.add(byHighBust.At(k.b.Places[body.Bust], unit.Format(full, k.u), unit.Format(full-high, k.u), unit.Format(high, k.u), unit.Format(more, k.u)))
		}
	case m == body.Bust && k.p.Choose == body.Bust && high == 0:
		k.add(noHighBust.At(k.b.Places[body.Bust], unit.Format(fullBust.MM(), k.u)))
	}
}
