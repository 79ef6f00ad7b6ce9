// Package body holds a person's measurements, under the names of ISO 8559-1.
package body

import (
	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Measure names one body measurement.
type Measure string

// The measurements a trouser needs. Which waist is meant is stated by the body
// (see Body.WaistAt).
const (
	Height      Measure = "height"
	Waist       Measure = "waist"
	Hip         Measure = "hip"
	Thigh       Measure = "thigh"
	Knee        Measure = "knee"
	Calf        Measure = "calf"
	Ankle       Measure = "ankle"
	InsideLeg   Measure = "inside-leg"
	OutsideLeg  Measure = "outside-leg"
	BodyRise    Measure = "body-rise"
	CrotchTotal Measure = "crotch-length"
	Bust        Measure = "bust"
	HighBust    Measure = "high-bust"
	Neck        Measure = "neck"
	UpperArm    Measure = "upper-arm"
	ArmLength   Measure = "arm-length"
	BackWaist   Measure = "back-waist-length"
	Shoulder    Measure = "shoulder-length"
	BackWidth   Measure = "back-width"
)

// Range is what a measurement may plausibly be, in mm; outside it a slip of
// the tape or of the unit is more likely than a body.
type Range struct{ Low, High float64 }

// Ranges lists every measurement with its plausible range (common practice;
// wide on purpose, children included).
var Ranges = map[Measure]Range{
	Height: {700, 2300}, Waist: {400, 2000}, Hip: {450, 2200}, Thigh: {250, 1200},
	Knee: {180, 800}, Calf: {150, 800}, Ankle: {120, 500}, InsideLeg: {250, 1100},
	OutsideLeg: {350, 1400}, BodyRise: {120, 450}, CrotchTotal: {350, 1200},
	Bust: {450, 2000}, HighBust: {450, 1900}, Neck: {200, 700}, UpperArm: {130, 800},
	ArmLength: {250, 900}, BackWaist: {200, 600}, Shoulder: {60, 250}, BackWidth: {180, 700},
}

// Body is one person, measured.
type Body struct {
	Name  string // file name without ending
	Title string
	// WaistAt says which waist was measured: "natural" (where a belt settles)
	// or "midway" (between the lowest rib and the hip bone, ISO 8559-1).
	WaistAt string
	// Child says that the body is a child's: it is not held against figures of
	// adults.
	Child bool
	// Against says which figures the body is held against: "women", "men" or
	// "both".
	Against string
	// Checked lists measures that were taken again and are right, however
	// unlikely.
	Checked []Measure
	// Measures holds what each measure counts as: the mean of two readings, the
	// middle one of more.
	Measures map[Measure]unit.Length
	// Readings holds every reading of a measure, in the order written.
	Readings map[Measure][]unit.Length
	Places   map[Measure]finding.Place
	Place    finding.Place
}

// MM returns a measurement in mm.
func (b Body) MM(m Measure) (float64, bool) {
	l, ok := b.Measures[m]
	return l.MM(), ok
}

// Both is the word for figures of women and men alike.
const Both = "both"

// AgainstWords lists the figures that a body may be held against.
var AgainstWords = []string{"women", "men", Both}
