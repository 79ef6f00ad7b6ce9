package finish

import (
	"math"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/piece"
)

const (
	straightTol = 0.3  // mm: a hem line this straight is turned up as one
	sameWidth   = 1e-6 // mm
	openTol     = 0.1  // mm of an edge that may be left over by rounding
)

// run is a stretch of the outline with one demand: its stitching line and the
// cut line beside it.
type run struct {
	demand construct.Demand
	line   geom.Curve // stitching line, counter-clockwise
	cut    geom.Curve // its parallel
	ext    geom.Curve // cut, carried on straight at both ends by reach
	reach  float64
	turned bool // a hem built of strips
	// after is the dart or pleat between this run and the next.
	after *folded
}

// newRun lays the cut line of a demand beside its stretch.
func newRun(d construct.Demand, line geom.Curve, widest float64) (run, error) {
	r := run{demand: d, line: line, cut: line}
	if d.Width > 0 {
		var err error
		if r.cut, err = line.Parallel(-d.Width); err != nil {
			return r, err
		}
	}
	r.reach = 4*widest + 20
	r.ext = r.cut.Extend(r.reach, r.reach)
	r.turned = d.Kind == construct.ForHem && d.Corner != method.Natural && line.Straight(straightTol)
	return r, nil
}

// end and start are where the cut line's own ends lie on the extended line.
func (r run) end() float64 { return r.ext.Length() - r.reach }

// start of the cut line on the extended line.
func (r run) start() float64 { return r.reach }

// runs lays the cut lines of a piece in outline order. Only demands of the
// piece's own copy are given, in outline order. A piece with an edge that the
// plan makes nothing of, which is reported there, has no cut line.
func (b *builder) runs(p piece.Piece, demands []construct.Demand) ([]run, bool) {
	var widest float64
	for _, d := range demands {
		widest = math.Max(widest, d.Width)
	}
	sound := true
	var out []run
	for _, e := range p.Edges {
		open := e.Curve.Length()
		for _, d := range demands {
			if d.Edge != e.Name {
				continue
			}
			open -= d.To - d.From
			r, err := newRun(d, e.Curve.Between(d.From, d.To), widest)
			if err != nil {
				b.add(foldsOver.At(d.Place, where(d), d.Width))
				sound = false
				continue
			}
			b.checkHem(r)
			out = append(out, r)
		}
		sound = sound && open < openTol
	}
	if !sound || len(out) == 0 {
		return nil, false
	}
	return b.withIntakes(out)
}

// checkHem reports a hem that cannot lie flat.
func (b *builder) checkHem(r run) {
	d := r.demand
	if d.Kind != construct.ForHem || len(d.Folds) == 0 || r.line.Straight(straightTol) {
		return
	}
	if excess := curvedExcess(r.line, d.Folds[0]); math.Abs(excess) > 1 {
		word := "long"
		if excess < 0 {
			word = "short"
		}
		b.add(hemCurved.At(d.Place, where(d), d.Folds[0], math.Abs(excess), word))
	}
}

// curvedExcess is how much longer the edge of a hem turned up by depth is than
// the line it comes to lie on, in mm. Parallel curves at a distance d differ in
// length by d times the angle they turn through; the edge lies depth outside
// the hem line and comes to lie depth inside it.
func curvedExcess(line geom.Curve, depth float64) float64 {
	pts := line.Flatten(0.01)
	going := line.StartTangent()
	var turn float64
	for i := 1; i <= len(pts); i++ {
		next := line.EndTangent()
		if i < len(pts) {
			next = pts[i].Sub(pts[i-1])
		}
		turn += turned(going, next)
		going = next
	}
	return 2 * depth * turn
}

// where names the edge of a demand.
func where(d construct.Demand) string {
	name := d.Piece
	if d.Copy == piece.Left || d.Copy == piece.Right {
		name += "@" + string(d.Copy)
	}
	return name + ":" + d.Edge
}
