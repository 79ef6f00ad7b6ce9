// Package referee judges a finished lay again, before it is shown or printed.
//
// A search for a short lay is long and clever code, and a mistake in it is cut
// into cloth. The referee is neither: it takes the cut pieces, the cloth and
// the lay, and goes through the rules of cutting out one by one, in whole
// micrometres. It shares no geometry with the search: it puts every outline
// down itself, from the cut piece and the four numbers of its placement.
//
// The rules: every piece is cut exactly once and nothing else is; no two
// pieces share cloth, though they may touch; every piece lies inside its
// section, between the selvedges, within the length; its grain runs along the
// cloth; on one-way cloth all tops point one way; a piece is not turned face
// down on a single layer; on folded cloth each piece is either one of a pair of
// mirror images or half of a piece whose fold line lies exactly on the fold.
//
// Placements turn by quarter turns only, and then whole micrometres stay whole,
// so no verdict depends on rounding. Coordinates of up to half a kilometre are
// judged; there every product fits 64 bits (see ring.go).
package referee
