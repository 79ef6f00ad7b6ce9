package change

import (
	"maps"
	"reflect"
	"slices"

	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// job is one step at work: the garment it may change freely, and what it has
// to say.
type job struct {
	g     pattern.Garment
	step  docket.Change
	unit  unit.Unit
	found finding.List
	// settled is a join whose sides the step makes fit: truing keeps it so, where
	// it gives every other seam back what it differed by.
	settled string
	// renotched is a join whose notches are not to be moved back.
	renotched string
}

// changes has one function for each kind. It changes j.g and returns what it
// did in trade words; a Stop finding takes the step back.
var changes = map[docket.ChangeKind]func(j *job) string{
	docket.Lengthen:     lengthen,
	docket.TakeIn:       takeIn,
	docket.CrotchDepth:  crotchDepth,
	docket.CrotchLength: crotchLength,
	docket.FullSeat:     fullSeat,
	docket.HollowBack:   hollowBack,
	docket.RaiseEdge:    raise,
	docket.Straighten:   straighten,
	docket.HemGirth:     hemGirth,
	docket.MoveHem:      moveHem,
	docket.SetFinish:    setFinish,
	docket.CopyEdge:     copyEdge,
	docket.PivotDart:    pivotDart,
	docket.MoveDart:     moveDart,
	docket.DartLength:   dartLength,
	docket.DivideDart:   divideDart,
	docket.MergeDarts:   mergeDarts,
	docket.GatherDart:   gatherDart,
	docket.Spread:       spread,
	docket.AddPleat:     addPleat,
	docket.SetAllowance: setAllowance,
	docket.FoldToSeam:   foldToSeam,
	docket.SeamToFold:   seamToFold,
	docket.JoinPieces:   joinPieces,
	docket.Settle:       settle,
	docket.RunOn:        runOnEdges,
	docket.SmoothEdge:   smoothEdge,
	docket.CutFrom:      cutFrom,
	docket.Divide:       divide,
	docket.SlantPocket:  slantPocket,
}

// Apply replays the recipe on the sized garment, in order. A step that cannot
// be done is left out with a finding and the later ones are still tried.
// Lengths in texts are written in unit u.
func Apply(g pattern.Garment, steps []docket.Change, u unit.Unit) (Changed, finding.List) {
	return Changed{start: look(g.Clone())}.Again(steps, u)
}

// Again replays another recipe on the garment that c was made of. The steps at its
// beginning that are those of c's come out as they did and are taken over.
func (c Changed) Again(steps []docket.Change, u unit.Unit) (Changed, finding.List) {
	out, last := Changed{start: c.start}, c.start
	var found finding.List
	same := true
	for i, step := range steps {
		same = same && i < len(c.done) && c.done[i].unit == u && reflect.DeepEqual(c.done[i].step, step)
		var d done
		if same {
			d = c.done[i]
		} else {
			d = doStep(last, step, u)
		}
		last = d.after
		found = append(found, d.found...)
		out.done = append(out.done, d)
	}
	return out, found
}

// doStep does one step. Refused, it leaves the garment as it was.
func doStep(before looked, step docket.Change, u unit.Unit) done {
	d := done{step: step, unit: u, after: before}
	do := changes[step.Kind]
	if do == nil {
		do = topChanges[step.Kind]
	}
	if do == nil {
		return d // the loader has told
	}
	j := &job{g: before.Clone(), step: step, unit: u}
	d.text = do(j)
	var now looked
	if j.found.Stops() == 0 {
		j.recutFacings(before)
		j.followPlacements(before)
		j.trueSeams(before)
		j.followClosures(before.Garment)
		j.checkOutlines()
		now = j.checkSeams(before)
	}
	d.found = j.found
	if j.found.Stops() == 0 {
		d.applied, d.after = true, now
	}
	return d
}

// place is the step's line in the docket.
func (j *job) place() finding.Place { return j.step.Place.InStep(j.step.ID) }

// tell reports a finding at the step.
func (j *job) tell(k finding.Kind, args ...any) {
	j.found = append(j.found, k.At(j.place(), args...))
}

// say writes a length in the user's unit.
func (j *job) say(mm float64) string { return unit.Format(mm, j.unit) }

// names lists the pieces of the garment in a fixed order.
func (j *job) names() []string {
	var keys []string
	for k := range j.g.Pieces {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// checkOutlines refuses a step that folds an outline over itself.
func (j *job) checkOutlines() {
	for _, name := range j.names() {
		p := j.g.Pieces[name]
		if !touched(p, j.step.ID) {
			continue
		}
		if _, _, _, crosses := geom.SelfCrossing(p.Outline(0.05)); crosses || !finite(p) {
			j.tell(foldOver, name)
		}
	}
}

// finite reports whether everything drawn on a piece lies somewhere.
func finite(p piece.Piece) bool {
	var curves []geom.Curve
	for _, e := range p.Edges {
		curves = append(curves, e.Curve)
	}
	for _, l := range p.Lines {
		curves = append(curves, l.Curve)
	}
	for _, c := range curves {
		for _, s := range c {
			if !s.P[0].Finite() || !s.P[1].Finite() || !s.P[2].Finite() || !s.P[3].Finite() {
				return false
			}
		}
	}
	return !slices.ContainsFunc(p.Marks, func(m piece.Mark) bool { return !m.P.Finite() })
}

// checkSeams refuses a step that opens a seam: one that misses by more than
// the tolerance now and by less before. It returns the garment as walked.
func (j *job) checkSeams(before looked) looked {
	now := look(j.g)
	for _, r := range now.walked {
		was, _ := before.report(r.Seam)
		if by := miss(r); !(by <= seam.Tolerance || by-miss(was) <= 0.01) {
			j.tell(opened, r.Seam.ID, j.say(by))
		}
	}
	return now
}

// touched reports whether the step has moved an edge of the piece.
func touched(p piece.Piece, step string) bool {
	return slices.ContainsFunc(p.Edges, func(e piece.Edge) bool { return slices.Contains(e.Steps, step) })
}

func sorted(set map[string]bool) []string { return slices.Sorted(maps.Keys(set)) }
