package order

import (
	"fmt"
	"slices"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/pattern"
)

// pinned is the reason of what waits for the sake of a pin.
const pinned = "the docket pins it there"

// Pin lets operations wait so that the pinned ones come where the docket wants
// them: first, with no more before them than they need; last, with no more
// after them than needs them; or before others. Pins are kept one after the
// other, so of two that come first the first is first. A pin that cannot be
// kept is told and left out.
func Pin(ops []construct.Operation, pins []docket.Pin) ([]construct.Operation, finding.List) {
	var out finding.List
	for _, p := range pins {
		g, broken := newGraph(ops)
		if broken.Stops() > 0 { // told by Plan
			return ops, out
		}
		pin, found := resolve(p, ops)
		if out = append(out, found...); len(found) > 0 {
			continue
		}
		if chain := pin.against(g); chain != nil {
			out = append(out, pinImpossible.At(p.Place, p.Step, p.Before, chainWords(chain, ops)))
			continue
		}
		ops = pin.keep(ops, g)
	}
	return ops, out
}

// pin is a docket's pin with the operations that it names.
type pin struct {
	docket.Pin
	held, before []int
}

func resolve(p docket.Pin, ops []construct.Operation) (pin, finding.List) {
	var out finding.List
	named := func(s pattern.Step) []int {
		var list []int
		for i, o := range ops {
			if names(s, o) > 0 {
				list = append(list, i)
			}
		}
		if len(list) == 0 {
			out = append(out, pinUnknown.At(s.Place, s.String()))
		}
		return list
	}
	r := pin{Pin: p, held: named(p.Step)}
	if !p.First && !p.Last {
		r.before = without(named(p.Before), r.held)
	}
	return r, out
}

// against gives a chain of operations, each needing the next, from a held one
// to one that it should come before; nil when nothing is against the pin.
func (p pin) against(g graph) []int {
	for _, h := range p.held {
		for _, b := range p.before {
			if g.all[h].has(b) {
				return chain(h, b, g)
			}
		}
	}
	return nil
}

func chain(from, to int, g graph) []int {
	path := []int{from}
	for at := from; at != to; {
		for _, q := range g.pred[at] {
			if q == to || g.all[q].has(to) {
				at = q
				break
			}
		}
		path = append(path, at)
	}
	return path
}

// chainWords says a chain: "hem.press needs hem.turn, hem.turn needs ...".
func chainWords(chain []int, ops []construct.Operation) string {
	var words []string
	for n, i := range chain[1:] {
		if op := ops[chain[n]]; stem(op.ID) != stem(ops[i].ID) {
			words = append(words, fmt.Sprintf("%s needs %s", stem(op.ID), stem(ops[i].ID)))
		}
	}
	return strings.Join(words, ", ")
}

// keep lets operations wait as the pin wants.
func (p pin) keep(ops []construct.Operation, g graph) []construct.Operation {
	ops = slices.Clone(ops)
	needed, needing := newSet(len(ops)), newSet(len(ops))
	for _, h := range p.held {
		needed.add(h)
		needing.add(h)
		needed.addAll(g.all[h])
	}
	for i := range ops {
		if slices.ContainsFunc(p.held, func(h int) bool { return g.all[i].has(h) }) {
			needing.add(i)
		}
	}
	for i := range ops {
		switch {
		case p.First && !needed.has(i), slices.Contains(p.before, i):
			ops[i] = waits(ops[i], p.held, ops)
		case p.Last && !needing.has(i):
			for _, h := range p.held {
				ops[h] = waits(ops[h], []int{i}, ops)
			}
		}
	}
	return ops
}

// waits is the operation, waiting for others besides.
func waits(o construct.Operation, others []int, ops []construct.Operation) construct.Operation {
	o.After = slices.Clone(o.After)
	why := map[string]string{}
	for id, w := range o.Why {
		why[id] = w
	}
	for _, i := range others {
		if id := ops[i].ID; !slices.Contains(o.After, id) {
			o.After = append(o.After, id)
			why[id] = pinned
		}
	}
	o.Why = why
	return o
}
