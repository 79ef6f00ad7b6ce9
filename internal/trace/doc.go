// Package trace turns photographs of a paper piece, taken beside calibration
// cards, into the piece at true scale.
//
// Read the photos (package photo), find the cards in them (detect), solve lens,
// views and cards together with the tape readings (camera), and find the edge of
// the paper (outline): that is Run. What cannot be relied on is refused with a
// finding that says what to do; nothing is guessed.
package trace
