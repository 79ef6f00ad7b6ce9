package making

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/lay"
)

// laid is what came of laying one cloth: a lay, unless the referee has refused
// it, and what there is to say.
type laid struct {
	role  cloth.Role
	lay   lay.Lay
	sound bool
	found finding.List
}

// Pass is one more look for better lays.
type Pass struct {
	Number int // 1 for the first pass of Look
	Rounds int
	Seed   uint64
	Best   map[cloth.Role]float64 // the length that each cloth's best lay takes by now, mm
}

// mostRounds is where passes stop growing.
const mostRounds = 1 << 20

// Look goes on from a make that has reached its lays: pass after pass, each
// with twice as many rounds as the one before and from another seed, until ctx
// ends or no pass is left; passes below 1 mean no end. It keeps the best lay
// of every cloth that the referee has passed, and of every plan the least
// length found. The first pass continues what made r with effort e. begun, when
// not nil, is told of each pass; e.Report of each better lay within one.
//
// What is found depends on when ctx ends, so the digest afterwards is that of
// the lays themselves.
func Look(ctx context.Context, in Inputs, r Result, e Effort, passes int, begun func(Pass)) Result {
	if r.Reached != Lay {
		return r
	}
	best := slices.Clone(r.laid)
	e.Anew = true
	for n := 1; (passes < 1 || n <= passes) && ctx.Err() == nil; n++ {
		e.Rounds = min(max(2*e.Rounds, 1), mostRounds)
		e.Seed++
		if begun != nil {
			begun(Pass{Number: n, Rounds: e.Rounds, Seed: e.Seed, Best: lengths(best)})
		}
		next := Run(ctx, in, Lay, e, &r)
		for i := range best {
			if i < len(next.laid) && next.laid[i].role == best[i].role {
				best[i] = better(best[i], next.laid[i])
			}
		}
	}
	r.takeLays(best)
	return r
}

// On goes on with a make from where it is, up to a stage: with the lays that
// Look has found, where it has. Nothing that is there is made again.
func (r Result) On(ctx context.Context, in Inputs, until Stage) Result {
	if r.Findings.Stops() > 0 && r.Reached < Lay {
		return r
	}
	n := &run{Result: r, in: in, ctx: ctx}
	n.keys = maps.Clone(r.keys)
	for s := r.Reached + 1; s <= until; s++ {
		n.key(s)
		stages[s](n)
		n.Reached = s
		n.Findings = append(slices.Clip(n.Findings), n.byStage[s]...)
	}
	n.Digest = n.whole()
	return n.Result
}

func lengths(list []laid) map[cloth.Role]float64 {
	out := map[cloth.Role]float64{}
	for _, l := range list {
		if l.sound && len(l.lay.Unplaced) == 0 {
			out[l.role] = l.lay.Length
		}
	}
	return out
}

// better is the lay with fewer pieces left, then the shorter one; the plans
// tried in both are put together.
func better(a, b laid) laid {
	if !b.sound || a.sound && (len(b.lay.Unplaced) > len(a.lay.Unplaced) ||
		len(b.lay.Unplaced) == len(a.lay.Unplaced) && b.lay.Length >= a.lay.Length) {
		a, b = b, a
	}
	if !a.sound {
		return b
	}
	b.lay.Tried = slices.Clone(b.lay.Tried)
	for i, t := range b.lay.Tried {
		k := slices.IndexFunc(a.lay.Tried, func(u lay.Attempt) bool { return u.Plan == t.Plan })
		if k >= 0 && a.lay.Tried[k].Unplaced <= t.Unplaced && a.lay.Tried[k].Length < t.Length && t.Plan != b.lay.Plan {
			b.lay.Tried[i] = a.lay.Tried[k]
		}
	}
	return b
}

// takeLays puts lays in place of those of the result.
func (r *Result) takeLays(list []laid) {
	r.laid, r.Lays, r.byStage[Lay], r.Findings = list, nil, nil, nil
	h := sha256.New()
	fmt.Fprintln(h, r.keys[Finish])
	for _, l := range list {
		r.byStage[Lay] = append(r.byStage[Lay], l.found...)
		if l.sound {
			r.Lays = append(r.Lays, l.lay)
		}
		for _, p := range l.lay.Placed {
			fmt.Fprintln(h, l.role, p.Cut.ID, p.Section, p.Layers, p.Flip, p.Degrees, p.AtX, p.AtY)
		}
	}
	for s := Fit; s <= r.Reached; s++ {
		r.Findings = append(r.Findings, r.byStage[s]...)
	}
	r.keys = maps.Clone(r.keys)
	r.keys[Lay] = hex.EncodeToString(h.Sum(nil))
	r.Digest = r.keys[Lay][:12]
}
