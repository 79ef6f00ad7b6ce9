package making

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"reflect"
	"slices"

	"gusset/internal/change"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/fit"
	"gusset/internal/lay"
	"gusset/internal/needs"
	"gusset/internal/order"
	"gusset/internal/pattern"
	"gusset/internal/reach"
	"gusset/internal/referee"
	"gusset/internal/seam"
)

// Stage names a stage; Run goes up to and including one.
type Stage int

// The stages in order.
const (
	Fit Stage = iota
	Change
	Walk
	Construct
	Finish
	Lay
	Order
	Needs
)

// Effort says how long to look for a better lay.
type Effort struct {
	Rounds int    // passes of the search for each section; 0 keeps the first lay
	Seed   uint64 // the same seed and rounds give the same lay
	// Plans lays a cloth by one plan only where the docket leaves the fold open.
	Plans map[cloth.Role]lay.Plan
	// Anew lays anew whatever lay is kept in the workroom.
	Anew bool
	// Report, when not nil, is told of each better lay.
	Report func(role cloth.Role, p lay.Plan, length float64)
	// Progress, when not nil, is told what share of the search for a cloth's lay
	// is done, 0 to 1.
	Progress func(role cloth.Role, share float64)
	// Within, when not nil, runs each part of the search for lays: see nest.Budget.
	Within func(work func())
}

// Result holds what every stage made, as far as Run went. Findings are in the
// order of the stages.
type Result struct {
	Digest   string // of everything that the result depends on
	Reached  Stage
	Sized    fit.Sized
	Changed  change.Changed
	Outfit   pattern.Garment // the changed garment with the pieces that its methods ask for
	Walked   seam.Walked
	Plan     construct.Plan
	Cut      finish.CutSet
	Lays     []lay.Lay
	Steps    order.Steps
	Times    order.Times  // how long the work takes, as far as the user has timed it
	Hard     []order.Hard // steps that are awkward to reach where they stand
	Printed  order.Judged // the pattern's own order of work; empty when it has none
	Needs    needs.List
	Findings finding.List

	laid    []laid // in the order of the roles
	keys    map[Stage]string
	own     [Needs + 1]stageInputs
	byStage [Needs + 1]finding.List
}

// Run makes the docket up to a stage. It is the only caller of the stages in
// order. A stage whose inputs are those of a previous result, the first that has
// it, is not run again: its value and findings are taken over. After a Stop finding the stages
// that depend on what is broken are left out, so that one fault is told once.
func Run(ctx context.Context, in Inputs, until Stage, e Effort, previous ...*Result) Result {
	r := &run{in: in, effort: e, ctx: ctx}
	for _, p := range previous {
		if p != nil {
			r.old = append(r.old, p)
		}
	}
	r.keys = map[Stage]string{}
	for s := Fit; s <= until; s++ {
		r.key(s)
		if !r.reuse(s) {
			stages[s](r)
		}
		r.Reached = s
		r.Findings = append(r.Findings, r.byStage[s]...)
		if r.byStage[s].Stops() > 0 && s < Lay {
			break
		}
	}
	r.Digest = r.whole()
	return r.Result
}

// run is one run at work.
type run struct {
	Result
	in     Inputs
	effort Effort
	ctx    context.Context
	old    []*Result
}

// stages has one step for each stage; each sets its part of the result and its
// findings.
var stages = [...]func(*run){
	Fit: func(r *run) {
		r.Sized, r.byStage[Fit] = fit.Fit(r.in.Pattern, r.in.Docket.View, r.in.Body, sizeChoice(r.in))
	},
	Change: func(r *run) {
		chosen, found := construct.Choose(r.Sized.Garment(), r.in.Methods, r.in.Docket.Methods)
		chosen = withButton(chosen, r.in.Methods, r.in.Docket.Button)
		changed, told := r.replay(chosen)
		r.Changed, r.byStage[Change] = changed, append(found, told...)
	},
	Walk: func(r *run) {
		var outfitted, walked finding.List
		r.Outfit, outfitted = construct.Outfit(r.Changed.Garment(), r.in.Methods)
		seams, found := seam.Resolve(r.Outfit)
		r.Walked, walked = seam.Walk(r.Outfit, seams, r.in.Docket.Unit)
		r.byStage[Walk] = slices.Concat(outfitted, found, walked, seam.CheckCrossings(r.Outfit, seams, r.drawn()))
	},
	Construct: func(r *run) {
		plan, found := construct.Construct(r.Outfit, r.in.Methods, r.in.Cloths, nil)
		r.Plan, r.byStage[Construct] = plan.Said(r.in.Docket.Unit), append(found, putOn(plan.Openings(), r.in.Body, r.in.Docket.Unit)...)
	},
	Finish: func(r *run) {
		var before finish.CutSet
		for _, old := range r.old {
			if old.Reached >= Finish {
				before = old.Cut
				break
			}
		}
		r.Cut, r.byStage[Finish] = before.Again(r.Plan)
	},
	Lay: layAll,
	Order: func(r *run) {
		ops := r.Plan.Operations()
		look := reach.Look(r.Plan, r.in.Machines)
		c := look.Conditions()
		r.Times = order.TimesOf(r.in.Machines)
		pinned, found := order.Pin(ops, r.in.Docket.Pins)
		steps, planned := order.Plan(pinned, c, r.in.Machines, r.Times.Costs())
		printed, judged := order.Judge("printed", r.Plan.Garment().View.Printed, ops, c, r.Times)
		r.Hard = order.HardOf(steps.Steps(), c)
		r.Steps, r.Printed, r.byStage[Order] = steps, printed, slices.Concat(found, planned, judged,
			order.HardAnyway(steps.Steps(), look, r.in.Docket.Unit), order.Bulky(steps.Steps(), look))
	},
	Needs: func(r *run) {
		r.Needs, r.byStage[Needs] = needs.Count(r.Plan.Operations(), r.Plan.Notions(), needs.Options{
			Cloths: used(r), Colours: r.in.Docket.Threads,
			Button: needs.Button{Diameter: r.in.Docket.Button.Diameter.MM(), Thickness: r.in.Docket.Button.Thickness.MM()},
		})
	},
}

