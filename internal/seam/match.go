package seam

import (
	"math"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// MatchPoint is a place of one copy that must show the same point of the
// cloth's repeat as the other places of its match.
type MatchPoint struct {
	Match         string // "outseam@left at knee": the seam, and the place along it
	Piece         string
	Copy          piece.Copy
	P             geom.Pt // on the stitching line, in the copy's coordinates
	Along, Across bool    // which repeats meet
	Place         finding.Place
}

// MatchPoints finds the places of every match of the garment's view on every
// side of its seams: on the stitching line, since that is where the pieces
// meet. Lengths in findings are written in unit u.
func MatchPoints(g pattern.Garment, seams []Seam, u unit.Unit) ([]MatchPoint, finding.List) {
	var out []MatchPoint
	var found finding.List
	for _, m := range g.View.Matches {
		for _, s := range seams {
			if s.Join != m.Join {
				continue
			}
			points, fs := matched(g, s, m, u)
			if found = append(found, fs...); len(fs) > 0 {
				break // the other hand would say the same
			}
			out = append(out, points...)
		}
	}
	return out, found
}

// matched finds one match on each side of a seam.
func matched(g pattern.Garment, s Seam, m pattern.Match, u unit.Unit) ([]MatchPoint, finding.List) {
	name := m
	name.Join = s.ID
	var out []MatchPoint
	first := ChainLength(s.Sides[0])
	if m.Point == "" && m.At.MM() > first {
		return nil, finding.List{matchBeyond.At(m.Place, m.Join, m.At, unit.Format(first, u))}
	}
	worked := worksIn(g, s)
	for i, chain := range s.Sides {
		whole := ChainLength(chain)
		beside := func(at float64) float64 { return at + float64(worked(at)*(whole-first)) }
		var walked float64
		switch m.Point {
		case pattern.Start:
		case pattern.Middle:
			walked = beside(first / 2)
		case pattern.End:
			walked = whole
		case "":
			walked = beside(m.At.MM())
		default:
			at, ok := findNotch(g, chain, m.Point)
			if !ok {
				return nil, finding.List{matchMissing.At(m.Place, m.Join, m.Point, i+1)}
			}
			walked = at
		}
		st, p := chainAt(chain, walked)
		out = append(out, MatchPoint{
			Match: name.String(), Piece: st.Piece, Copy: st.Copy, P: p, Along: m.Along, Across: m.Across, Place: m.Place,
		})
	}
	return out, nil
}

// chainAt is the place so many mm along a side, and the stretch it lies on.
func chainAt(chain []Stretch, walked float64) (Stretch, geom.Pt) {
	for i, s := range chain {
		if walked <= s.Length() || i == len(chain)-1 {
			return s, s.Curve.At(math.Max(0, walked))
		}
		walked -= s.Length()
	}
	return Stretch{}, geom.Pt{}
}
