package construct

import (
	"cmp"
	"math"
	"slices"

	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// claim is what one item asks of a stretch.
type claim struct {
	demand Demand
	weak   bool // leaves the width to others
}

// demands settles what every stretch of every copy's outline needs.
func (b *builder) demands() []Demand {
	claims := map[copyEdge][]claim{}
	for _, w := range b.works {
		for _, s := range w.intake.takes {
			claims[on(s)] = append(claims[on(s)], b.foldedIn(w, s))
		}
		if w.folds {
			continue
		}
		for i, side := range w.sides {
			for _, s := range side {
				if c, ok := b.claim(w, i, s); ok {
					claims[on(s)] = append(claims[on(s)], c)
				}
			}
		}
	}
	unsound := b.unsoundPieces()
	var out []Demand
	for _, u := range b.garment.View.Uses {
		for _, c := range u.CopyList() {
			p, ok := b.garment.Copy(u.Piece, c)
			for _, e := range p.Edges {
				if !ok {
					continue
				}
				k := copyEdge{u.Piece, c, e.Name, false}
				if u.Copies == pattern.OnFold && e.Name == u.FoldEdge {
					out = append(out, foldDemand(u, c, e))
					continue
				}
				settled, gaps := b.settle(k, e.Curve.Length(), claims[k])
				out = append(out, settled...)
				if !unsound[u.Piece] {
					b.reportOpen(e, k, gaps)
				}
			}
		}
	}
	return out
}

// unsoundPieces are those of items already reported: edges that these would
// have taken are not reported again.
func (b *builder) unsoundPieces() map[string]bool {
	out := map[string]bool{}
	for name := range b.lost {
		out[name] = true
	}
	for _, j := range b.garment.View.Joins {
		for _, side := range j.Sides {
			for _, r := range side {
				if !b.items[j.ID].sound {
					out[r.Piece] = true
				}
			}
		}
	}
	for _, f := range b.garment.View.Finishes {
		for _, r := range f.Edges {
			if !b.items[f.ID].sound {
				out[r.Piece] = true
			}
		}
	}
	return out
}

func foldDemand(u pattern.Use, c piece.Copy, e piece.Edge) Demand {
	return Demand{
		Piece: u.Piece, Copy: c, Edge: e.Name, To: e.Curve.Length(), Kind: ForFold,
		Place: e.Place.OnPiece(u.Piece, string(c), e.Name),
	}
}

// claim is what side i of a work asks of a stretch; nothing of lines inside.
func (b *builder) claim(w *work, i int, s Stretch) (claim, bool) {
	it := w.item
	if s.Inside || it.takes != method.Join && it.takes != method.Finish {
		return claim{}, false
	}
	p, _ := b.garment.Copy(s.Piece, s.Copy)
	e, _ := p.Edge(s.Edge)
	turn := turnOfCloth(b.thickness(s.Piece))
	d := Demand{
		Piece: s.Piece, Copy: s.Copy, Edge: s.Edge, From: s.From, To: s.To,
		Kind: it.demandKind(), Corner: it.method.Corner, Source: it.id, Method: it.method.Name,
		Place: it.place.OnPiece(s.Piece, string(s.Copy), s.Edge),
	}
	side := sideName(i)
	if it.takes == method.Finish {
		side = "edge"
	}
	if d.Kind == ForHem {
		d.Folds, d.TurnOf, d.Outside = it.folds(), turn, it.method.Outside
		d.Width = hemWidth(d.Folds, turn)
	} else {
		d.Width = it.width(side, e.Printed, turn)
	}
	return claim{d, it.bastes() || it.covers(side)}, true
}

// foldedIn is what a dart or pleat asks of a stretch that it takes in.
func (b *builder) foldedIn(w *work, s Stretch) claim {
	return claim{demand: Demand{
		Piece: s.Piece, Copy: s.Copy, Edge: s.Edge, From: s.From, To: s.To,
		Kind: ForIntake, Intake: w.intake.shape, Source: w.item.id, Method: w.item.method.Name,
		Place: w.item.place.OnPiece(s.Piece, string(s.Copy), s.Edge),
	}}
}

// settle divides an edge by its claims and chooses one for every interval. It
// also returns the intervals that none takes.
func (b *builder) settle(k copyEdge, length float64, claims []claim) (settled []Demand, gaps [][2]float64) {
	cuts := []float64{0, length}
	for _, c := range claims {
		cuts = append(cuts, c.demand.From, c.demand.To)
	}
	slices.Sort(cuts)
	cuts = slices.CompactFunc(cuts, func(x, y float64) bool { return math.Abs(x-y) < sameSpot })
	cuts[len(cuts)-1] = length
	for i := range len(cuts) - 1 {
		from, to := cuts[i], cuts[i+1]
		d, ok := b.choose(claims, (from+to)/2)
		if !ok {
			gaps = append(gaps, [2]float64{from, to})
			continue
		}
		d.From, d.To = from, to
		if n := len(settled); n > 0 && settled[n-1].Source == d.Source && settled[n-1].To == from && settled[n-1].Width == d.Width {
			settled[n-1].To = to
			continue
		}
		settled = append(settled, d)
	}
	return settled, gaps
}

// choose picks the claim that counts at a distance along the edge: the widest
// that is not weak, else the first.
func (b *builder) choose(claims []claim, at float64) (Demand, bool) {
	var here []claim
	for _, c := range claims {
		if c.demand.From <= at && at <= c.demand.To {
			here = append(here, c)
		}
	}
	if len(here) == 0 {
		return Demand{}, false
	}
	slices.SortStableFunc(here, func(x, y claim) int {
		if x.weak != y.weak {
			if x.weak {
				return 1
			}
			return -1
		}
		if x.weak {
			return 0
		}
		return cmp.Compare(y.demand.Width, x.demand.Width)
	})
	best := here[0]
	for _, c := range here[1:] {
		pair := best.demand.Source + " " + c.demand.Source + " " + best.demand.Piece + ":" + best.demand.Edge
		if !c.weak && best.demand.Width-c.demand.Width > 0.01 && !b.told[pair] {
			b.told[pair] = true
			b.add(twoWidths.At(c.demand.Place, best.demand.Edge, best.demand.Width, best.demand.Source, c.demand.Width, c.demand.Source).
				Note(best.demand.Place, "%s is here", best.demand.Source))
		}
	}
	return best.demand, true
}

func (b *builder) reportOpen(e piece.Edge, k copyEdge, gaps [][2]float64) {
	for _, g := range gaps {
		place := e.Place.OnPiece(k.piece, string(k.copy), k.edge).AtMM(g[0])
		b.add(edgeOpen.At(place, copyName(k.piece, k.copy)+":"+k.edge, g[0], g[1]))
	}
}
