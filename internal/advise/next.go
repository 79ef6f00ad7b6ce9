package advise

import (
	"context"
	"math"
	"slices"
	"strings"

	"gusset/internal/compare"
	"gusset/internal/docket"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Proposal is the change that answers a note of a fitting.
type Proposal struct {
	Note docket.Note
	// Change answers it; its Kind is empty where none does, and Why then says what
	// stood against the last one tried.
	Change docket.Change
	Text   string // what the change did, in trade words
	Why    string
	// Effect compares the make as it was with the make changed by this step and
	// those proposed before it.
	Effect compare.Report
}

// Next proposes the changes that answer the notes of a make, for the next one.
// Each has been made, with those before it, down to the cut pieces, without a
// stop: only what can be done is proposed.
func Next(ctx context.Context, in making.Inputs) []Proposal {
	in = copied(in)
	base := making.Run(ctx, in, making.Finish, making.Effort{}, nil)
	var out []Proposal
	for _, n := range in.Docket.Notes {
		p := Proposal{Note: n, Why: "nothing that Gusset can do answers it at this place"}
		before := base.Changed.Garment()
		for _, c := range answers(before, n, in.Docket.Unit) {
			c.ID = freeStep(in.Docket.Changes, n.ID)
			tried := copied(in)
			tried.Docket.Changes = append(tried.Docket.Changes, c)
			r := making.Run(ctx, tried, making.Finish, making.Effort{}, &base)
			if ctx.Err() != nil {
				return out
			}
			applied := r.Changed.Applied()
			if r.Findings.Stops() > base.Findings.Stops() || len(applied) != len(base.Changed.Applied())+1 {
				p.Why = firstNewStop(base, r)
				continue
			}
			p.Change, p.Text, p.Why = c, applied[len(applied)-1].Text, ""
			p.Effect = compare.Compare(compare.Version{Name: "as made", Garment: before}, compare.Version{Name: "next", Garment: r.Changed.Garment()}, "")
			in, base = tried, r
			break
		}
		out = append(out, p)
	}
	return out
}

func firstNewStop(base, r making.Result) string {
	c := counsel{base: base}
	if why := c.worse(r); why != "" {
		return why
	}
	return "it changes nothing"
}

func freeStep(steps []docket.Change, id string) string {
	for slices.ContainsFunc(steps, func(s docket.Change) bool { return s.ID == id }) {
		id += "-again"
	}
	return id
}

// answers lists the changes that may answer a note, the likeliest first. An amount
// is measured flat at the place, both sides of the seam together, so each edge of
// a seam takes half of it.
func answers(g pattern.Garment, n docket.Note, u unit.Unit) []docket.Change {
	ref, err := piece.ParseRef(n.Spot.Edge)
	if err != nil {
		return nil
	}
	p, ok := g.Pieces[ref.Piece]
	if !ok || p.Index(ref.Edge) < 0 {
		return nil
	}
	by := n.By.MM()
	signed := func(mm float64) unit.Length { return unit.MM(math.Round(mm*10) / 10).In(u) }
	level, below, above := levelsAt(p, ref.Edge, n.Spot)
	var out []docket.Change
	switch n.Feel {
	case docket.Tight, docket.Loose:
		if n.Feel == docket.Tight {
			by = -by
		}
		for _, seam := range seamsOf(g, ref) {
			for _, ends := range [][2]string{{below, above}, {"", above}, {below, ""}, {"", ""}} {
				out = append(out, docket.Change{Kind: docket.TakeIn, Item: seam, By: signed(by / 2), At: level, From: ends[0], Upto: ends[1]})
			}
		}
	case docket.Long, docket.Short:
		if n.Feel == docket.Long {
			by = -by
		}
		if finished(g, ref) {
			out = append(out, docket.Change{Kind: docket.MoveHem, Edge: ref.Edge, By: signed(by)})
		}
		for _, l := range p.Lines {
			if l.Kind == piece.Lengthen {
				out = append(out, docket.Change{Kind: docket.Lengthen, At: l.Name, By: signed(by)})
			}
		}
	case docket.High, docket.Low:
		if n.Feel == docket.High {
			by = -by
		}
		// A waist that darts cut up is raised all along: waist-side, waist-centre.
		if whole, _, cut := strings.Cut(ref.Edge, "-"); cut && parts(p, whole) > 1 {
			out = append(out, docket.Change{Kind: docket.RaiseEdge, Edge: whole, By: signed(by)})
		}
		out = append(out, docket.Change{Kind: docket.RaiseEdge, Edge: ref.Edge, By: signed(by)})
	case docket.Wrinkled, docket.Pulls:
		kind := docket.HollowBack
		if n.Feel == docket.Pulls {
			kind = docket.FullSeat
		}
		for _, seam := range seamsOf(g, ref) {
			out = append(out, docket.Change{Kind: kind, Item: seam, By: signed(by), At: level})
		}
	}
	return out
}

// parts counts the edges of a piece that are called after one.
func parts(p piece.Piece, whole string) int {
	n := 0
	for _, e := range p.Edges {
		if e.Name == whole || strings.HasPrefix(e.Name, whole+"-") {
			n++
		}
	}
	return n
}

// seamsOf lists the joins of two sides that take an edge, those between pieces
// that carry the figure first.
func seamsOf(g pattern.Garment, ref piece.Ref) []string {
	levelled := func(name string) bool {
		return slices.ContainsFunc(g.Pieces[name].Lines, func(l piece.Line) bool { return l.Kind == piece.Level })
	}
	var first, then []string
	for _, j := range g.View.Joins {
		takes, figure := false, true
		for _, side := range j.Sides {
			for _, r := range side {
				takes = takes || r.Piece == ref.Piece && r.Edge == ref.Edge && !r.Inside
				figure = figure && !r.Inside && levelled(r.Piece)
			}
		}
		switch {
		case !takes || len(j.Sides) != 2:
		case figure:
			first = append(first, j.ID)
		default:
			then = append(then, j.ID)
		}
	}
	return append(first, then...)
}

func finished(g pattern.Garment, ref piece.Ref) bool {
	for _, f := range g.View.Finishes {
		for _, r := range f.Edges {
			if r.Piece == ref.Piece && r.Edge == ref.Edge {
				return true
			}
		}
	}
	return false
}

// levelsAt is the level of a piece nearest to a place on one of its edges, and its
// neighbours below and above; empty where there is none.
func levelsAt(p piece.Piece, edge string, s docket.Spot) (level, below, above string) {
	var levels []piece.Line
	for _, l := range p.Lines {
		if l.Kind == piece.Level {
			levels = append(levels, l)
		}
	}
	height := func(l piece.Line) float64 { return (l.Curve.Start().Y + l.Curve.End().Y) / 2 }
	slices.SortFunc(levels, func(a, b piece.Line) int { return int(math.Copysign(1, height(a)-height(b))) })
	y := heightOf(p, edge, s)
	best := -1
	for i, l := range levels {
		if l.Name == s.At {
			best = i
			break
		}
		if best < 0 || math.Abs(height(l)-y) < math.Abs(height(levels[best])-y) {
			best = i
		}
	}
	if best < 0 {
		return "", "", ""
	}
	if best > 0 {
		below = levels[best-1].Name
	}
	if best+1 < len(levels) {
		above = levels[best+1].Name
	}
	return levels[best].Name, below, above
}

// heightOf is how high a place on an edge lies on the piece.
func heightOf(p piece.Piece, edge string, s docket.Spot) float64 {
	i := p.Index(edge)
	c := p.Edges[i].Curve
	l := c.Length()
	at := l / 2
	switch {
	case s.At == "" && s.From == p.After(i).Name:
		at = l - s.Along.MM()
	case s.At == "":
		at = s.Along.MM()
	default:
		if d, err := p.Corner(edge, s.At); err == nil {
			at = d
		}
	}
	return c.At(math.Min(math.Max(at, 0), l)).Y
}
