package lay

import (
	"fmt"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Instance is a packing problem of the literature as cuts on a cloth, so that
// lays can be measured against published ones. Such files hold outlines of
// real garments (shirts, swimwear, jackets) in units of their own, a strip
// width, and the turns allowed.
type Instance struct {
	Name  string
	Cuts  []finish.Cut
	Cloth cloth.Cloth
	Unit  float64 // mm that one unit of the file becomes
	Area  float64 // of all outlines, in units of the file squared
	Width float64 // of the strip as its publisher states it, in units of the file
}

// instanceWidth is the width in mm that every strip is scaled to, about that
// of cloth, so that rounding to micrometres and the room left between pieces
// are as small beside the pieces as they are in a lay for a garment.
const instanceWidth = 1500

// FromInstance makes cuts of a packing problem. Every item must allow the same
// turns, [0] or [0, 180]: others would leave the grain.
func FromInstance(data []byte) (Instance, error) {
	f, err := ReadPacking(data)
	if err != nil {
		return Instance{}, err
	}
	direction, err := f.direction()
	if err != nil {
		return Instance{}, err
	}
	in := Instance{Name: f.Name, Unit: instanceWidth / f.Width, Area: f.Area(), Width: f.Nominal}
	end := float64(Squaring)
	for _, it := range f.Items {
		in.Cuts = append(in.Cuts, it.cuts(in.Unit)...)
		lo, hi := geom.BoundsOf(it.Shape)
		end += ((hi.X-lo.X)*in.Unit + 1) * float64(it.Demand) // as long as all of them in a row
	}
	in.Cloth = cloth.Cloth{
		Name: f.Name, Title: f.Name, Width: unit.MM(instanceWidth), Length: unit.MM(end), Direction: direction, Washed: true,
	}
	return in, nil
}

func (f Packing) direction() (cloth.Direction, error) {
	turns := f.Items[0].Turns
	for _, it := range f.Items {
		if !slices.Equal(it.Turns, turns) {
			return "", fmt.Errorf("packing problem %q: items %d and %d allow different turns", f.Name, f.Items[0].ID, it.ID)
		}
	}
	switch {
	case slices.Equal(turns, []float64{0}):
		return cloth.OneWay, nil
	case slices.Equal(turns, []float64{0, 180}):
		return cloth.TwoWay, nil
	}
	return "", fmt.Errorf("packing problem %q: turns of %v degrees leave the grain", f.Name, turns)
}

// cuts are the copies of an item, its x turned to be the grain.
func (it PackingItem) cuts(scale float64) []finish.Cut {
	outline := make([]finish.Micron, len(it.Shape))
	for i, p := range it.Shape {
		outline[i] = finish.Micron{X: micron(-p.Y * scale), Y: micron(p.X * scale)}
	}
	name := fmt.Sprintf("item-%d", it.ID)
	var out []finish.Cut
	for n := range it.Demand {
		out = append(out, finish.Cut{
			ID: fmt.Sprintf("%s#%d", name, n+1), Piece: name, Copy: piece.Single, Number: n + 1, Cloth: cloth.Main, Outline: outline,
		})
	}
	return out
}

// Length is what a lay of the instance takes in units of the file, without the
// squaring of the cut end.
func (in Instance) Length(l Lay) float64 { return (l.Length - Squaring) / in.Unit }

// Density is the area of all outlines over the strip used, 0 to 1, as the
// literature states it.
func (in Instance) Density(l Lay) float64 { return in.Area / (in.Width * in.Length(l)) }
