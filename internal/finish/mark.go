package finish

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

const (
	longestSlit  = 3.0 // mm
	shortestSlit = 0.5 // mm: less is no mark
)

// notches are slits from the cut line inwards, square to the stitching line.
func (o outlined) notches(p piece.Piece) [][2]geom.Pt {
	var out [][2]geom.Pt
	for _, k := range o.joints {
		out = append(out, k.slits...)
	}
	for _, m := range p.Marks {
		if m.Kind != piece.Notch {
			continue
		}
		for k, r := range o.runs {
			if s, ok := o.slit(k, r, m); ok {
				out = append(out, s)
				break
			}
		}
	}
	return out
}

func (o outlined) slit(k int, r run, m piece.Mark) ([2]geom.Pt, bool) {
	d := r.demand
	deep := math.Min(longestSlit, d.Width/3)
	if d.Edge != m.Edge || m.At < d.From-sameSpot || m.At > d.To+sameSpot || deep < shortestSlit {
		return [2]geom.Pt{}, false
	}
	in := r.line.TangentAt(m.At - d.From).Left()
	cut := r.line.At(m.At - d.From).Sub(in.Mul(d.Width))
	at, miss := r.ext.Nearest(cut)
	if from, to := o.kept(k); at < from-sameSpot || at > to+sameSpot || miss > 0.1 {
		return [2]geom.Pt{}, false
	}
	return [2]geom.Pt{cut, cut.Add(in.Mul(deep))}, true
}

// turns are the lines on which hems and facings are folded: the middle of each
// turn of cloth, from side to side of the cut piece.
func (o outlined) turns() []geom.Curve {
	var out []geom.Curve
	for k, r := range o.runs {
		if !r.turned {
			continue
		}
		n := len(o.joints)
		sides := []geom.Curve{o.joints[(k+n-1)%n].via, o.joints[k].via}
		in := r.line.StartTangent().Left()
		depth := r.demand.TurnOf / 2
		for _, f := range r.demand.Folds {
			base := r.line.Start().Sub(in.Mul(depth))
			line := geom.Polyline(base.Sub(r.line.StartTangent().Mul(longLine)), base.Add(r.line.StartTangent().Mul(longLine)))
			if a, okA := crossingOf(line, sides[0]); okA {
				if c, okC := crossingOf(line, sides[1]); okC {
					out = append(out, geom.Polyline(a, c))
				}
			}
			depth += r.demand.TurnOf + f
		}
	}
	return out
}

func crossingOf(line, side geom.Curve) (geom.Pt, bool) {
	if x := geom.Crossings(line, side); len(x) > 0 {
		return x[0].P, true
	}
	return geom.Pt{}, false
}

// labels say what is cut beyond each stretch.
func labels(rs []run) []Allowance {
	var out []Allowance
	for _, r := range rs {
		d := r.demand
		out = append(out, Allowance{Edge: d.Edge, Width: d.Width, At: r.line.At(r.line.Length() / 2), Note: note(d)})
	}
	return out
}

// note is the method and, for a hem, its turns.
func note(d construct.Demand) string {
	text := strings.ReplaceAll(d.Method, "-", " ")
	if d.Kind == construct.ForFold {
		return "on the fold"
	}
	if len(d.Folds) == 0 {
		return text
	}
	alike := true
	parts := make([]string, len(d.Folds))
	for i, f := range d.Folds {
		parts[i] = fmt.Sprintf("%.3g", f)
		alike = alike && f == d.Folds[0]
	}
	if alike && len(parts) > 1 {
		return fmt.Sprintf("%s %d × %s mm", text, len(parts), parts[0])
	}
	return text + " " + strings.Join(parts, " + ") + " mm"
}
