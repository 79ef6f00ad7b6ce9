package cloth

import (
	"math"

	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Repeat is how often the stripes or bars of a cloth come again. Stripes that
// run across the cloth repeat along it, those that run along it repeat across,
// a plaid does both; a length of zero stands for no repeat that way.
//
// A repeat is even when it reads the same from either end: then pieces may be
// turned, and the two hands of a garment can mirror each other. An uneven one
// has a top, or a left and a right, like a one-way print.
type Repeat struct {
	Along, Across unit.Length
	Even          bool
	// Bar is how far the middle of a main bar that runs along the cloth lies
	// from the outer edge of the near selvedge; Known says that it was given.
	Bar   unit.Length
	Known bool
	Place finding.Place
}

// Exists reports whether the cloth repeats at all.
func (r Repeat) Exists() bool { return !r.Along.IsZero() || !r.Across.IsZero() }

// Periods are the repeats in mm along and across the cloth, after washing; 0
// for none.
func (c Cloth) Periods() (along, across float64) {
	return c.Repeat.Along.MM() * (1 - c.ShrinkWarp), c.Repeat.Across.MM() * (1 - c.ShrinkWeft)
}

// Centred reports whether the middles of the bars that run along the cloth are
// known as lines about which it is its own mirror image.
func (c Cloth) Centred() bool { return !c.Repeat.Across.IsZero() && c.Repeat.Even && c.Repeat.Known }

// Bar is how far the middle of a main bar lies from the inner border of the
// near selvedge in mm, after washing.
func (c Cloth) Bar() float64 { return (c.Repeat.Bar.MM() - c.Selvedge.MM()) * (1 - c.ShrinkWeft) }

// TopsOneWay reports whether all tops must point one way: for the cloth's
// direction, for an uneven repeat, or since nothing tells where a piece turned
// end for end would meet the bars.
func (c Cloth) TopsOneWay() bool {
	return c.Direction == OneWay || c.Repeat.Exists() && !c.Repeat.Even || !c.Repeat.Across.IsZero() && !c.Repeat.Known
}

// OnBar is how near a fold must come to the middle of a bar, or of the space
// between two, for the cloth to be folded on it, in mm.
const OnBar = 1.0

// FoldsAt reports whether the cloth may be folded along a line so many mm from
// the inner border of the near selvedge: the layers show the same only when
// that is a line of symmetry of the repeat across. beside is how far the line
// lies from the nearest such line.
func (c Cloth) FoldsAt(y float64) (beside float64, ok bool) {
	_, across := c.Periods()
	if across == 0 {
		return 0, true
	}
	if !c.Centred() {
		return 0, false
	}
	beside = math.Abs(math.Remainder(y-c.Bar(), across/2))
	return beside, beside <= OnBar
}

// Repeats outside these are no stripes to be matched: finer ones read as one
// colour at arm's length (common practice: under 6 mm, a quarter of an inch,
// nobody matches).
const (
	leastRepeat = 3
	mostRepeat  = 3000
)

var (
	noRepeat = finding.Kind{
		Code: "cloth.no-repeat", Severity: finding.Stop,
		Text: "this repeat is neither along the cloth nor across it",
		Mend: "write how often the pattern comes again: along: 12 cm, across: 8 cm, or both",
	}
	largeRepeat = finding.Kind{
		Code: "cloth.repeat-large", Severity: finding.Stop,
		Text: "the repeat of %[1]s %[2]s is more than the %[3]s of cloth that way, so nothing comes again",
		Mend: "measure from the middle of one bar to the middle of the next of its kind, or leave the repeat out",
	}
	barless = finding.Kind{
		Code: "cloth.bar", Severity: finding.Warn,
		Text: "bar tells where bars that run along this cloth lie, and it has no repeat across; it is not used",
		Mend: "give the repeat across, or leave bar out",
	}
)

// repeat reads the repeat. A faulty one is left out.
func (c *Cloth) repeat(m *source.Map, out *finding.List) {
	if !m.Has("repeat") {
		return
	}
	r := m.Map("repeat")
	got := Repeat{
		Along:  r.Length("along", "", leastRepeat, mostRepeat),
		Across: r.Length("across", "", leastRepeat, mostRepeat),
		Even:   r.Required().Yes("even"),
		Bar:    r.Length("bar", "", 0, 5000),
		Known:  r.Has("bar"),
		Place:  r.Place(),
	}
	tried := r.Has("along") || r.Has("across")
	r.Done()
	switch {
	case !tried:
		*out = append(*out, noRepeat.At(got.Place))
		return
	case !c.Length.IsZero() && got.Along.MM() > c.Length.MM():
		*out = append(*out, largeRepeat.At(r.Key("along").Place(), got.Along, "along", c.Length))
		return
	case !c.Width.IsZero() && got.Across.MM() > c.Width.MM()-2*c.Selvedge.MM():
		*out = append(*out, largeRepeat.At(r.Key("across").Place(), got.Across, "across", unit.Format(c.Width.MM()-2*c.Selvedge.MM(), c.Width.Unit())))
		return
	case got.Known && !r.Has("across"):
		*out = append(*out, barless.At(r.Key("bar").Place()))
		got.Known = false
	}
	c.Repeat = got
}
