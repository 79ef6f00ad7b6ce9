// Package change replays the docket's recipe on the sized pieces. Each kind of
// change is one file. A change takes a garment and returns another: nothing is
// edited in place, and the recipe is replayed from the sized pieces every time.
//
// Two rules of the trade hold for all of them. What is done to one edge is done
// to the edge it is sewn to, so after every step all joins are walked again,
// what has come apart is trued by small movements of corners (true.go), and a
// step that still opens a seam is refused. And the grain stays where it is: width
// changes move the sides, length changes run along the grain.
package change
