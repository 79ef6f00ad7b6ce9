package body

import (
	"math"
	"slices"
)

// Verdict is what comparing says of one measure.
type Verdict string

// The verdicts.
const (
	Goes       Verdict = "goes with the others"
	Unlikely   Verdict = "measure again"
	Estimated  Verdict = "estimated"
	MeasureIt  Verdict = "measure this"
	Uncompared Verdict = "not compared"
)

// Row is one measure held against the figures. Lengths are in mm.
type Row struct {
	Measure Measure
	Given   bool
	MM      float64 // as measured
	// Usual is what the other measures lead one to expect, and nine of ten
	// adults with those measures lie within Within of it. Zero when the
	// measure is not compared.
	Usual, Within float64
	// Off is how many standard deviations MM lies from what goes with the others
	// in the group that it lies nearer to, and Bound the least or most, on that
	// side, of 99 in 100 of that group.
	Off, Bound float64
	Verdict    Verdict
}

// Comparison is a body held against the figures of many adults.
type Comparison struct {
	Rows   []Row    // in the order of Measures
	Groups []string // that the body was held against
	// Rare lists the measures that fewer than one adult in a hundred has so
	// small or so large; the figures say little of bodies like that.
	Rare []Measure
}

// limit is how many standard deviations a measure may lie from what the others
// lead one to expect: one in 100 lies further by chance.
const limit = 2.5758

// rareLimit takes its place where another measure is rare: at the edge of the
// figures a straight line from the middle leads too near the middle, and only a
// gross slip can be told from an uncommon body. The published tables' largest
// sizes need it.
const rareLimit = 4.0

// nineOfTen is the half width of the middle nine tenths of a normal
// distribution, in standard deviations.
const nineOfTen = 1.6449

// goodEnough is how far an estimate may be out, nine times in ten, and still be
// of use: about one step from size to size of a paper pattern's chart at that
// measure (common practice).
var goodEnough = map[Measure]float64{
	Height: 40, Bust: 50, Waist: 50, Hip: 50, Thigh: 38, Knee: 25, Calf: 25, Ankle: 15, Neck: 15, UpperArm: 25,
	InsideLeg: 25, OutsideLeg: 25, CrotchTotal: 25, BackWaist: 12, Shoulder: 8, BackWidth: 20, ArmLength: 20,
}

// leastToCompare is how many measures the figures can tell anything from.
const leastToCompare = 2

// Compare holds a body against the figures: each measure is left out in turn,
// and compared with what the others lead one to expect. The one furthest off is
// set aside before the rest are looked at again, since one slip makes its
// neighbours look wrong. A child is not compared: the figures are of adults.
func Compare(b Body) Comparison {
	c := Comparison{}
	if b.Child {
		for _, m := range Measures() {
			c.Rows = append(c.Rows, plain(b, m))
		}
		return c
	}
	h := against(b)
	for _, g := range h.groups {
		c.Groups = append(c.Groups, g.name)
	}
	off, aside := h.unlikely()
	for _, m := range Measures() {
		r := h.row(m, aside)
		if slices.Contains(off, m) {
			r.Verdict = Unlikely
		}
		c.Rows = append(c.Rows, r)
		if h.rare(m) {
			c.Rare = append(c.Rare, m)
		}
	}
	if len(c.Rare) > 0 { // nothing is cut from a guess about a rare body
		for i, r := range c.Rows {
			if r.Verdict == Estimated {
				c.Rows[i].Verdict = MeasureIt
			}
		}
	}
	return c
}

// beside lists the measures that the unlikely ones were held against.
func (c Comparison) beside() []string {
	var all []string
	for _, r := range c.Rows {
		if _, known := surveyOf(r.Measure); known && r.Given && r.Verdict != Unlikely {
			all = append(all, string(r.Measure))
		}
	}
	return all
}

// Row returns the row of a measure.
func (c Comparison) Row(m Measure) Row {
	for _, r := range c.Rows {
		if r.Measure == m {
			return r
		}
	}
	return Row{Measure: m, Verdict: Uncompared}
}

// plain is the row of a measure that is not compared.
func plain(b Body, m Measure) Row {
	r := Row{Measure: m, Verdict: Uncompared}
	if r.MM, r.Given = b.MM(m); !r.Given {
		r.Verdict = MeasureIt
	}
	return r
}

// held is a body being held against groups.
type held struct {
	b      Body
	groups []group
}

// against holds a body against the groups that it asks for.
func against(b Body) held {
	h := held{b: b}
	for _, g := range groups {
		if b.Against == "" || b.Against == Both || b.Against == g.name {
			h.groups = append(h.groups, g)
		}
	}
	return h
}

