package needs

import (
	"fmt"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Options is what the count cannot take from the operations.
type Options struct {
	Cloths []Cloth
	Button Button // zero when it is not measured
	// Colours names the colour of threads, by spool: "main", "topstitch".
	Colours map[string]string
}

// Cloth is one length of cloth and how much of it the lay uses, in mm after
// washing; 0 where nothing is laid.
type Cloth struct {
	Role  cloth.Role
	Cloth cloth.Cloth
	Used  float64
}

var clothShort = finding.Kind{
	Code: "needs.cloth-short", Severity: finding.Warn,
	Text: "the %[1]s takes %[2]s, only %[3]s of %[4]s is there",
	Mend: "another fold, narrower or shorter pieces, or %[5]s more cloth",
}

// ToBuy is how much cloth that still shrinks by the fraction shrink must be
// there for need to remain, in the unit of need. Washed cloth has shrink 0.
// From the definition of dimensional change, ISO 5077: (after - before) /
// before. A shrink outside 0 to below 1 leaves need as it is.
func ToBuy(need, shrink float64) float64 {
	if shrink <= 0 || shrink >= 1 {
		return need
	}
	return need / (1 - shrink)
}

// cloths lists each cloth with what it takes as it lies now.
func cloths(all []Cloth) ([]Item, finding.List) {
	var items []Item
	var out finding.List
	for _, c := range all {
		if c.Used <= 0 {
			continue
		}
		u := c.Cloth.Length.Unit()
		need, there := ToBuy(c.Used, c.Cloth.ShrinkWarp), c.Cloth.Length.MM()
		items = append(items, Item{Kind: "cloth", Title: c.Cloth.Title, Length: need, Note: clothNote(c, need)})
		if there > 0 && need > there+0.5 {
			out = append(out, clothShort.At(c.Cloth.LengthPlace, c.Role, unit.Format(need, u),
				unit.Format(there, u), c.Cloth.Title, unit.Format(need-there, u)))
		}
	}
	return items, out
}

// clothNote says what the cloth is for, its width, what is there, and what
// washing takes.
func clothNote(c Cloth, need float64) string {
	u := c.Cloth.Length.Unit()
	note := fmt.Sprintf("%s, %s wide", c.Role, c.Cloth.Width)
	if c.Cloth.Length.MM() > 0 {
		note += fmt.Sprintf(", %s there", c.Cloth.Length)
	}
	if need > c.Used {
		note += fmt.Sprintf("; measured before washing, %s after it", unit.Format(c.Used, u))
	}
	return note
}
