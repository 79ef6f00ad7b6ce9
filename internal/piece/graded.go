package piece

import "gusset/internal/finding"

// Graded is one pattern piece drawn in every printed size. In has one piece
// per size, in the order of the pattern's size list, and all of them have the
// same edges, segments, lines and marks, so that what lies between two sizes
// can be drawn.
type Graded struct {
	Name  string
	Title string
	In    []Piece
	Place finding.Place
}
