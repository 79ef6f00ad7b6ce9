// Package sheet makes the papers to cut and sew from.
//
// The pattern sheets show each piece once, at true scale, as it is cut: the cut
// line with its allowance, the stitching line, grain, notches, folds and marks.
// A pair is shown as its left piece, to be cut once as it lies and once turned
// over; a piece on the fold as its half. They come in two forms. Tiled sheets
// are for a home printer: the pieces are arranged close together on one large
// area, which is cut into pages to be glued. A roll sheet is for a plotter.
//
// Paper that a printer has scaled is the commonest way to spoil a garment, so
// both forms carry squares and rules to measure before anything is cut.
//
// Every page names its docket and the digest of what it was made from: two
// pages with different digests do not belong together.
package sheet
