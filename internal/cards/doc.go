// Package cards says what calibration cards look like: the flat printed marks
// of known size that are laid beside a paper piece before it is photographed.
//
// A card keeps to a square of 100 mm. In the middle stands a QR symbol of
// version 1 (21 modules, ISO/IEC 18004) that holds nothing but the card's
// letter. Towards each corner, outside the symbol's quiet zone, two black
// squares touch at a point: that saddle is found in a photo to a few hundredths
// of a pixel, whatever the focus and the light, and the four of them are what
// is measured. Below the symbol stands a cross to hold a tape to, since a
// printer's own scale is never trusted. The paper is cut 10 mm outside the
// square, so that it can be taped down along its sides without covering a mark.
//
// A printer feeds its paper a little longer or shorter than it prints across.
// Every other card is therefore printed turned by a quarter: laid out all the
// same way up, the cards show the stretch apart from the lens.
//
// Coordinates of a card are millimetres from its middle, y towards its letter.
package cards
