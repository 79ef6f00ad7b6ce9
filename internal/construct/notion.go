package construct

import (
	"math"
	"slices"

	"gusset/internal/method"
	"gusset/internal/seam"
)

// notions lists what the methods ask for, each work's own. A closure on both hands
// needs it for each: what is counted as often, and of what has a length one
// for every line that it lies along.
func (b *builder) notions() []Notion {
	var out []Notion
	for _, w := range b.works {
		for _, n := range w.item.method.Notions {
			count, gap := n.Count, 0.0
			if n.Each {
				var times int
				times, gap = b.repeats(w)
				count *= times
			} else {
				count *= len(b.lines(w))
			}
			out = append(out, b.notion(w, n, count, gap)...)
		}
	}
	return out
}

// notion is a notion as it is bought: where it has a length, those for lines of
// another length are another thing.
func (b *builder) notion(w *work, n method.Notion, count int, gap float64) []Notion {
	one := Notion{Kind: n.Kind, Title: n.Title, Count: count, Gap: gap, Item: w.item.id}
	lines := b.lines(w)
	if n.LengthOf == "" || len(lines) == 1 {
		one.Length = b.notionLength(w, n)
		return []Notion{one}
	}
	var out []Notion
	for _, line := range lines {
		own := *w
		own.sides = [][]Stretch{line}
		one.Count, one.Length = n.Count, b.notionLength(&own, n)
		if k := slices.IndexFunc(out, func(x Notion) bool { return math.Abs(x.Length-one.Length) < sameSpot }); k >= 0 {
			out[k].Count += one.Count
		} else {
			out = append(out, one)
		}
	}
	return out
}

// notionLength is the length of what the notion lies along, with its extra.
func (b *builder) notionLength(w *work, n method.Notion) float64 {
	if n.LengthOf == "" {
		return 0
	}
	return max(0, float64(n.Share*b.lengthOf(w, n.LengthOf))+n.Extra.MM())
}

// lengthOf is the length of what something lies along, in mm.
func (b *builder) lengthOf(w *work, what string) float64 {
	if what == method.Along {
		return seam.ChainLength(w.sides[0])
	}
	return b.length(w, what)
}
