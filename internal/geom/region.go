package geom

import (
	"math"

	sf "github.com/peterstace/simplefeatures/geom"
)

// Booleans of polygons are done by simplefeatures, kept behind these functions
// alone. Its union of many shapes at once was seen to be wrong and is not used.

// Intersection returns the loops common to the polygons a and b: outer loops
// counter-clockwise, holes clockwise, so that their areas add up. Both must be
// simple and may run either way round. Where they share no area, or one has
// fewer than three corners, the result is empty.
func Intersection(a, b []Pt) [][]Pt {
	if len(distinct(a)) < 3 || len(distinct(b)) < 3 {
		return nil
	}
	return combine(sf.Intersection, [][]Pt{a}, b)
}

// Difference returns the loops of a that lie outside b, as Intersection does.
func Difference(a, b []Pt) [][]Pt {
	if len(distinct(a)) < 3 {
		return nil
	}
	return combine(sf.Difference, [][]Pt{a}, b)
}

// IntersectionArea returns the area in mm² that the polygons have in common.
func IntersectionArea(a, b []Pt) float64 { return areaOf(Intersection(a, b)) }

func areaOf(loops [][]Pt) float64 {
	var sum float64
	for _, l := range loops {
		sum += Area(l)
	}
	return sum
}

type boolean func(a, b sf.Geometry) (sf.Geometry, error)

// combine runs a boolean on a region given by its loops and a polygon. Should
// the library give up on a degenerate case, it is tried again on lattices of
// 1e-9, 1e-6 and 1e-4 mm, far below what cloth can show.
func combine(op boolean, a [][]Pt, b []Pt) [][]Pt {
	for _, lattice := range []float64{0, 1e-9, 1e-6, 1e-4} {
		if g, err := op(toRegion(a, lattice), toRegion([][]Pt{b}, lattice)); err == nil {
			return fromGeometry(g)
		}
	}
	return nil
}

// toRegion builds a library polygon from each counter-clockwise loop with the
// clockwise loops inside it as holes. A single loop may run either way.
func toRegion(loops [][]Pt, lattice float64) sf.Geometry {
	if len(loops) == 1 {
		return sf.NewPolygon([]sf.LineString{toRing(loops[0], lattice)}).AsGeometry()
	}
	var polys []sf.Polygon
	for _, outer := range loops {
		if Area(outer) <= 0 {
			continue
		}
		rings := []sf.LineString{toRing(outer, lattice)}
		for _, hole := range loops {
			if Area(hole) < 0 && Inside(outer, hole[0]) && Inside(outer, hole[1]) {
				rings = append(rings, toRing(hole, lattice))
			}
		}
		polys = append(polys, sf.NewPolygon(rings))
	}
	return sf.NewMultiPolygon(polys).AsGeometry()
}

func toRing(pts []Pt, lattice float64) sf.LineString {
	var xy []float64
	for _, p := range pts {
		if lattice > 0 {
			p = Pt{math.Round(p.X/lattice) * lattice, math.Round(p.Y/lattice) * lattice}
		}
		if n := len(xy); n > 0 && xy[n-2] == p.X && xy[n-1] == p.Y {
			continue
		}
		xy = append(xy, p.X, p.Y)
	}
	if n := len(xy); n > 0 && (xy[n-2] != xy[0] || xy[n-1] != xy[1]) {
		xy = append(xy, xy[0], xy[1])
	}
	return sf.NewLineString(sf.NewSequence(xy, sf.DimXY))
}

// fromGeometry lists the loops of every polygon in g; lower-dimensional parts,
// where shapes only touch, are dropped.
func fromGeometry(g sf.Geometry) [][]Pt {
	var out [][]Pt
	for _, part := range g.Dump() {
		p, ok := part.AsPolygon()
		if !ok || p.IsEmpty() {
			continue
		}
		out = append(out, loopOf(p.ExteriorRing(), true))
		for i := range p.NumInteriorRings() {
			out = append(out, loopOf(p.InteriorRingN(i), false))
		}
	}
	return out
}

func loopOf(ring sf.LineString, ccw bool) []Pt {
	seq := ring.Coordinates()
	out := make([]Pt, 0, seq.Length())
	for i := range seq.Length() - 1 {
		xy := seq.GetXY(i)
		out = append(out, Pt{xy.X, xy.Y})
	}
	if (Area(out) > 0) != ccw {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}
