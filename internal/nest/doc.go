// Package nest places flat shapes in strips and other flat containers so that
// nothing overlaps and the length used is small. It knows no cloth and no
// garment.
//
// # The subject
//
// A place for every shape, one after another, each as far back as it goes,
// is soon found and wastes much. A change of order changes everything that
// comes later, so searching over orders leads nowhere. What leads on is to turn
// the question round: fix the length, let the shapes overlap, take the overlaps
// out; when that works, shorten and ask again. So the heart of this package is
// a solver for a feasibility problem ("all of these in here"), and the length
// is an outer loop. It serves strips, remnants of any outline and several
// containers alike.
//
// # Overlap
//
// The offsets at which one shape stands too near another form a polygon, the
// no-fit polygon of the literature; here it is called a [fence]. Each shape is
// cut into convex parts once. The fence of two convex parts is convex (it is
// the Minkowski sum of one and the mirrored other), so a fence is a union of
// convex cells, and a question about two polygons becomes one about a point and
// a few half planes. An offset inside a cell also has a depth: how far it is to
// the cell's border. Summed over the cells, each weighted with the size of the
// parts, that is the severity of a quarrel: 0 exactly when the shapes keep
// clear, growing without jumps, falling in the direction that leads out.
//
// # Taking overlaps out
//
// The solver moves one quarrelling shape at a time to where its quarrels weigh
// least, among places drawn anywhere and near and refined downhill along one
// axis at a time. Every pair has a weight that grows as long as it quarrels and
// shrinks when it is free (guided local search: Voudouris and Tsang, 1999; for
// nesting: Egeblad, Nielsen and Odgaard, 2007). A stuck pair becomes dear,
// until one of the two gives way and goes elsewhere.
//
// # Shortening
//
// Exploring takes a little off the length and separates; where that fails
// again and again it goes back to a good failure, swaps two large shapes and
// tries anew. Compressing, at the end, takes ever smaller steps off the best;
// there parts that may tilt are tried at ever finer angles, and in the end lean
// no more than they must. [Gather] brings the small parts together that a search
// leaves lying about.
//
// # What holds
//
// Equal problem, seed, lanes and rounds give equal bytes, however the work is
// scheduled. There is no clock here: the context or the caller's [Budget] ends
// a search. Whatever the fences say, a layout is taken only when the outlines
// themselves keep clear.
package nest
