package referee

import "gusset/internal/lay"

// The cloth is judged unfolded, flat and face up: where a fold laid two layers
// on each other, a piece cut through both is cut at two places of the flat
// cloth, and there every rule is as plain as on a single layer.

// flat is what a piece cuts of the flat cloth, once.
type flat struct {
	ring     ring
	quarters int // which way its top points there
}

// unfold tells what an outline before the cutter, cut through so many layers of
// a section, cuts of the flat cloth. The layer below lies as the cloth will;
// of that above:
//   - folded lengthwise, the near side was folded over: a point y from the fold
//     lay as far on the other side of it, and the fold lies at the depth;
//   - folded crosswise, the far part was folded back over the fold at To: what
//     lies before the fold lay behind it, its top the other way;
//   - cut and turned, that part was swung round besides, so that it lies as
//     before along the cloth and the far selvedge on the near one.
func (j *judge) unfold(s lay.Section, layers int, r ring, quarters int) []flat {
	depth, from, to := micron(s.Depth), micron(s.From), micron(s.To)
	below := flat{ring: r.put(false, 0, point{Y: depth}), quarters: quarters}
	if layers != 2 {
		return []flat{below}
	}
	switch s.Fold {
	case lay.Along:
		return []flat{below, {ring: r.upended(depth), quarters: quarters}}
	case lay.Across:
		return []flat{below, {ring: r.mirrored(2 * to), quarters: (quarters + 2) & 3}}
	case lay.Swung:
		return []flat{below, {ring: r.upended(j.width).put(false, 0, point{X: to - from}), quarters: quarters}}
	}
	return []flat{below}
}

// upended is the mirror image about y = at/2, again counter-clockwise.
func (r ring) upended(at int64) ring {
	out := make(ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = point{X: p.X, Y: at - p.Y}
	}
	return out
}
