package trace

import (
	"fmt"
	"strconv"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/trace/follow"
	"gusset/internal/trace/outline"
	"gusset/internal/trace/photo"
)

// Route is a printed outline to be followed: places on it in their order round
// the piece, in mm of the table's frame, which is that of the preview's grid.
type Route struct {
	Size   string
	Places []geom.Pt
}

// ParseRoute reads a route as typed, places in cm: "12: 10,5 20; 31 20.4; 30 55".
func ParseRoute(text string) (Route, error) {
	size, places, ok := strings.Cut(text, ":")
	r := Route{Size: strings.TrimSpace(size)}
	if !ok || r.Size == "" {
		return r, fmt.Errorf("follow %q: write a size and places in cm, as 12: 10.5 20; 31 20.4; 30 55", text)
	}
	for _, place := range strings.Split(strings.TrimSuffix(strings.TrimSpace(places), ";"), ";") {
		xy := strings.Fields(place)
		if len(xy) != 2 {
			return r, fmt.Errorf("follow, size %s: %q is not two numbers in cm, across and up", r.Size, strings.TrimSpace(place))
		}
		var v [2]float64
		for i, word := range xy {
			n, err := strconv.ParseFloat(strings.Replace(word, ",", ".", 1), 64)
			if err != nil || !(n > -1000 && n < 1000) {
				return r, fmt.Errorf("follow, size %s: %q is not a number in cm", r.Size, word)
			}
			v[i] = 10 * n
		}
		r.Places = append(r.Places, geom.Pt{X: v[0], Y: v[1]})
	}
	return r, nil
}

// Sheet solves the photos of a sheet without looking for the edge of a paper:
// its preview shows where the lines are.
func Sheet(photos []*photo.Photo, tapes []Tape) (Traced, finding.List) {
	var t Traced
	if len(photos) == 0 {
		return t, finding.List{noCards.At(finding.Place{})}
	}
	var found finding.List
	t.Table, found = solveTable(photos, tapes)
	return t, found
}

// Inks below which a way is refused, and warned of: dashes as long as their gaps
// have 0.5.
const inkStop, inkWarn = 0.35, 0.45

// besideWarn is over how many mm another line may run beside the way: lines that
// meet at a corner do so for about a centimetre.
const besideWarn = 20

// nearPlace is how far from a place that the user points at, in mm, the way may
// go to a dash and back.
const nearPlace = 6

// Follow traces a printed outline on a sheet that is solved.
func (t Traced) Follow(r Route, tolerance float64) (Traced, finding.List) {
	var found finding.List
	if len(r.Places) < 3 {
		return t, finding.List{fewPlaces.At(finding.Place{}, r.Size, len(r.Places))}
	}
	back := inverse(t.Table.fromCards())
	at := make([]geom.Pt, len(r.Places))
	for i, p := range r.Places {
		if at[i] = back.Apply(p); outline.BestShot(t.Table.Shots, at[i]) < 0 {
			found = append(found, offTable.At(finding.Place{}, r.Size, i+1, p.X/10, p.Y/10))
		}
	}
	if len(found) > 0 {
		return t, found
	}
	var legs [][]geom.Pt
	for i, p := range at {
		j := (i + 1) % len(at)
		leg := follow.Between(t.Table.Shots, p, at[j])
		switch {
		case leg.Ink < inkStop || len(leg.Points) < 3:
			found = append(found, noInk.At(finding.Place{}, r.Size, i+1, j+1, 100*leg.Ink))
		case leg.Ink < inkWarn:
			found = append(found, littleInk.At(finding.Place{}, r.Size, i+1, j+1, 100*leg.Ink))
		}
		if leg.Beside > besideWarn {
			found = append(found, linesClose.At(finding.Place{}, r.Size, i+1, j+1, leg.Beside))
		}
		legs = append(legs, leg.Points)
	}
	if found.Stops() > 0 {
		return t, found
	}
	t.Shape = outline.FromLegs(legs, at, nearPlace, tolerance)
	t.Edge.Points = t.Loop()
	if _, _, _, crosses := geom.SelfCrossing(t.Edge.Points); crosses {
		found = append(found, folds.At(finding.Place{}, r.Size))
	}
	t.Lines = outline.Lines(t.Table.Shots, t.Edge.Points)
	return t, found
}

// Sizes makes one piece of an outline for each size, all in one frame, upright
// by the grain in the first, and drawn alike: the same edges, each with the same
// number of lines and curves.
func Sizes(all []Traced, names []string, n Naming) ([]piece.Piece, finding.List) {
	grain, found := all[0].grain(n.Grain)
	if found.Stops() > 0 {
		return nil, found
	}
	for i, t := range all {
		if a, b := len(all[0].Shape.Edges), len(t.Shape.Edges); a != b {
			found = append(found, unlike.At(finding.Place{}, names[i], b, names[0], a))
		}
	}
	if found.Stops() > 0 {
		return nil, found
	}
	m := all[0].upright(grain, margin)
	var lo geom.Pt
	for _, t := range all {
		for _, p := range t.Loop() {
			p = m.Apply(p)
			lo.X, lo.Y = min(lo.X, p.X-margin), min(lo.Y, p.Y-margin)
		}
	}
	m = m.Then(geom.Shift(lo.Mul(-1)))
	pieces := make([]piece.Piece, len(all))
	for i, t := range all {
		n.Grain = all[0].grainLine(n.Grain)
		t.Lines = all[0].Lines // one grain for all sizes
		pieces[i] = t.pieceUnder(m, n)
	}
	for e := range pieces[0].Edges {
		alike(pieces, e)
	}
	return pieces, found
}

// alike gives an edge the same lines and curves in every size: one line where it
// is straight in all, else as many curves as the size that needs most has.
func alike(pieces []piece.Piece, e int) {
	most, straight := 0, true
	for _, p := range pieces {
		c := p.Edges[e].Curve
		most = max(most, len(c))
		straight = straight && len(c) == 1 && c[0].Straight
	}
	if straight {
		return
	}
	for _, p := range pieces {
		p.Edges[e].Curve = inParts(p.Edges[e].Curve, most)
	}
}

// inParts is a curve as n cubics that divide it into equal lengths.
func inParts(c geom.Curve, n int) geom.Curve {
	var out geom.Curve
	for k := range n {
		l := c.Length()
		part := c.Between(l*float64(k)/float64(n), l*float64(k+1)/float64(n))
		var pts []geom.Pt
		for j := range 41 {
			pts = append(pts, part.At(part.Length()*float64(j)/40))
		}
		const any = 1e9 // one cubic, the nearest
		out = append(out, geom.Fit(pts, part.StartTangent(), part.EndTangent(), any)...)
	}
	for i := range out { // lines among them become curves as well
		if s := out[i]; s.Straight {
			a, b := s.P[0], s.P[3]
			out[i] = geom.Cubic(a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b)
		}
	}
	return out
}
