package demo

import (
	"context"
	"math"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/referee"
	"gusset/internal/source"
)

const onStripes = "dockets/quay-stripe.yaml"

// TestStripesMeet lays the trousers on the stripe and on the plaid of the shelf,
// open and folded: the referee finds every matched join in step, nothing is left
// unmatched, and on open cloth the places of each match are measured here as
// well, half a millimetre being allowed. A piece turned end for end reads the
// repeat backwards from the squared line and from a bar.
func TestStripesMeet(t *testing.T) {
	in := open(t, onStripes)
	r := making.Run(context.Background(), in, making.Finish, making.Effort{}, nil)
	calm(t, onStripes, r.Findings)
	for _, name := range []string{"deck-stripe", "lamp-plaid"} {
		c, found := cloth.Load(source.File{Path: "cloths/" + name + ".yaml", Data: []byte(read(t, "cloths/"+name+".yaml"))})
		calm(t, name, found)
		for _, fold := range []string{"open", "lengthwise"} {
			what := name + " " + fold
			l, found := lay.Make(context.Background(), c, cloth.Main, r.Cut.Pieces(), lay.Options{Fold: fold, Rounds: 40, Seed: 1})
			calm(t, what, found)
			calm(t, what, referee.Check(ofMain(r.Cut.Pieces()), c, l))
			if string(l.Plan) != fold || len(l.Unplaced) > 0 || len(l.Unmatched) > 0 || l.Left() < 0 {
				t.Errorf("%s: laid %s, no place for %v, unmatched %v, %.0f mm left", what, l.Plan, l.Unplaced, l.Unmatched, l.Left())
			}
			if fold == "open" {
				measured(t, what, l)
			}
		}
	}
}

func ofMain(cuts []finish.Cut) []finish.Cut {
	var out []finish.Cut
	for _, k := range cuts {
		if k.Cloth == cloth.Main {
			out = append(out, k)
		}
	}
	return out
}

// measured compares the places of each match on an open lay.
func measured(t *testing.T, what string, l lay.Lay) {
	t.Helper()
	along, across := l.Cloth.Periods()
	seen := map[string]geom.Pt{}
	met := map[string]bool{}
	for _, p := range l.Placed {
		for _, m := range p.Cut.Matched {
			q := p.Put(geom.Pt{X: float64(m.At.X) / 1000, Y: float64(m.At.Y) / 1000}).Sub(geom.Pt{X: lay.Squaring, Y: l.Cloth.Bar()})
			if p.Degrees == 90 {
				q = q.Mul(-1)
			}
			o, again := seen[m.Match]
			if !again {
				seen[m.Match] = q
				continue
			}
			met[m.Match] = true
			if by := math.Abs(math.Remainder(q.X-o.X, along)); m.Along && by > 0.5 {
				t.Errorf("%s: %s misses by %.2f mm along", what, m.Match, by)
			}
			if by := math.Abs(math.Remainder(q.Y-o.Y, across)); across > 0 && m.Across && by > 0.5 {
				t.Errorf("%s: %s misses by %.2f mm across", what, m.Match, by)
			}
		}
	}
	// Outseam, inseam, yoke and both pockets for each hand; fork and seat once.
	if len(met) != 5*2+2 {
		t.Errorf("%s: %d matches were measured, want 12: %v", what, len(met), met)
	}
}
