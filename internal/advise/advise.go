package advise

import (
	"cmp"
	"context"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/making"
)

// Options say how far to look.
type Options struct {
	// Effort is how long every trial looks for a lay. The base that gains are
	// measured from must have been laid with the same.
	Effort making.Effort
	// Others are the cloths of the workroom that hidden pieces might be cut
	// from.
	Others []cloth.Cloth
	// Pairs is the most remedies that are tried two by two; 0 tries none.
	Pairs int
	// Report, when not nil, is told what is being tried.
	Report func(Progress)
}

// Progress is how far the looking has come.
type Progress struct {
	Cloth    string // the title of the cloth
	What     string // being tried
	Done, Of int
}

// Advice is what would make one cloth suffice.
type Advice struct {
	Role   cloth.Role
	Cloth  cloth.Cloth
	Plan   lay.Plan // how the lay is folded, and every remedy but another fold with it
	Length float64  // mm that the lay takes as it is
	Short  float64  // mm that are missing
	// Least is what the pieces would take without any gap between them, mm: no
	// lay takes less.
	Least   float64
	Alone   []Offer // by gain, the largest first
	Pairs   []Offer
	Vain    []Vain // remedies that gain nothing, or cannot be had
	Trials  int    // lays tried
	Stopped bool   // the context ended before everything was tried
}

// Offer is one remedy, or two together, with what came of it.
type Offer struct {
	Steps  []Step
	Length float64 // mm that the lay then takes
	Gain   float64 // mm less than as it is
	Left   float64 // mm of the cloth then left; below zero: still missing
}

// Vain is a remedy that gains nothing.
type Vain struct {
	Text string
	Why  string // why it cannot be had; empty when it can, and gains nothing
}

// Fits tells whether the cloth then suffices.
func (o Offer) Fits() bool { return o.Left >= 0 }

// Step is one remedy in words.
type Step struct {
	Way     string // "fold", "hem", "leg" and so on
	Text    string // follows "with": "a single hem instead of a double hem"
	Warning string // what it costs; empty for nothing
	File    string // the file to change, within the workroom; empty for none
	Write   string // what to write there
}

// Short advises on every cloth of a made docket that is too short. base is the
// docket as made up to its lays with o.Effort. When ctx ends, what has been
// found by then is returned.
func Short(ctx context.Context, in making.Inputs, base making.Result, o Options) []Advice {
	var out []Advice
	in.Kept, in.Hand = nil, nil // every trial is laid anew
	for _, l := range base.Lays {
		if len(l.Unplaced) == 0 && l.Left() < 0 {
			c := &counsel{ctx: ctx, in: in, base: base, lay: l, opts: o}
			out = append(out, c.advise())
		}
	}
	return out
}

// counsel is the advice on one cloth at work.
type counsel struct {
	ctx    context.Context
	in     making.Inputs
	base   making.Result
	lay    lay.Lay
	opts   Options
	done   int
	of     int
	trials int
}

func (c *counsel) advise() Advice {
	a := Advice{
		Role: c.lay.Role, Cloth: c.lay.Cloth, Plan: c.lay.Plan, Length: c.lay.Length, Short: -c.lay.Left(),
		Least: c.lay.Density*c.lay.Length + lay.Squaring,
	}
	ways := c.ways()
	c.of = len(ways)
	var partial []taken // gains, but does not fit alone
	for _, w := range ways {
		t, vain := c.alone(w)
		switch {
		case c.ctx.Err() != nil && t.gain < leastGain: // cut short: nothing is known of it
		case t.gain < leastGain:
			a.Vain = append(a.Vain, vain)
		default:
			a.Alone = append(a.Alone, c.offer(t.gain, t.edit))
			if c.lay.Left()+t.gain < 0 && !t.edit.single {
				partial = append(partial, t)
			}
		}
	}
	a.Pairs = c.pairs(partial)
	byGain(a.Alone)
	byGain(a.Pairs)
	a.Trials, a.Stopped = c.trials, c.ctx.Err() != nil
	return a
}

func byGain(list []Offer) {
	slices.SortStableFunc(list, func(x, y Offer) int { return cmp.Compare(y.Gain, x.Gain) })
}

func (c *counsel) offer(gain float64, edits ...edit) Offer {
	o := Offer{Length: c.lay.Length - gain, Gain: gain, Left: c.lay.Left() + gain}
	for _, e := range edits {
		o.Steps = append(o.Steps, e.step)
	}
	return o
}

// taken is an edit with the gain it brought.
type taken struct {
	edit edit
	gain float64
}

// alone tries the rungs of a way from mild to strong: the first that fits, else
// the one that gains most. What gains nothing is told by its last rung, and the
// reason if one could not be had.
func (c *counsel) alone(w way) (best taken, vain Vain) {
	for _, e := range w {
		if c.ctx.Err() != nil {
			break
		}
		gain, why := c.try(e)
		if vain.Text = e.step.Text; why != "" {
			vain.Why = why
			continue
		}
		if gain > best.gain {
			best = taken{e, gain}
		}
		if c.lay.Left()+gain >= 0 {
			break
		}
	}
	c.done++
	return best, vain
}

// pairs tries two by two, those first that gain most, and keeps what gains more
// than either alone.
func (c *counsel) pairs(list []taken) []Offer {
	slices.SortStableFunc(list, func(x, y taken) int { return cmp.Compare(y.gain, x.gain) })
	list = list[:min(len(list), c.opts.Pairs)]
	c.of += len(list) * (len(list) - 1) / 2
	var out []Offer
	for i, x := range list {
		for _, y := range list[i+1:] {
			if c.ctx.Err() != nil {
				return out
			}
			gain, why := c.try(x.edit, y.edit)
			c.done++
			if why == "" && gain >= max(x.gain, y.gain)+leastGain {
				out = append(out, c.offer(gain, x.edit, y.edit))
			}
		}
	}
	return out
}
