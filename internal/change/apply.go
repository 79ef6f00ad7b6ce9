package change

import (
	"maps"
	"math"
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
	out := Changed{garment: g.Clone()}
	var found finding.List
	for _, step := range steps {
		do := changes[step.Kind]
		if do == nil {
			do = topChanges[step.Kind]
		}
		if do == nil {
			continue // the loader has told
		}
		j := &job{g: out.garment.Clone(), step: step, unit: u}
		text := do(j)
		if j.found.Stops() == 0 {
			j.recutFacings(out.garment)
			j.followPlacements(out.garment)
			j.trueSeams(out.garment)
			j.followClosures(out.garment)
			j.checkOutlines()
			j.checkSeams(out.garment)
		}
		found = append(found, j.found...)
		if j.found.Stops() == 0 {
			out.garment = j.g
			out.applied = append(out.applied, Applied{ID: step.ID, Text: text})
		}
	}
	return out, found
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
		if _, _, _, crosses := geom.SelfCrossing(p.Outline(0.05)); crosses {
			j.tell(foldOver, name)
		}
	}
}

// checkSeams refuses a step that opens a seam: one that misses by more than
// the tolerance now and by less before.
func (j *job) checkSeams(before pattern.Garment) {
	old := misses(before)
	now := misses(j.g)
	for _, r := range now.order {
		if grown := math.Abs(now.by[r]) - math.Abs(old.by[r]); math.Abs(now.by[r]) > seam.Tolerance && grown > 0.01 {
			j.tell(opened, r, j.say(math.Abs(now.by[r])))
		}
	}
}

type missed struct {
	order []string
	by    map[string]float64
}

// misses walks every seam and returns the largest miss of its sides.
func misses(g pattern.Garment) missed {
	g = g.Handed()
	seams, _ := seam.Resolve(g)
	walked, _ := seam.Walk(g, seams, unit.Millimetre)
	m := missed{by: map[string]float64{}}
	for _, r := range walked.Seams() {
		m.order = append(m.order, r.Seam.ID)
		for _, miss := range r.Gaps {
			if math.Abs(miss) > math.Abs(m.by[r.Seam.ID]) {
				m.by[r.Seam.ID] = miss
			}
		}
	}
	return m
}

// touched reports whether the step has moved an edge of the piece.
func touched(p piece.Piece, step string) bool {
	return slices.ContainsFunc(p.Edges, func(e piece.Edge) bool { return slices.Contains(e.Steps, step) })
}

func sorted(set map[string]bool) []string { return slices.Sorted(maps.Keys(set)) }