// given lists the body's measures that the survey knows, but for those set
// aside.
func (h held) given(aside []Measure) (ms []surveyed, x []float64) {
	for _, s := range survey {
		if mm, ok := h.b.MM(s.measure); ok && !slices.Contains(aside, s.measure) {
			ms, x = append(ms, s), append(x, mm)
		}
	}
	return ms, x
}

// unlikely lists the measures that do not go with the others, the worst first.
// What the maker has measured again and found right is set aside like them, but
// is not unlikely.
func (h held) unlikely() (off, aside []Measure) {
	for {
		ms, x := h.given(aside)
		if len(ms) < leastToCompare {
			return off, aside
		}
		worst := -1
		far := h.far(ms, x)
		for i, s := range ms {
			if math.Abs(far[i].off) > h.limit(s.measure, ms) && (worst < 0 || math.Abs(far[i].off) > math.Abs(far[worst].off)) {
				worst = i
			}
		}
		if worst < 0 {
			return off, aside
		}
		m := ms[worst].measure
		aside = append(aside, m)
		if !slices.Contains(h.b.Checked, m) {
			off = append(off, m)
		}
	}
}

// limit is how far a measure may lie off beside the others.
func (h held) limit(m Measure, beside []surveyed) float64 {
	for _, s := range beside {
		if s.measure != m && h.rare(s.measure) {
			return rareLimit
		}
	}
	return limit
}

// distance is how far a value lies from what the others lead one to expect, in
// standard deviations, and the value that lies just at the limit on that side.
type distance struct{ off, bound float64 }

// far gives the distance of each value, in the group that it lies nearer to.
func (h held) far(ms []surveyed, x []float64) []distance {
	far := make([]distance, len(x))
	for k, g := range h.groups {
		expected, sd := g.over(ms, h.b.WaistAt).leaveOneOut(x)
		for i := range x {
			z := (x[i] - expected[i]) / sd[i]
			if k == 0 || math.Abs(z) < math.Abs(far[i].off) {
				far[i] = distance{z, expected[i] + math.Copysign(limit*sd[i], z)}
			}
		}
	}
	return far
}

// row compares one measure with those that are not set aside.
func (h held) row(m Measure, aside []Measure) Row {
	r := plain(h.b, m)
	s, known := surveyOf(m)
	ms, x := h.given(append(slices.Clone(aside), m))
	if !known || len(ms) == 0 || r.Given && len(ms)+1 < leastToCompare {
		return r
	}
	mean, sd := h.expect(s, ms, x)
	r.Usual, r.Within = mean, nineOfTen*sd
	switch {
	case !r.Given && r.Within <= goodEnough[m]:
		r.Verdict = Estimated
	case !r.Given:
		r.Verdict = MeasureIt
	default:
		far := h.far(append(ms, s), append(x, r.MM))[len(ms)]
		r.Off, r.Bound, r.Verdict = far.off, far.bound, Goes
	}
	return r
}

// expect returns mean and standard deviation of a measure for bodies with the
// given values. Each group counts by how well the values fit it.
func (h held) expect(s surveyed, ms []surveyed, x []float64) (mean, sd float64) {
	var weights, means, vars []float64
	best := math.Inf(-1)
	for _, g := range h.groups {
		w := g.over(ms, h.b.WaistAt).logDensity(x)
		e, sd := g.over(append(slices.Clone(ms), s), h.b.WaistAt).leaveOneOut(append(slices.Clone(x), 0))
		weights, means, vars = append(weights, w), append(means, e[len(ms)]), append(vars, float64(sd[len(ms)]*sd[len(ms)]))
		best = max(best, w)
	}
	var sum float64
	for k := range weights {
		weights[k] = math.Exp(weights[k] - best)
		sum += weights[k]
	}
	for k := range weights {
		mean += float64(weights[k] / sum * means[k])
	}
	var variance float64
	for k := range weights {
		variance += float64(weights[k] / sum * (vars[k] + float64((means[k]-mean)*(means[k]-mean))))
	}
	return mean, math.Sqrt(variance)
}

// rare reports whether a measure lies outside the middle 98 of 100 in every
// group, with room for the offset's spread.
func (h held) rare(m Measure) bool {
	s, known := surveyOf(m)
	mm, given := h.b.MM(m)
	if !known || !given {
		return false
	}
	o := s.offset(h.b.WaistAt)
	for _, g := range h.groups {
		i := g.index[s.key]
		if mm >= g.low[i]+o.mean-2*o.sd && mm <= g.high[i]+o.mean+2*o.sd {
			return false
		}
	}
	return len(h.groups) > 0
}
