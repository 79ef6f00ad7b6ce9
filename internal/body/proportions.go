package body

import (
	"maps"
	"math"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// smaller lists pairs of measures of which the first is the smaller on nearly
// every body (common practice); the other way round the two were exchanged or a
// unit is wrong.
var smaller = [][2]Measure{
	{Knee, Thigh}, {Ankle, Calf}, {Ankle, Knee}, {Calf, Thigh}, {Thigh, Hip}, {Thigh, Waist}, {Neck, HighBust}, {Neck, Bust},
	{Neck, Waist}, {InsideLeg, OutsideLeg}, {OutsideLeg, Height}, {InsideLeg, Height}, {UpperArm, Bust},
	{Shoulder, BackWidth}, {BodyRise, InsideLeg}, {BackWaist, InsideLeg}, {BackWidth, HighBust}, {CrotchTotal, Hip},
}

// usuallySmaller lists pairs that are as often right as exchanged (common
// practice).
var usuallySmaller = [][2]Measure{{Waist, Hip}, {ArmLength, InsideLeg}}

// riseSlack is how far the body rise, taken sitting, may differ from outside
// less inside leg, taken standing, in mm (common practice).
const riseSlack = 40

// doubts tells which measures ought to be taken again, each for one reason: one
// that cannot be is not held against the figures as well, and one that seldom is
// is told only where the figures find nothing.
func (b Body) doubts() finding.List {
	out := readings(b)
	wrong := append(exchanged(b, smaller, unlikely), rises(b)...)
	rest := b
	rest.Measures = maps.Clone(b.Measures)
	for _, f := range wrong.Filter(func(f finding.Finding) bool { return f.Code() == unlikely.Code }) {
		delete(rest.Measures, f.Args[0].(Measure))
		delete(rest.Measures, f.Args[2].(Measure))
	}
	figures := likelihood(rest)
	seldom := exchanged(rest, usuallySmaller, unusual).Filter(func(f finding.Finding) bool {
		return !figures.Has(implausible.Code)
	})
	return slices.Concat(out, wrong, seldom, figures)
}

// rises tells of a body rise that is not what the two legs differ by.
func rises(b Body) finding.List {
	outside, okO := b.MM(OutsideLeg)
	inside, okI := b.MM(InsideLeg)
	rise, okR := b.MM(BodyRise)
	if !okO || !okI || !okR || math.Abs(outside-inside-rise) <= riseSlack {
		return nil
	}
	return finding.List{sumOff.At(b.Places[BodyRise], unit.Format(outside-inside, b.Measures[BodyRise].Unit()), b.Measures[BodyRise])}
}

// exchanged tells of the pairs whose first is the larger, unless the maker has
// checked both.
func exchanged(b Body, pairs [][2]Measure, kind finding.Kind) finding.List {
	var out finding.List
	for _, p := range pairs {
		s, okS := b.Measures[p[0]]
		l, okL := b.Measures[p[1]]
		sure := slices.Contains(b.Checked, p[0]) && slices.Contains(b.Checked, p[1])
		if okS && okL && !sure && s.MM() > l.MM() {
			f := kind.At(b.Places[p[0]], p[0], s, p[1], l)
			out = append(out, f.Note(b.Places[p[1]], "%s is here", p[1]))
		}
	}
	return out
}
