// Package draw holds one display list that every picture of the program is
// made from: pattern sheets, lay charts, work cards, previews and web pages.
// What is drawn once is written as SVG for browsers, PDF for printers and PNG
// for screens, and looks the same in all three.
//
// # The paper
//
// Coordinates are millimetres on the paper, y up, with the origin in the lower
// left corner of the page. A [List] may be drawn in any coordinates (those of a
// piece, say) and placed with [List.Transform] afterwards. Only points are
// mapped: a pen keeps its width and its dashes, because a line 0.3 mm wide has
// to stay visible in an overview at 1:10. Text is placed, turned and scaled
// with the map, but never mirrored, so it can always be read.
//
// # True scale
//
// A pattern is cut from what the printer made of a page, so the PDF states its
// lengths to 0.0001 point, page sizes to 0.01 point (3.5 µm), and asks print
// dialogs for no scaling. Curves stay curves in PDF and SVG; only pixels are
// made from chords, and those within a tenth of a pixel.
//
// # Layers
//
// [List.Layer] names a part of the drawing. A name is one layer throughout a
// document, which a PDF viewer can switch off (optional content, ISO 32000-1
// 8.11) and a page script can find as a class.
//
// # Sheets
//
// [List.Tile] cuts a drawing that is larger than the paper into sheets to be
// glued together. [Flow] fills pages with headings, [Block] text, a [Table]
// that goes on over the page's end, and pictures.
package draw
