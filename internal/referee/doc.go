// Package referee judges a finished lay again, before it is shown or printed.
//
// A search for a short lay is long and clever code, and a mistake in it is cut
// into cloth. The referee is neither: it takes the cut pieces, the cloth and
// the lay, and goes through the rules of cutting out one by one, in whole
// micrometres. It shares no geometry with the search: it puts every outline
// down itself, from the cut piece and the four numbers of its placement.
//
// The rules: every piece is cut exactly once and nothing else is; folded cloth
// is unfolded in thought, and on the flat cloth no two pieces share any of it,
// though they may touch, and none lies on a flaw or off an odd remnant; every
// piece lies inside its section, between the selvedges, within the length; its
// grain runs along the cloth; on one-way cloth all tops point one way; a piece
// is not turned face down on a single layer; where the cloth lies double each
// piece is either one of a pair of mirror images or half of a piece whose fold
// line lies exactly on a fold; on cloth with a repeat the matched places of the
// stitching lines show the same point of it.
//
// Placements turn by quarter turns, and then whole micrometres stay whole, so no
// verdict depends on rounding. The one exception is a small hidden piece off the
// grain, by permission: its corners are judged as rounded, to 2 µm (see
// tilt.go). Coordinates of up to half a kilometre are judged; there every
// product fits 64 bits (see ring.go).
//
// Two things are taken from the lay as they are told: the permission to lie off
// the grain, and the matches that were given up because they contradict each
// other.
package referee
