package construct

import (
	"math"

	"gusset/internal/cloth"
	"gusset/internal/method"
	"gusset/internal/pattern"
)

// The names of values with a meaning of their own.
const (
	allowanceValue = "allowance"
	turnValue      = "turn-of-cloth"
)

// turnOfCloth is the cloth used up by one fold, in mm: half a circle on the
// middle surface of a ply of the given thickness.
func turnOfCloth(thickness float64) float64 { return math.Pi / 2 * thickness }

// width is the allowance in mm of one side of an item on an edge where the
// paper prints printed mm.
func (it *item) width(side string, printed, turn float64) float64 {
	if list, ok := it.method.Allowance[side]; ok {
		var sum float64
		for _, name := range list {
			if name == turnValue {
				sum += turn
				continue
			}
			v, _ := it.value(name)
			sum += v
		}
		return math.Max(sum, 0)
	}
	if v, ok := it.values[allowanceValue]; ok {
		return v.MM()
	}
	if printed > 0 {
		return printed
	}
	v, _ := it.value(allowanceValue)
	return v
}

// folds lists the depths of the turns of a finish in mm.
func (it *item) folds() []float64 {
	var out []float64
	for _, name := range it.method.Folds {
		if v, _ := it.value(name); v > 0 {
			out = append(out, v)
		}
	}
	return out
}

// hemWidth is what a hem with these folds needs beyond its line.
func hemWidth(folds []float64, turn float64) float64 {
	sum := float64(len(folds)) * turn
	for _, f := range folds {
		sum += f
	}
	return sum
}

// thickness is that of one ply of a piece in mm: the cloth it is made of,
// without interfacing, which does not reach into the folds of an allowance.
func (b *builder) thickness(name string) float64 {
	u, ok := b.garment.Use(name)
	if !ok {
		return 0
	}
	return b.cloths[shellRole(u)].Thickness.MM()
}

// shellRole is the role of the cloth a piece is made of.
func shellRole(u pattern.Use) cloth.Role {
	for _, r := range u.Cloths {
		if r != cloth.Interfacing {
			return r
		}
	}
	if len(u.Cloths) > 0 {
		return u.Cloths[0]
	}
	return cloth.Main
}

// checkCloths reports every role that a piece asks for and nobody gave.
func (b *builder) checkCloths() {
	told := map[cloth.Role]bool{}
	for _, u := range b.garment.View.Uses {
		for _, r := range u.Cloths {
			if _, ok := b.cloths[r]; !ok && !told[r] {
				told[r] = true
				b.add(noCloth.At(u.Place.OnPiece(u.Piece, "", ""), u.Piece, string(r)))
			}
		}
	}
}

// demandKind says what a finish makes of an edge.
func (it *item) demandKind() DemandKind {
	switch {
	case it.takes != method.Finish:
		return ForSeam
	case len(it.folds()) > 0:
		return ForHem
	case len(it.method.Allowance) > 0:
		return ForSeam
	}
	return ForRaw
}
