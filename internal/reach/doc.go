// Package reach tells when a line of stitching can still be got at.
//
// A garment in the making is a glued surface: flat pieces whose edges are sewn
// to each other, seam after seam. At first everything lies flat on the table.
// Then the second leg seam makes a tube, the seat seam joins two tubes, the
// lining is bagged out and closed. A machine needs the cloth laid open under
// its foot or slipped round its free arm; what is deep inside a narrow tube is
// awkward, or left to the hand, or cannot be reached at all. So some lines have
// to be sewn before a seam closes, and some before the last of two seams.
//
// # The surface
//
// The outline of every copy is broken into arcs at corners and at the ends of
// seams, so that a seam glues arc to arc. What is glued in a state of the work
// gives, by counting cells, the Euler number χ = corners − arcs + pieces of
// each connected part; by walking the free arcs and jumping across glued ones
// its openings. A part with χ = 1 and one opening lies flat (or is a bag with a
// gap, which its depth tells), χ = 0 with two is a tube, χ = −1 with three is a
// pair of trousers, and one without an opening is a closed bag.
//
// A seam's third ply, a part set on the face of another and an edge sewn down
// over a finished seam lie on the surface and do not change its shape; neither
// does a fastening, which opens.
//
// # Tubes and depth
//
// What matters at a point p of a line is the girth, the length of the shortest
// loop through p that cannot be shrunk to nothing, and the depth, the distance
// from p to an opening wide enough to enter by. Loops are told apart by labels:
// every glued arc carries a vector of whole numbers whose signed sum round any
// inner corner is zero, and a loop shrinks when what it crosses adds up to
// zero. The vectors come from a tree of pieces and a tree of the remaining
// arcs: each arc in neither closes one cycle (tree and cotree, as in Eppstein,
// "Dynamic generators of topologically embedded graphs", 2003). On parts
// without handles, and clothes rarely have any, this decides exactly; with
// belt loops or straps a loop that crosses twice to and fro passes for one that
// shrinks.
//
// Sewing removes openings and never lengthens a way along the cloth, so a line
// only gets harder to reach. The exception is two openings that become one,
// wider than both: two leg tops make a waist.
//
// # Plies beneath
//
// A facing or a pocket bag that is turned in along a seam lies on the cloth it is
// sewn to, folded over along that seam; a part that is set on lies where it is set.
// A line sewn there goes through it as well unless it is held aside. By one seam
// it is turned back like a page. Held by more, it cannot be drawn from within the
// shortest outline round the edges where it is held, and a line in there, clear of
// these edges, catches it: it is sewn before the last of those seams, or by a hand
// that takes up the upper ply only. Only the face that a ply is turned in from
// is looked at, not its neighbours, and a ply that is meant to be caught, because the
// work is on it, is not told.
//
// # Bulk
//
// Where a line runs over the end of a seam, the plies that it goes through lie as
// often as that seam has plies there: a double hem over a felled seam is 3 × 4. They
// are measured against how high the foot lifts, as the machine file states it or
// by a guess that is marked as one.
//
// # Trial, not law
//
// The sizes of the machine are the user's to measure (see Machine). The limits
// below come from reasoning and no handbook: how wide a tube must be to be laid
// open, how much cloth can be bunched on the arm, what a hand passes through.
// They are constants of their own in sizes.go, to be set by trial.
package reach
