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
// might still be possible. Three facts keep the search small:
//
//   - Work that needs no change may be done at once. In a best order it can be
//     moved forward to now, where it costs nothing, and taking it out of its
//     later place costs nothing either, since a change from a to c costs no
//     more than one from a to b and one from b to c.
//   - Left and right hand operations that are mirror images of each other can
//     follow one another directly, by the same argument.
//   - Along any chain of operations that need each other, the changes in each
//     part of the set-up are forced; the parts add up.
package order
