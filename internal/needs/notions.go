package needs

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/machine"
)

// Button is a button as measured, in mm.
type Button struct{ Diameter, Thickness float64 }

// clothInHole is what a buttonhole needs beyond the button for the cloth, in
// mm: 1/8 in or 3 mm in published sewing handbooks.
const clothInHole = 3

// Buttonhole is the length of the buttonhole in mm: diameter and thickness of
// the button and 3 mm for the cloth (published sewing handbooks).
func (b Button) Buttonhole() float64 { return b.Diameter + b.Thickness + clothInHole }

// notionItems lists notions, those alike added up.
func notionItems(notions []construct.Notion, b Button) []Item {
	var items []Item
	index := map[construct.Notion]int{}
	for _, n := range notions {
		n.Item = "" // what it is for does not make it another thing to buy
		alike := n
		alike.Count = 0
		i, seen := index[alike]
		if !seen {
			i = len(items)
			index[alike] = i
			items = append(items, Item{Kind: n.Kind, Title: n.Title, Length: n.Length, Note: notionNote(n, b)})
		}
		items[i].Count += max(n.Count, 1)
	}
	return items
}

// notionNote says what must be known to buy it and to set it. A zip's length is
// that of its teeth (published handbooks); a longer one is cut down at the top
// end, under the band or facing (common practice). Buttons lie L/(n-1) apart
// (published handbooks).
func notionNote(n construct.Notion, b Button) string {
	var note string
	switch n.Kind {
	case "zip":
		note = "length of the teeth; a longer one is shortened at its top end"
	case "elastic":
		note = "a start: try it round the body before it is cut"
	case "button":
		note = "buttonhole: diameter + thickness + 3 mm; measure the button and try the hole on a scrap"
		if b.Diameter > 0 {
			note = fmt.Sprintf("buttonhole %.0f mm for %.0f mm across and %.1f mm thick", b.Buttonhole(), b.Diameter, b.Thickness)
		}
	}
	if n.Gap > 0 {
		note = strings.TrimPrefix(note+fmt.Sprintf("; %.1f mm apart, middle to middle", n.Gap), "; ")
	}
	return note
}

// needles lists machine needles by size, and a hand needle where something is
// sewn by hand.
func needles(ops []construct.Operation) []Item {
	seen := map[string]bool{}
	for _, o := range ops {
		switch {
		case o.Machine == machine.Hand:
			seen["hand needle"] = true
		case o.Stitch != "" && o.Needle != "":
			seen[fmt.Sprintf("%s needle, size %s", o.Machine, o.Needle)] = true
		}
	}
	var items []Item
	for _, title := range slices.Sorted(maps.Keys(seen)) {
		items = append(items, Item{Kind: "needle", Title: title, Count: 1})
	}
	return items
}
