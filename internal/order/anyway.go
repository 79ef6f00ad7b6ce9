package order

import (
	"gusset/internal/finding"
	"gusset/internal/reach"
	"gusset/internal/unit"
)

// HardAnyway tells the steps that are awkward or worse wherever they come: a
// narrow sleeve is hemmed by hand, since its hem exists only once the seam is
// sewn. Lengths are written in unit u. Of two hands alike the first is told.
func HardAnyway(list []Step, look reach.Survey, u unit.Unit) finding.List {
	kinds := map[reach.Level]finding.Kind{reach.Awkward: awkwardAnyway, reach.ByHand: byHandAnyway, reach.Impossible: neverReached}
	least := map[string]reach.Level{}
	for _, c := range look.Conditions() {
		least[c.Op] = c.When[0].Level
	}
	var out finding.List
	done := map[string]bool{}
	told := map[string]bool{}
	for _, s := range list {
		a := look.At(s.Op.ID, func(id string) bool { return done[id] })
		done[s.Op.ID] = true
		kind, hard := kinds[a.Level]
		if could, named := least[s.Op.ID]; !hard || told[stem(s.Op.ID)] || named && could < a.Level {
			continue
		}
		told[stem(s.Op.ID)] = true
		out = append(out, kind.At(s.Op.Place, stem(s.Op.ID), a.Words(u)))
	}
	return out
}

// Bulky tells the lines of stitching that run over more cloth than passes under the
// foot. Of two hands alike the first is told.
func Bulky(list []Step, look reach.Survey) finding.List {
	thick := map[string]reach.Bulk{}
	for _, b := range look.Bulky() {
		thick[b.Op] = b
	}
	var out finding.List
	told := map[string]bool{}
	for _, s := range list {
		b, is := thick[s.Op.ID]
		if !is || told[stem(s.Op.ID)] {
			continue
		}
		told[stem(s.Op.ID)] = true
		guess := ""
		if b.Guessed {
			guess = " (a guess: measure it, and write it down as foot-lift)"
		}
		out = append(out, tooThick.At(s.Op.Place, stem(s.Op.ID), stem(b.Over), b.Plies, b.Thickness, b.Lift, guess))
	}
	return out
}
