// Package figure draws where the tape goes: a plain standing figure from the
// front, the back and the side, one that sits, and on them the course of the
// tape for each measure.
//
// The figure is nobody's. Its heights are those of the mean adult of the figures
// in body/stats, women and men alike; its widths are drawn by eye. Coordinates
// are millimetres at life size, y up from the floor, x from the middle of the
// figure; a caller brings them down to the paper with an affine map.
//
// A girth is drawn as the ring that the tape makes, seen a little from above:
// the half that faces the reader full, the half behind dashed. A length is a
// line with an arrow at each end.
package figure