// replay replays the recipe; from an earlier result of the same size and methods,
// the steps that both recipes begin with are taken over.
func (r *run) replay(chosen pattern.Garment) (change.Changed, finding.List) {
	steps, u := r.in.Docket.Changes, r.in.Docket.Unit
	for _, old := range r.old {
		if old.Reached >= Change && old.keys[Fit] == r.keys[Fit] && slices.Equal(besidesRecipe(old.own[Change]), besidesRecipe(r.own[Change])) {
			return old.Changed.Again(steps, u)
		}
	}
	return change.Apply(chosen, steps, u)
}

// besidesRecipe are the digests of what the changes depend on but the recipe,
// which is the last.
func besidesRecipe(of stageInputs) []string { return of.digests[:len(of.digests)-1] }

// layAll lays every cloth that the cut set asks for and lets the referee judge
// each lay; a lay that he refuses is not kept.
func layAll(r *run) {
	cuts := r.Cut.Pieces()
	r.laid = nil
	for _, role := range cloth.Roles {
		if c, ok := r.in.Cloths[role]; ok && asked(cuts, role) {
			r.laid = append(r.laid, r.layOne(c, role))
		}
	}
	for _, l := range r.laid {
		r.byStage[Lay] = append(r.byStage[Lay], l.found...)
		if l.sound {
			r.Lays = append(r.Lays, l.lay)
		}
	}
}

func (r *run) layOne(c cloth.Cloth, role cloth.Role) laid {
	cuts := r.Cut.Pieces()
	if f, ok := r.in.Hand[role]; ok {
		return r.byHand(c, role, f)
	}
	kept, told := r.again(c, role)
	if kept.sound {
		return kept
	}
	l, found := lay.Make(r.ctx, c, role, cuts, layOptions(r.in, r.effort, role))
	found = append(told, found...)
	judged := referee.Check(ofRole(cuts, role), c, l)
	if len(l.Unplaced) == 0 && judged.Stops() > 0 && found.Stops() == 0 {
		return laid{role: role, found: append(found, judged...)}
	}
	return laid{role: role, lay: l, sound: true, found: found}
}

// layOptions are how the docket asks a cloth to be laid.
func layOptions(in Inputs, e Effort, role cloth.Role) lay.Options {
	o := lay.Options{Fold: in.Docket.Fold, Rounds: e.Rounds, Seed: e.Seed, Table: in.Docket.Table.MM(),
		OffGrain: lay.OffGrain(in.Docket.OffGrain), Unit: in.Docket.Unit, Within: e.Within}
	if p, ok := e.Plans[role]; ok && (o.Fold == docket.Auto || o.Fold == "") {
		o.Fold = string(p)
	}
	if e.Report != nil {
		o.Report = func(p lay.Plan, length float64) { e.Report(role, p, length) }
	}
	if e.Progress != nil {
		o.Progress = func(share float64) { e.Progress(role, share) }
	}
	return o
}

func asked(cuts []finish.Cut, role cloth.Role) bool { return len(ofRole(cuts, role)) > 0 }

func ofRole(cuts []finish.Cut, role cloth.Role) []finish.Cut {
	var out []finish.Cut
	for _, c := range cuts {
		if c.Cloth == role {
			out = append(out, c)
		}
	}
	return out
}

// used lists the cloths with what their lays take.
func used(r *run) []needs.Cloth {
	var out []needs.Cloth
	for _, l := range r.Lays {
		out = append(out, needs.Cloth{Role: l.Role, Cloth: l.Cloth, Used: l.Length})
	}
	return out
}

