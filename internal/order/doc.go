// Package order puts the operations of a make in an order of work.
//
// Two things bind the order. Some operations need others first: a pocket is
// set before the side seam closes, an edge is overlocked before it is turned.
// And every change of set-up costs time: walking to the iron, rethreading for
// topstitching, changing the foot. A good order is one that respects the first
// and has few of the second.
//
// The set-up is more than the last operation. A thread stays in its machine
// while work goes on elsewhere, so the state of the room is where one stands,
// what the lockstitch machine is threaded with, how it is set, which foot is
// on, and what the overlocker is threaded with. An operation asks only for some
// of these.
//
// # The search
//
// The order is searched over (what is done, set-up), the most promising first,
// so that on garments of usual size no order with fewer changes exists; where
// the search has to stop early, Steps.Least says how few might still be
// possible. These facts keep it small:
//
//   - Work that needs no change may be done at once. In a best order it can be
//     moved forward to now, where it costs nothing, and taking it out of its
//     later place costs nothing either, since a change from a to c costs no
//     more than one from a to b and one from b to c.
//   - Left and right hand operations that are mirror images of each other can
//     follow one another directly, by the same argument.
//   - Of two ways to have the same work done, the dearer one is dropped when
//     changing the set-up of the cheaper to its own costs no more than the
//     difference.
//   - The parts of the set-up are paid for separately. So the garment is seen
//     in some of them at a time: only the place, only the lockstitch's thread,
//     stitch and foot, only the overlocker's thread. In each such view most
//     work is free and few sets of work done are different, so that what is still
//     to be paid in it is found exactly. The views add up to a lower bound.
//
// # Reach in the search
//
// What reaching a step costs besides is told by conditions of package reach: it
// depends on which of a few seams are sewn before it. Where one seam alone makes a
// step harder, an order lets the seam wait for the step, like any other need, or
// it does not and pays for it. The search goes by these decisions (see branching):
// first every such seam waits, which leaves little to search and mostly gives the
// best order; then one after the other is let go and has to come first. What is
// paid for that, and a bound for the changes, rule out most of them at once.
//
// What is left are seams of which several together close, or open again. A seam
// that makes nothing harder that is still to be done is free work like any other;
// the others are tried in every place. What a seam adds to the steps behind it is
// paid when it is sewn, which comes to the same as paying it step by step. Where a
// seam makes a step easier again, because two openings become one, neither is
// ever done early for being free, and the step pays when it comes. Where a few
// thousand states do not settle it, whether such a seam comes before its step or
// after is decided too, one way and then the other.
//
// # Orders alike
//
// Of orders with as few changes the search takes one with the fewest trips to
// the iron. What then may stand in several places is put where its sub-assembly is
// at hand (see gatherer): that is done by moving runs of work about and is no
// proof that no list reads better.
//
// # What was tried
//
// On garments of 80 and 120 operations with conditions of reach (BenchmarkReach):
//
//   - A bound from the longest chain in each part and the values still to be set left
//     a gap of 6 to 18 changes at the start; 12 chains of 80 operations were not
//     proved in 150 000 states.
//   - The views leave a gap of 0 to 5, most often 1 or 2. A view of the place
//     alone has some thousand states with 80 operations, up to a hundred thousand
//     with 120.
//   - Views of place and thread together, or place and foot, narrow the gap by
//     another 1 to 3 changes, but have up to a million states and cost more than
//     they save.
//   - Seams that wait where they cannot do else took the garments that are hardest
//     to reach into from no proof to a fraction of a second. Letting all others go at
//     once left a gap of 5 to 10 changes at the start, since what is paid for reach is
//     in no view; deciding them one by one proves most of these, too.
//   - A few states' trial before a seam is decided: 2000 is about as good as 500 or
//     8000.
//
// Garments sewn by the program's own methods are all proved, ten of 80 operations in
// about 0.02 s and ten of 120 in 0.2 s (medians; the longest 0.05 and 0.6 s). So are
// chains at random, of 80 operations in 8 or 12 chains (0.02 and 0.04 s) and of 120 in
// 8 (0.3 s, the longest 5 s). Of 120 in 12 or 16 chains, which no garment is like, some
// are given up after some seconds, and the gap is told.
//
// # Published sets
//
// The published sets for sequential ordering (TSPLIB) do not fit this search and
// are not solved by it: there a cost is given for every pair of operations that
// follow each other, any number at all, while the search rests on parts of a
// set-up that stay as they are until they are changed. With a value of its own
// for every operation nothing would be free work and the chains would bound
// nothing. The planner is held to plain dynamic programming instead, and to
// published sets of precedence with the places of work dealt out to their tasks.
package order
