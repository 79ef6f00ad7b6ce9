package lay

import (
	"encoding/json"
	"fmt"
	"math"
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
	Width float64 // of the strip, in units of the file
}

// instanceWidth is the width in mm that every strip is scaled to, about that
// of cloth, so that rounding to micrometres and the room left between pieces
// are as small beside the pieces as they are in a lay for a garment.
const instanceWidth = 1500

// mostCopies bounds what a file may ask for.
const mostCopies = 10000

type instanceFile struct {
	Name  string         `json:"name"`
	Width float64        `json:"strip_width"`
	Items []instanceItem `json:"items"`
}

type instanceItem struct {
	ID        int          `json:"id"`
	Demand    int          `json:"demand"`
	Rotations []float64    `json:"allowed_rotations_deg"`
	Outer     [][2]float64 `json:"outer"`
}

// FromInstance reads a packing problem in JSON: name, strip_width, and items
// of id, demand, allowed_rotations_deg and outer (x along the strip, y across
// it). Every item must allow the same turns, [0] or [0, 180]: others would
// leave the grain.
func FromInstance(data []byte) (Instance, error) {
	var f instanceFile
	if err := json.Unmarshal(data, &f); err != nil {
		return Instance{}, fmt.Errorf("packing problem: %w", err)
	}
	if !(f.Width > 0 && f.Width < 1e9) || len(f.Items) == 0 {
		return Instance{}, fmt.Errorf("packing problem %q: a strip width of %v and %d items", f.Name, f.Width, len(f.Items))
	}
	direction, err := f.direction()
	if err != nil {
		return Instance{}, err
	}
	in := Instance{Name: f.Name, Unit: instanceWidth / f.Width, Width: f.Width}
	end := float64(Squaring)
	for _, it := range f.Items {
		cuts, long, err := it.cuts(in.Unit, mostCopies-len(in.Cuts))
		if err != nil {
			return Instance{}, fmt.Errorf("packing problem %q: item %d: %w", f.Name, it.ID, err)
		}
		in.Cuts = append(in.Cuts, cuts...)
		in.Area += float64(it.Demand) * math.Abs(geom.Area(it.points()))
		end += (long + 1) * float64(it.Demand) // as long as all of them in a row
	}
	in.Cloth = cloth.Cloth{
		Name: f.Name, Title: f.Name, Width: unit.MM(instanceWidth), Length: unit.MM(end), Direction: direction, Washed: true,
	}
	return in, nil
}

func (f instanceFile) direction() (cloth.Direction, error) {
	turns := f.Items[0].Rotations
	for _, it := range f.Items {
		if !slices.Equal(it.Rotations, turns) {
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

func (it instanceItem) points() []geom.Pt {
	out := make([]geom.Pt, len(it.Outer))
	for i, p := range it.Outer {
		out[i] = geom.Pt{X: p[0], Y: p[1]}
	}
	return out
}

// cuts are the copies of an item, its x turned to be the grain, and its length
// along the strip in mm.
func (it instanceItem) cuts(scale float64, most int) ([]finish.Cut, float64, error) {
	pts := it.points()
	if len(pts) < 3 || it.Demand < 0 || it.Demand > most {
		return nil, 0, fmt.Errorf("%d points, wanted %d times", len(pts), it.Demand)
	}
	if geom.Area(pts) < 0 {
		slices.Reverse(pts)
	}
	lo, hi := geom.BoundsOf(pts)
	if far := scale * max(hi.X, hi.Y, -lo.X, -lo.Y); !(far < 1e5) {
		return nil, 0, fmt.Errorf("reaches %.0f times the strip's width", far/instanceWidth)
	}
	outline := make([]finish.Micron, len(pts))
	for i, p := range pts {
		outline[i] = finish.Micron{X: micron(-p.Y * scale), Y: micron(p.X * scale)}
	}
	name := fmt.Sprintf("item-%d", it.ID)
	var out []finish.Cut
	for n := range it.Demand {
		out = append(out, finish.Cut{
			ID: fmt.Sprintf("%s#%d", name, n+1), Piece: name, Copy: piece.Single, Number: n + 1, Cloth: cloth.Main, Outline: outline,
		})
	}
	return out, (hi.X - lo.X) * scale, nil
}

// Length is what a lay of the instance takes in units of the file, without the
// squaring of the cut end.
func (in Instance) Length(l Lay) float64 { return (l.Length - Squaring) / in.Unit }

// Density is the area of all outlines over the strip used, 0 to 1, as the
// literature states it.
func (in Instance) Density(l Lay) float64 { return in.Area / (in.Width * in.Length(l)) }
