// Package exchange takes pattern pieces in from open formats, and from ruler
// and tape, and gives them out again.
//
// Whatever the format, what comes in or goes out is a list of parts: one piece
// in one size, with its boundary, its stitching line if it is told, lines and
// marks inside. What a format cannot say (the name of an edge, which edges are
// sewn together, whether a line is cut or stitched on) is not guessed: it is
// proposed, and the user confirms it.
//
//	a file ─ ReadDXF, ReadSVG, ReadPDF, ReadTaped ─► parts ─ Graded ─► pieces in all sizes ─ Folder ─► a pattern folder
//	a pattern or a cut set ─ OfPattern, OfCuts ─► parts ─ WriteDXF, WriteSVG, WritePDF ─► a file
//
// # DXF
//
// The form is that of ASTM D6673 (Standard Practice for Sewn Products Pattern
// Data Interchange, withdrawn 2019): one style in a file, one block for each
// piece, text for what has no shape, and a layer for each meaning. Of the
// standard these parts were read: its scope and definitions (D6673-04 and -10),
// and its table of layers in a digest. The words of the system text (STYLE
// NAME, PIECE NAME, SIZE, QUANTITY as left, right), and that a notch is a POINT
// whose angle says which way it is cut, are from memory. Grade rule tables are
// neither read nor written: every size has a block of its own, and grade points
// (layer 5) are passed over and told. Arcs, bulges and splines, which the standard
// does without, are read as curves. Files are
// written in the plain entities of release 12, which readers of the release 13
// that the standard names take as well.
//
// # PDF
//
// Of ISO 32000-1 what drawn lines need is read: paths and their strokes, forms,
// optional content by its name, streams packed by Flate, LZW (with predictors),
// ASCII85 and hexadecimal, object streams, and sheets of one drawing. Not read:
// encrypted files, clipping, filled shapes without a line, words, pictures, and
// layers that are switched off, which are taken like the others.
package exchange
