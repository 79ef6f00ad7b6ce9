// Package seam walks seams: it lays the edges that will be sewn together along
// each other on the stitching line, from the seam's beginning to its end, and
// says how far the ends and the notches between miss each other.
//
// Walking is the pattern maker's proof that a garment can be sewn. It is done
// on the stitching line, never on the cut line: round a sleeve head the two
// differ by centimetres. A difference that the pattern states as ease is
// wanted; any other is a gap. Package seam only measures. Mending a seam is a
// change.
package seam

import (
	"fmt"
	"math"

	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Tolerance is how far a computed seam may miss, in mm: half a millimetre is
// below what can be cut (1/8 in already alters the fit) and far above the
// arithmetic.
const Tolerance = 0.5

// Walked is the result of walking every seam. Only Walk makes one.
type Walked struct{ seams []Report }

// Seams returns one report per seam.
func (w Walked) Seams() []Report { return w.seams }

// Widest returns the largest miss of any side or notch, in mm.
func (w Walked) Widest() float64 {
	var widest float64
	for _, r := range w.seams {
		widest = math.Max(widest, r.Widest())
	}
	return widest
}

// Report is one seam, walked.
type Report struct {
	Seam    Seam
	Lengths []float64 // mm, of each side
	// Gaps is, for each side, its length less the first side's and less the
	// stated ease, in mm; 0 for the first.
	Gaps    []float64
	Notches []NotchReport
}

// Widest returns the seam's largest miss in mm.
func (r Report) Widest() float64 {
	var widest float64
	for _, g := range r.Gaps {
		widest = math.Max(widest, math.Abs(g))
	}
	for _, n := range r.Notches {
		for _, g := range n.Gaps {
			widest = math.Max(widest, math.Abs(g))
		}
	}
	return widest
}

// NotchReport is one notch along a seam: where each side has it, in mm from
// the seam's beginning, and how far each side misses the first with the stated
// ease shared along the seam, or between two of its notches.
type NotchReport struct {
	Name string
	At   []float64
	Gaps []float64
}

// Walk walks every seam of the garment. Lengths in findings are written in
// unit u.
func Walk(g pattern.Garment, seams []Seam, u unit.Unit) (Walked, finding.List) {
	mirrored := map[string]bool{}
	for _, s := range seams {
		for _, side := range s.Sides {
			for _, st := range side {
				mirrored[st.Piece] = mirrored[st.Piece] || st.Copy == piece.Right
			}
		}
	}
	g = g.HandedOf(func(name string) bool { return mirrored[name] })
	var w Walked
	var out finding.List
	for _, s := range seams {
		r, fs := walk(g, s, u)
		w.seams = append(w.seams, r)
		out = append(out, fs...)
	}
	return w, out
}

func walk(g pattern.Garment, s Seam, u unit.Unit) (Report, finding.List) {
	r := Report{Seam: s}
	var out finding.List
	for i, chain := range s.Sides {
		l := ChainLength(chain)
		r.Lengths = append(r.Lengths, l)
		miss := l - r.Lengths[0] - s.Ease[i]
		if i == 0 {
			miss = 0
		}
		r.Gaps = append(r.Gaps, miss)
		if !(math.Abs(miss) <= Tolerance) { // nor may it be no number
			out = append(out, gapFinding(s, i, l-r.Lengths[0], u))
		}
	}
	worked := worksIn(g, s)
	for _, name := range s.Notches {
		n, fs := walkNotch(g, s, name, worked, u)
		out = append(out, fs...)
		if len(n.At) == len(s.Sides) {
			r.Notches = append(r.Notches, n)
		}
	}
	return r, out
}

func gapFinding(s Seam, side int, difference float64, u unit.Unit) finding.Finding {
	word := "longer"
	if difference < 0 {
		word = "shorter"
	}
	off := math.Abs(difference - s.Ease[side])
	f := gap.At(s.Place, s.ID, side+1, unit.Format(math.Abs(difference), u), word, unit.Format(s.Ease[side], u),
		s.Join, unit.Format(off/2, u), fmt.Sprintf("%s in over %s, %.1f %%", unit.Format(off, u), unit.Format(s.Length(), u), 100*off/s.Length()), unit.Format(off, u))
	for _, st := range s.Sides[side] {
		f = f.Note(st.Place(), "%s is %s long", st.Edge, unit.Format(st.Length(), u))
	}
	return f
}

// worksIn says what share of a seam's ease is worked in, 0 to 1, as far as a distance
// walked along its first side.
func worksIn(g pattern.Garment, s Seam) func(walked float64) float64 {
	from, to := 0.0, ChainLength(s.Sides[0])
	if len(s.Between) == 2 {
		a, ok1 := findNotch(g, s.Sides[0], s.Between[0])
		b, ok2 := findNotch(g, s.Sides[0], s.Between[1])
		if ok1 && ok2 && a != b {
			from, to = min(a, b), max(a, b)
		}
	}
	return func(walked float64) float64 { return min(max((walked-from)/(to-from), 0), 1) }
}

func walkNotch(g pattern.Garment, s Seam, name string, worked func(float64) float64, u unit.Unit) (NotchReport, finding.List) {
	n := NotchReport{Name: name}
	var out finding.List
	for i, chain := range s.Sides {
		at, ok := findNotch(g, chain, name)
		if !ok {
			out = append(out, notchMissing.At(s.Place, s.ID, name, i+1))
			return NotchReport{}, out
		}
		n.At = append(n.At, at)
		miss := 0.0
		if i > 0 {
			miss = at - n.At[0] - s.Ease[i]*worked(n.At[0])
		}
		n.Gaps = append(n.Gaps, miss)
		if math.Abs(miss) > Tolerance {
			out = append(out, notchGap.At(s.Place, name, s.ID, unit.Format(math.Abs(miss), u), s.Join))
		}
	}
	return n, out
}

// findNotch returns how far along the chain the named notch lies. A place
// where two stretches of the chain meet counts as well when it is called by
// the name of an edge that ends there.
func findNotch(g pattern.Garment, chain []Stretch, name string) (float64, bool) {
	var before float64
	for _, st := range chain {
		if p, ok := g.Copy(st.Piece, st.Copy); ok && !st.Inside {
			if m, ok := p.Notch(st.Edge, name); ok && m.At > st.From-0.01 && m.At < st.To+0.01 {
				return before + st.Walked(m.At), true
			}
		}
		before += st.Length()
	}
	return 0, false
}
