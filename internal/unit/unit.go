package unit

import "math/big"

// Unit is a unit of length, named by its usual symbol.
type Unit string

// The units that are read and written.
const (
	Millimetre Unit = "mm"
	Centimetre Unit = "cm"
	Metre      Unit = "m"
	Inch       Unit = "in"
	Foot       Unit = "ft"
	Yard       Unit = "yd"
)

// System is the family a unit belongs to.
type System string

// The two families of units.
const (
	Metric   System = "metric"
	Imperial System = "imperial"
)

// tenths holds the size of each unit in tenths of a millimetre, an integer for
// every unit (NIST SP 811, appendix B.6), so that no factor is rounded.
var tenths = map[Unit]int64{
	Millimetre: 10,
	Centimetre: 100,
	Metre:      10000,
	Inch:       254,
	Foot:       3048,
	Yard:       9144,
}

// names lists every spelling that is read, in lower case.
var names = map[string]Unit{
	"mm": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre,
	"millimeter": Millimetre, "millimeters": Millimetre,
	"cm": Centimetre, "centimetre": Centimetre, "centimetres": Centimetre,
	"centimeter": Centimetre, "centimeters": Centimetre,
	"m": Metre, "metre": Metre, "metres": Metre, "meter": Metre, "meters": Metre,
	"in": Inch, "inch": Inch, "inches": Inch, `"`: Inch, "″": Inch, "”": Inch, "''": Inch,
	"ft": Foot, "foot": Foot, "feet": Foot, "'": Foot, "′": Foot, "’": Foot,
	"yd": Yard, "yds": Yard, "yard": Yard, "yards": Yard,
}

// Valid reports whether u is one of the units of this package.
func (u Unit) Valid() bool { return tenths[u] != 0 }

// System tells whether u is metric or imperial. It is "" for no unit.
func (u Unit) System() System {
	switch u {
	case Millimetre, Centimetre, Metre:
		return Metric
	case Inch, Foot, Yard:
		return Imperial
	}
	return ""
}

// millimetres turns an exact number of units into millimetres, rounded once.
func (u Unit) millimetres(value *big.Rat) float64 {
	mm := new(big.Rat).Mul(value, big.NewRat(tenths[u], 10))
	f, _ := mm.Float64()
	return f
}

// value turns millimetres into a number of units.
func (u Unit) value(mm float64) float64 {
	return mm * 10 / float64(tenths[u])
}
