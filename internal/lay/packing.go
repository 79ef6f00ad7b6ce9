package lay

import (
	"encoding/json"
	"fmt"
	"slices"

	"gusset/internal/geom"
)

// Packing is a packing problem of the literature as its file states it, in units
// of its own: x along the strip, y across it.
type Packing struct {
	Name    string
	Width   float64 // of the strip
	Nominal float64 // of the strip as published, where the file widens it by a hair; else Width
	Items   []PackingItem
}

// PackingItem is one shape, wanted Demand times, at one of some turns.
type PackingItem struct {
	ID, Demand int
	Turns      []float64 // degrees
	Shape      []geom.Pt // counter-clockwise
}

// Bounds of what a file may ask for.
const (
	mostCopies = 10000
	mostWidths = 100 // how many times the strip's width a shape may reach
)

type packingFile struct {
	Name    string  `json:"name"`
	Width   float64 `json:"strip_width"`
	Nominal float64 `json:"strip_width_nominal"`
	Items   []struct {
		ID        int          `json:"id"`
		Demand    int          `json:"demand"`
		Rotations []float64    `json:"allowed_rotations_deg"`
		Outer     [][2]float64 `json:"outer"`
	} `json:"items"`
}

// ReadPacking reads a packing problem in JSON: name, strip_width,
// strip_width_nominal, and items of id, demand, allowed_rotations_deg and outer.
func ReadPacking(data []byte) (Packing, error) {
	var f packingFile
	if err := json.Unmarshal(data, &f); err != nil {
		return Packing{}, fmt.Errorf("packing problem: %w", err)
	}
	p := Packing{Name: f.Name, Width: f.Width, Nominal: f.Nominal}
	if p.Nominal == 0 {
		p.Nominal = p.Width
	}
	if !(p.Width > 0 && p.Width < 1e9) || !(p.Nominal > p.Width/2 && p.Nominal <= p.Width) || len(f.Items) == 0 {
		return Packing{}, fmt.Errorf("packing problem %q: a strip width of %v, nominal %v, and %d items", f.Name, f.Width, f.Nominal, len(f.Items))
	}
	copies := 0
	for _, it := range f.Items {
		item := PackingItem{ID: it.ID, Demand: it.Demand, Turns: it.Rotations}
		for _, q := range it.Outer {
			item.Shape = append(item.Shape, geom.Pt{X: q[0], Y: q[1]})
		}
		if err := item.check(p.Width, mostCopies-copies); err != nil {
			return Packing{}, fmt.Errorf("packing problem %q: item %d: %w", f.Name, it.ID, err)
		}
		if geom.Area(item.Shape) < 0 {
			slices.Reverse(item.Shape)
		}
		copies += item.Demand
		p.Items = append(p.Items, item)
	}
	return p, nil
}

func (it PackingItem) check(width float64, most int) error {
	if len(it.Shape) < 3 || it.Demand < 0 || it.Demand > most {
		return fmt.Errorf("%d points, wanted %d times", len(it.Shape), it.Demand)
	}
	lo, hi := geom.BoundsOf(it.Shape)
	if far := max(hi.X, hi.Y, -lo.X, -lo.Y) / width; !(far < mostWidths) {
		return fmt.Errorf("reaches %.0f times the strip's width", far)
	}
	return nil
}

// Area is the area of all copies of all items.
func (p Packing) Area() float64 {
	var sum float64
	for _, it := range p.Items {
		sum += float64(it.Demand) * geom.Area(it.Shape)
	}
	return sum
}
