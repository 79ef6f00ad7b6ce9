package advise

import (
	"fmt"
	"slices"

	"gusset/internal/docket"
	"gusset/internal/making"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const (
	hemEdge  = "hem"
	onceHem  = "single-hem"
	leastHem = 10.0 // mm: a narrower turn is hard to press and to stitch straight (common practice)
)

const hemWarning = "less hem hangs lighter and leaves nothing to let down"

// hems are the finishes of the view that turn up an edge called hem.
func (c *counsel) hems() []pattern.Finish {
	var out []pattern.Finish
	for _, f := range c.base.Garment().View.Finishes {
		if slices.ContainsFunc(f.Edges, func(r piece.Ref) bool { return r.Edge == hemEdge && c.cutHere(r.Piece) }) {
			out = append(out, f)
		}
	}
	return out
}

// cutHere tells whether a piece is cut from the cloth that is too short.
func (c *counsel) cutHere(name string) bool {
	u, ok := c.base.Garment().Use(name)
	return ok && slices.Contains(u.Cloths, c.lay.Role)
}

// lessHem narrows the turns of each hem, turns a double hem once, or both.
func (c *counsel) lessHem() []way {
	var out []way
	for _, f := range c.hems() {
		m, ok := c.in.Methods.Find(c.methodOf(f))
		if !ok || len(m.Folds) == 0 {
			continue
		}
		var w way
		if e, ok := c.narrowTurns(f, m); ok {
			w = append(w, e)
		}
		if once, ok := c.in.Methods.Find(onceHem); ok && len(m.Folds) > 1 && !m.Outside {
			w = append(w, c.turnedOnce(f, m, once))
		}
		out = append(out, w)
	}
	return out
}

func (c *counsel) methodOf(f pattern.Finish) string {
	if name, ok := c.in.Docket.Methods[f.ID]; ok {
		return name
	}
	return f.Method
}

// narrowTurns halves the turns of a hem behind its first, which shows, and the
// only one of a hem turned once.
func (c *counsel) narrowTurns(f pattern.Finish, m method.Method) (edit, bool) {
	names := m.Folds[1:]
	if len(names) == 0 {
		names = m.Folds
	}
	values := map[string]unit.Length{}
	was, now := 0.0, 0.0
	for _, n := range names {
		v, ok := f.Values[n]
		if !ok {
			v = m.Values[n]
		}
		if half := max(v.MM()/2, leastHem); half < v.MM() {
			values[n] = c.whole(half)
			was, now = was+v.MM(), now+values[n].MM()
		}
	}
	if len(values) == 0 || now >= was {
		return edit{}, false
	}
	s := docket.Change{ID: c.free("less-" + f.ID), Kind: docket.SetFinish, Item: f.ID, Values: values}
	return edit{
		step: Step{
			Way: "hem", Text: fmt.Sprintf("%s of %s under the %s instead of %s", c.say(now), turns(len(values)), f.Title, c.say(was)),
			Warning: hemWarning, File: c.docketFile(), Write: "changes: " + written(s),
		},
		apply: add(s),
	}, true
}

func turns(n int) string {
	if n == 1 {
		return "turn"
	}
	return "turns"
}

// turnedOnce is a single hem as deep as the first turn of the double one.
func (c *counsel) turnedOnce(f pattern.Finish, m, once method.Method) edit {
	return edit{
		step: Step{
			Way: "hem", Text: fmt.Sprintf("%s instead of %s", once.Title, m.Title),
			Warning: hemWarning + "; its raw edge is overlocked and shows inside",
			File:    c.docketFile(), Write: fmt.Sprintf("methods: {%s: %s}", f.ID, once.Name),
		},
		apply: func(in *making.Inputs) {
			if in.Docket.Methods == nil {
				in.Docket.Methods = map[string]string{}
			}
			in.Docket.Methods[f.ID] = once.Name
		},
	}
}
