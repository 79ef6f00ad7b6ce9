// Package detect finds calibration cards in a photo: which they are, and where
// their corner marks lie to a few hundredths of a pixel.
//
// The finder patterns of the cards' symbols are looked for first (package
// gozxing finds candidates). Any three of them that could be one symbol seen at
// a slant are tried: the modules are sampled between them and the symbol is
// decoded. Where that gives the letter of a card, its corner marks are looked
// for where they must be, and their saddle points are measured.
package detect
