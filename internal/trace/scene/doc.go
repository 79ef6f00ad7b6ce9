// Package scene renders photographs of a table with a paper piece and
// calibration cards on it, of which everything is known: where every point of
// the outline lies, the lens, the light. Tracing is tested and tuned on them.
//
// What is rendered: perspective, a lens with radial and, where asked for,
// decentring distortion and a third radial coefficient that the solver does not
// have; paper, cards and table as diffuse surfaces; light that falls off, a
// soft shadow, vignetting; blur, noise, and JPEG with halved colour. Cards come
// from the page that is printed, with a printer's error of scale and stretch.
// Paper that stands up from the table and cards that curl are rendered at their
// height.
//
// What is not: what a phone's own software does to a picture (sharpening,
// noise removal, several exposures made into one), a rolling shutter, glare,
// creases, paper that lets the table shine through. A trace that is right here
// may therefore still be wrong on a real photo.
package scene
