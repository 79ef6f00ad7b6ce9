// Package advise answers "my cloth is too short: what would make it fit?"
//
// A cutter who runs short has a handful of old remedies. Fold the cloth another
// way. Cut what does not show from another cloth. Join a waistband or a facing
// out of two parts. Turn up less hem. Take the leg in, where the figure has ease
// to spare. Turn some pieces end for end, if the cloth lets you. Each costs
// something, and the cost belongs beside the gain.
//
// Nothing is estimated here. Each remedy is an edit to the docket (or to what it
// names), made on a copy of the inputs and run through every stage that it
// touches, down to a lay that the referee has judged; the gain is the length
// that the lay took before less what it takes after. So a remedy that fits is
// one whose lay exists. The search is a search: a remedy said to be a
// little short may fit after a longer look, never the other way round.
//
// Remedies are tried each alone, from mild to strong, and stop at the mildest
// that fits; then those that do not fit alone are tried two by two. The number
// of trials is bounded, each looks for a fixed number of rounds, and the same
// inputs give the same advice.
package advise
