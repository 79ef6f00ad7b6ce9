package construct

import (
	"gusset/internal/method"
	"gusset/internal/seam"
)

// notions lists what the methods ask for, each work's own.
func (b *builder) notions() []Notion {
	var out []Notion
	for _, w := range b.works {
		for _, n := range w.item.method.Notions {
			count, gap := n.Count, 0.0
			if n.Each {
				var times int
				times, gap = b.repeats(w)
				count *= times
			}
			out = append(out, Notion{
				Kind: n.Kind, Title: n.Title, Count: count, Gap: gap, Item: w.item.id,
				Length: b.notionLength(w, n),
			})
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
