// Package finish adds the allowances: it turns the plan of a garment into the
// pieces that are cut.
//
// A pattern piece is kept on its stitching line. What is cut lies outside it by
// as much as the plan asks of every stretch: parallel to the line for a seam,
// turned up in the hem line for a hem, not at all on a fold. Where two
// allowances meet, the corner is shaped so that the cloth meets its neighbour
// once pressed:
//
//   - natural: both cut lines run on until they meet;
//   - square: the allowance ends square to its stitching line where the
//     neighbour's cut line meets that line;
//   - mirror: its end is the neighbour's cut line reflected in the stitching
//     line, so that the allowance folded back lies on the piece edge to edge;
//   - mitre: two turned allowances meet on the bisector of the corner.
//
// A hem is made of strips. Folded up, the first strip lies on the piece, the
// next on the first, and so on, each as wide as the piece is at that height;
// between them lies the cloth that goes round each fold (package construct),
// where the sides run square to the hem line. A hem line must be straight for
// that. A curved one gets a parallel allowance, and the cloth that is too much
// at its edge is reported.
//
// Corners blunted at three times the allowance, 5 mm left beyond a mitred
// corner, slits of at most 3 mm and a third of the allowance as notches, and
// interfacing cut 3 mm beyond the stitching line are common practice.
package finish
