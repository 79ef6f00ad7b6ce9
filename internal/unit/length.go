package unit

import (
	"fmt"
	"math/big"
)

// LongestMM is the longest length that is read, in millimetres (100 m).
const LongestMM = 100_000

// Length is a length in millimetres together with the unit it was given in
// and, when a person typed it, the text as typed. The zero Length is 0 mm.
type Length struct {
	mm   float64
	unit Unit
	text string
}

// MM makes a computed length of mm millimetres, in the unit mm.
func MM(mm float64) Length { return Length{mm: mm, unit: Millimetre} }

// Of makes a computed length of value units. It panics when u is not a unit
// of this package, since units come from Parse or from the constants.
func Of(value float64, u Unit) Length {
	if !u.Valid() {
		panic(fmt.Sprintf("unit: %q is not a unit of length", string(u)))
	}
	exact := new(big.Rat).SetFloat64(value)
	if exact == nil { // NaN or infinite: kept, so that a later check sees it
		return Length{mm: value, unit: u}
	}
	return Length{mm: u.millimetres(exact), unit: u}
}

// MM is the length in millimetres.
func (l Length) MM() float64 { return l.mm }

// Unit is the unit the length was given in.
func (l Length) Unit() Unit {
	if l.unit == "" {
		return Millimetre
	}
	return l.unit
}

// IsZero reports whether the length is exactly nothing.
func (l Length) IsZero() bool { return l.mm == 0 }

// String is the length as typed (its white space made single), or formatted
// when it was computed. A bare number that took an assumed unit is given back with that unit.
func (l Length) String() string {
	if l.text != "" {
		return l.text
	}
	return Format(l.mm, l.Unit())
}

// In is the same length in another unit, no longer as typed. An unknown unit
// leaves the length as it is.
func (l Length) In(u Unit) Length {
	if !u.Valid() || u == l.Unit() {
		return l
	}
	return Length{mm: l.mm, unit: u}
}
