package geom

// bendRange is the range of the curvatures that a stretch takes, in 1/mm. A
// cubic can come near every point of a stretch and still bend far more sharply
// than it: where one handle is short it turns within a fraction of a
// millimetre. Such a hook cannot be seen or cut, but a parallel of it folds.
type bendRange struct {
	lo, hi float64
	some   bool
}

// Curvatures may leave the range by a fifth of its larger end and 1/500 mm more
// before a fit is refused.
const (
	bendShare = 0.2
	bendSlack = 1.0 / 500
)

func (r *bendRange) add(k float64) {
	if !r.some {
		r.lo, r.hi, r.some = k, k, true
	}
	r.lo, r.hi = min(r.lo, k), max(r.hi, k)
}

// hold reports whether the segment bends within the range.
func (r bendRange) hold(s Seg) bool {
	slack := bendSlack + float64(bendShare*max(-r.lo, r.hi))
	for k := range 2*fitSamples + 1 {
		if b := s.Curvature(float64(k) / (2 * fitSamples)); b < r.lo-slack || b > r.hi+slack {
			return false
		}
	}
	return true
}

// parallelBend is the curvature of the parallel at d of a curve of curvature k:
// its radius is less by d. At a point of infinite curvature the parallel is an
// arc about that point, and where it has no radius left it bends without limit.
func parallelBend(k, d float64) float64 { return k / (1 - float64(k*d)) }
