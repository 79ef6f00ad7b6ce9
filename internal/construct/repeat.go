package construct

import (
	"math"

	"gusset/internal/method"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// repeats is how often something is set, and the gap from one to the next in
// mm. A part is made as often as the view says. Along a closure of length L the
// first and the last lie at their distances from its ends, and what is left is
// divided into equal gaps, as many as come nearest to the wanted spacing: n
// buttons have n-1 gaps (checks of buttonhole spacing in sewing handbooks:
// L/(n-1)). So the number follows the size of the garment.
func (b *builder) repeats(w *work) (count int, gap float64) {
	it := w.item
	r := it.method.Repeat
	if it.takes == method.Part {
		return it.count, 0
	}
	spacing, ok := it.value(r.Spacing)
	if !ok || spacing <= 0 {
		return 1, 0
	}
	first, _ := it.value(r.First)
	last, _ := it.value(r.Last)
	span := seam.ChainLength(w.sides[0]) - first - last
	if span <= 0 {
		return 1, 0
	}
	gaps := max(math.Round(span/spacing), 1)
	return int(gaps) + 1, span / gaps
}

// unit is the unit in which the item's spacing is written, millimetres for one
// that has none.
func (it *item) unit() unit.Unit {
	if v, ok := it.values[it.method.Repeat.Spacing]; ok {
		return v.Unit()
	}
	if v, ok := it.method.Values[it.method.Repeat.Spacing]; ok {
		return v.Unit()
	}
	return unit.Millimetre
}
