// Package unit reads and writes lengths as people type them at a work table.
//
// A pattern maker mixes notations: a printed pattern says 34 1/2 in, the tape
// says 88,5 cm, the seam allowance is 6 mm and the cloth was bought as 2 1/4 yd.
// Inside the program every length is a float64 in millimetres, but a Length
// also remembers the unit and the text it was typed in, so that what the
// program says back is what the person wrote.
//
// # What is read
//
//	number   88.5   88,5   .5   34 1/2   34-1/2   1/2   34½   ½
//	sign     +2.5 cm   -1/2 in
//	unit     mm cm m in ft yd, their full names, and ' and " for ft and in
//
// A comma is a decimal comma. A comma before exactly three digits (1,000 mm)
// is refused, since half the world would read it as one thousand. A length
// has one unit only (5 ft 3 in is refused) and at most 100 m.
//
// # Where the factors come from
//
// The inch is 25.4 mm exactly, the foot 12 in and the yard 36 in, by the
// international yard and pound agreement of 1959 (NIST Special Publication
// 811, appendix B.6: 1 yd = 0.9144 m exactly). Conversions are made in exact
// rational arithmetic and rounded once.
package unit
