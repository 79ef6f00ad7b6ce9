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
// The order is searched over (what is done, set-up) with a lower bound on the
// changes still to come, so that on garments of usual size no order with fewer
// changes exists; where the search has to stop early, Steps.Least says how few
// might still be possible. Four facts keep the search small:
//
//   - Work that needs no change may be done at once. In a best order it can be
//     moved forward to now, where it costs nothing, and taking it out of its
//     later place costs nothing either, since a change from a to c costs no
//     more than one from a to b and one from b to c.
//   - Left and right hand operations that are mirror images of each other can
//     follow one another directly, by the same argument.
//   - What reaching a step costs besides is told by conditions of package reach:
//     it depends on which of a few seams are sewn before it. A seam that makes
//     nothing harder that is still to be done is free work like any other; the
//     others are tried in every place. What a seam adds to the steps behind it is
//     paid when it is sewn, which comes to the same as paying it step by step.
//     Where a seam makes a step easier again, because two openings become one,
//     neither is ever done early for being free, and the step pays when it comes.
//   - Along any chain of operations that need each other, the changes in each
//     part of the set-up are forced; the parts add up.
//
// The published sets for sequential ordering (TSPLIB) do not fit this search and
// are not solved by it: there a cost is given for every pair of operations that
// follow each other, any number at all, while the search rests on parts of a
// set-up that stay as they are until they are changed. With a value of its own
// for every operation nothing would be free work and the chains would bound
// nothing. The planner is held to plain dynamic programming instead.
package order
