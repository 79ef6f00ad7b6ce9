package advise

import (
	"maps"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/making"
)

// leastGain is the least gain worth telling, in mm.
const leastGain = 2

// edit is one change to the inputs, with its words.
type edit struct {
	step   Step
	single bool // not to be paired with another
	folds  bool // every plan of folding is tried; else only that of the lay that is short
	rounds int  // times as many rounds of the search; 0 for once
	apply  func(*making.Inputs)
}

// way is one remedy in rungs from mild to strong.
type way []edit

// try makes the docket with the edits and returns the length that they gain,
// below zero for a loss; a reason when the make is then not sound.
func (c *counsel) try(edits ...edit) (gain float64, why string) {
	in, e := copied(c.in), c.opts.Effort
	e.Report = nil
	e.Plans = map[cloth.Role]lay.Plan{}
	for _, l := range c.base.Lays {
		e.Plans[l.Role] = l.Plan
	}
	var texts []string
	for _, x := range edits {
		if x.folds {
			delete(e.Plans, c.lay.Role)
		}
		x.apply(&in)
		e.Rounds *= max(1, x.rounds)
		texts = append(texts, x.step.Text)
	}
	if c.opts.Report != nil {
		c.opts.Report(Progress{Cloth: c.lay.Cloth.Title, What: strings.Join(texts, ", and "), Done: c.done, Of: c.of})
	}
	c.trials++
	r := making.Run(c.ctx, in, making.Lay, e, &c.base)
	if why := c.worse(r); why != "" {
		return 0, why
	}
	l, ok := layOf(r, c.lay)
	if !ok {
		return 0, "not every piece found a place"
	}
	return c.lay.Length - l.Length, ""
}

// layOf is the lay for the same role, complete. A cloth from which nothing is
// cut any more is not wanted as an answer.
func layOf(r making.Result, of lay.Lay) (lay.Lay, bool) {
	i := slices.IndexFunc(r.Lays, func(l lay.Lay) bool { return l.Role == of.Role })
	if r.Reached < making.Lay || i < 0 || len(r.Lays[i].Unplaced) > 0 {
		return lay.Lay{}, false
	}
	return r.Lays[i], true
}

// worse tells the first stop, or want of ease, that a make has and the base has
// not. That a cloth is still too short, or was before, is no reason to refuse.
func (c *counsel) worse(r making.Result) string {
	grave := func(f finding.Finding) bool { return f.Severity() == finding.Stop || f.Code() == "fit.ease-short" }
	before := map[string]bool{}
	for _, f := range c.base.Findings {
		if grave(f) {
			before[likeness(f)] = true
		}
	}
	for _, f := range r.Findings {
		if grave(f) && !before[likeness(f)] {
			return f.Text()
		}
	}
	return ""
}

// likeness is what two findings of the same fault have in common: of a short
// cloth the figures change.
func likeness(f finding.Finding) string {
	if f.Code() == "lay.short" {
		return f.Code() + f.Place.String()
	}
	return f.Code() + f.Place.String() + f.Text()
}

// copied is a copy of the inputs whose docket and cloths may be changed.
func copied(in making.Inputs) making.Inputs {
	d := &in.Docket
	d.Cloths = maps.Clone(d.Cloths)
	d.Methods = maps.Clone(d.Methods)
	d.Size.Zones = maps.Clone(d.Size.Zones)
	d.Changes = slices.Clone(d.Changes)
	in.Cloths = maps.Clone(in.Cloths)
	return in
}

// add appends a step to the recipe.
func add(s docket.Change) func(*making.Inputs) {
	return func(in *making.Inputs) { in.Docket.Changes = append(in.Docket.Changes, s) }
}

// free is an id for a step that the recipe does not have yet.
func (c *counsel) free(id string) string {
	taken := func(id string) bool {
		return slices.ContainsFunc(c.in.Docket.Changes, func(s docket.Change) bool { return s.ID == id })
	}
	for taken(id) {
		id += "-more"
	}
	return id
}
