package construct

import (
	"math"

	"gusset/internal/method"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// repeats is how often something is set, and the gap from one to the next in
// mm. A part is made as often as the view says and set at equal gaps along the
// seam that catches it, half a gap from its ends (common practice); a closure on
// every line that it lies along; of lines that differ the widest gap is told.
func (b *builder) repeats(w *work) (count int, gap float64) {
	if w.item.takes == method.Part {
		return w.item.count, b.catching(w.item.id) / float64(w.item.count)
	}
	for _, line := range b.lines(w) {
		n, g := w.item.spaced(seam.ChainLength(line))
		count, gap = count+n, max(gap, g)
	}
	return count, gap
}

// catching is the length of the seams that catch a part, in mm.
func (b *builder) catching(part string) float64 {
	var sum float64
	for _, p := range b.garment.View.Parts {
		for _, id := range p.Joins {
			if p.ID != part {
				continue
			}
			for _, w := range b.worksOf(id) {
				sum += seam.ChainLength(w.sides[0])
			}
		}
	}
	return sum
}

// spaced is how often something is set along a line and the gap between. Along a
// closure of length L the first and the last lie at their distances from its
// ends, and what is left is divided into equal gaps, as many as come nearest to
// the wanted spacing: n buttons have n-1 gaps (checks of buttonhole spacing in
// sewing handbooks: L/(n-1)). So the number follows the size of the garment.
func (it *item) spaced(length float64) (count int, gap float64) {
	r := it.method.Repeat
	spacing, ok := it.value(r.Spacing)
	if !ok || spacing <= 0 {
		return 1, 0
	}
	first, _ := it.value(r.First)
	last, _ := it.value(r.Last)
	span := length - first - last
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
