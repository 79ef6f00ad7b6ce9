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
			out = append(out, Notion{
				Kind: n.Kind, Title: n.Title, Count: n.Count, Item: w.item.id,
				Length: b.notionLength(w, n),
			})
		}
	}
	return out
}

// notionLength is the length of what the notion lies along, with its extra.
func (b *builder) notionLength(w *work, n method.Notion) float64 {
	switch n.LengthOf {
	case "":
		return 0
	case "along":
		return max(0, seam.ChainLength(w.sides[0])+n.Extra.MM())
	}
	return max(0, b.length(w, n.LengthOf)+n.Extra.MM())
}
