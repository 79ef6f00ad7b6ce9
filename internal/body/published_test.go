package body

import (
	"testing"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// printedTable is a table of body measures that paper patterns are drawn for.
type printedTable struct {
	source string
	group  string
	height float64 // in mm, where the table states it
	unit   unit.Unit
	rows   map[Measure][]float64
}

// Bodies of published tables: idealised, but each meant to be a body that is
// met. Sources: misses, miss petite and women of the US pattern industry, with
// their heights, as given at sewingscholar.blogspot.com, 2011-02; ASTM
// D5585-11e1 as read at astm.org; EN 13402-3 from memory.
var printedTables = []printedTable{
	{"misses", "women", 1664, unit.Inch, map[Measure][]float64{
		Bust:      {30.5, 31.5, 32.5, 34, 36, 38, 40, 42},
		Waist:     {23, 24, 25, 26.5, 28, 30, 32, 34},
		Hip:       {32.5, 33.5, 34.5, 36, 38, 40, 42, 44},
		BackWaist: {15.5, 15.75, 16, 16.25, 16.5, 16.75, 17, 17.25},
	}},
	{"miss petite", "women", 1600, unit.Inch, map[Measure][]float64{
		Bust:      {30.5, 31.5, 32.5, 34, 36, 38},
		Waist:     {23.5, 24.5, 25.5, 27, 28.5, 30.5},
		Hip:       {32.5, 33.5, 34.5, 36, 38, 40},
		BackWaist: {14.5, 14.75, 15, 15.25, 15.5, 15.75},
	}},
	{"women", "women", 1664, unit.Inch, map[Measure][]float64{
		Bust:      {42, 44, 46, 48, 50, 52, 54},
		Waist:     {35, 37, 39, 41.5, 44, 46.5, 49},
		Hip:       {44, 46, 48, 50, 52, 54, 56},
		BackWaist: {17.25, 17.375, 17.5, 17.625, 17.75, 17.875, 18},
	}},
	{"ASTM D5585-11e1, straight", "women", 0, unit.Inch, map[Measure][]float64{
		Bust:  {31.125, 31.75, 33, 34.125, 35.25, 36.25, 37.25, 38.75, 40.375, 42.125, 44, 46},
		Waist: {25.375, 26.125, 26.875, 27.625, 28.5, 29.5, 30.5, 32.25, 34, 36, 38.25, 40.5},
		Neck:  {12.375, 12.625, 12.875, 13.125, 13.375, 13.625, 13.875, 14.25, 14.625, 15, 15.5, 16},
	}},
	{"EN 13402-3, women", "women", 0, unit.Centimetre, map[Measure][]float64{
		Bust:  {76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128, 134, 140, 146, 152},
		Waist: {60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106, 112, 118, 124, 130, 136},
		Hip:   {84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127, 132, 137, 142, 147, 152},
	}},
	{"EN 13402-3, men", "men", 0, unit.Centimetre, map[Measure][]float64{
		Bust:  {84, 88, 92, 96, 100, 104, 108, 112, 116, 120, 126, 132, 138, 144},
		Waist: {72, 76, 80, 84, 88, 92, 96, 100, 104, 108, 114, 120, 126, 132},
	}},
}

func (p printedTable) bodies() []Body {
	var out []Body
	for i := range p.rows[Bust] {
		b := Body{WaistAt: "natural", Against: p.group, Measures: map[Measure]unit.Length{}, Places: map[Measure]finding.Place{}}
		for m, row := range p.rows {
			b.Measures[m] = unit.Of(row[i], p.unit)
		}
		if p.height > 0 {
			b.Measures[Height] = unit.MM(p.height)
		}
		out = append(out, b)
	}
	return out
}

// No body of a published table is called unlikely or exchanged, so the offsets
// between its measures and the survey's are not far wrong.
func TestPublishedBodies(t *testing.T) {
	for _, p := range printedTables {
		for i, b := range p.bodies() {
			for _, f := range b.doubts() {
				if f.Code() != "body.rare" {
					t.Errorf("%s, row %d: %s", p.source, i+1, f.Text())
				}
			}
		}
	}
}