// sizePlaces says where the docket wrote each zone's size.
func sizePlaces(in Inputs) map[string]finding.Place {
	places := map[string]finding.Place{"": in.Docket.Places["size"]}
	for _, z := range in.Pattern.Zones {
		if p, ok := in.Docket.Places["size."+z.Name]; ok {
			places[z.Name] = p
		}
	}
	return places
}

// stageInputs are what a stage takes besides the value of the stage before it,
// and the digest of each.
type stageInputs struct {
	values  []any
	digests []string
}

// drawn are the places where edges run on across seams before any change.
func (r *run) drawn() []seam.Crossing {
	g := r.Sized.Garment()
	seams, _ := seam.Resolve(g)
	return seam.Crossings(g, seams)
}

func (r *run) ownInputs(s Stage) []any {
	d := r.in.Docket
	return map[Stage][]any{
		Fit:       {r.in.Pattern, d.View, r.in.Body, d.Size, d.Unit},
		Change:    {r.in.Methods, d.Methods, d.Button, d.Changes}, // the recipe last: see besidesRecipe
		Walk:      {r.in.Methods},
		Construct: {r.in.Cloths},
		Lay:       {d.Fold, d.Table, d.OffGrain, r.effort.Rounds, r.effort.Seed, r.effort.Plans},
		Order:     {r.in.Machines, d.Pins},
		Needs:     {d.Button, d.Threads},
	}[s]
}

// after are the stages whose values a stage takes. The order of work is the same
// however the pieces lie, so it is not made again for another lay.
var after = [...][]Stage{
	Fit: nil, Change: {Fit}, Walk: {Change}, Construct: {Walk}, Finish: {Construct}, Lay: {Finish}, Order: {Finish}, Needs: {Lay, Order},
}

// key digests what a stage depends on: the stages before it and its own inputs.
// Digesting a whole pattern takes longer than changing it, so inputs that are
// those of the previous run keep their digest; comparing is quick where maps
// and slices are the very same, which is why inputs are replaced, never edited
// in place.
func (r *run) key(s Stage) {
	own := stageInputs{values: r.ownInputs(s)}
	if s == Lay {
		own.values = append(own.values, r.effort.Anew, r.in.Kept, r.in.Hand, r.in.Found)
	}
	own.digests = make([]string, len(own.values))
	for _, old := range r.old {
		if s <= old.Reached {
			own.like(old.own[s])
		}
	}
	for i, d := range own.digests {
		if d == "" {
			own.digests[i] = digest(own.values[i])
		}
	}
	r.own[s] = own
	before := ""
	for _, b := range after[s] {
		before += r.keys[b]
	}
	r.keys[s] = digest(before, own.digests)
}

// like takes over the digests of inputs that are those of an earlier run, and the
// inputs themselves, so that they are found to be the very same next time.
func (own *stageInputs) like(old stageInputs) {
	for i, v := range own.values {
		if own.digests[i] == "" && i < len(old.values) && reflect.DeepEqual(v, old.values[i]) {
			own.values[i], own.digests[i] = old.values[i], old.digests[i]
		}
	}
}

// whole digests everything that the result depends on.
func (r Result) whole() string {
	if r.Reached == Order { // which says nothing of the lays
		return digest(r.keys[Lay], r.keys[Order])[:12]
	}
	return r.keys[r.Reached][:12]
}

// DigestOf digests everything that what a stage has made depends on; "" when the
// result has not come so far.
func (r Result) DigestOf(s Stage) string {
	if s > r.Reached || r.keys == nil {
		return ""
	}
	return r.keys[s][:12]
}

// digest writes values out in full: as a reader is shown them, lengths are rounded.
func digest(values ...any) string {
	h := sha256.New()
	for _, v := range values {
		fmt.Fprintf(h, "%#v\n", v)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// reuse takes a stage over from the previous result when its key is the same.
func (r *run) reuse(s Stage) bool {
	for _, old := range r.old {
		if s <= old.Reached && old.keys[s] == r.keys[s] {
			take[s](&r.Result, old)
			r.byStage[s] = old.byStage[s]
			return true
		}
	}
	return false
}

var take = [...]func(to, from *Result){
	Fit:       func(to, from *Result) { to.Sized = from.Sized },
	Change:    func(to, from *Result) { to.Changed = from.Changed },
	Walk:      func(to, from *Result) { to.Walked, to.Outfit = from.Walked, from.Outfit },
	Construct: func(to, from *Result) { to.Plan = from.Plan },
	Finish:    func(to, from *Result) { to.Cut = from.Cut },
	Lay:       func(to, from *Result) { to.Lays, to.laid = from.Lays, from.laid },
	Order: func(to, from *Result) {
		to.Steps, to.Times, to.Hard, to.Printed = from.Steps, from.Times, from.Hard, from.Printed
	},
	Needs: func(to, from *Result) { to.Needs = from.Needs },
}

// Garment is the garment as changed, with the pieces that its methods ask for
// once these have been added, for those who draw it.
func (r Result) Garment() pattern.Garment {
	if r.Reached >= Walk {
		return r.Outfit
	}
	return r.Changed.Garment()
}
