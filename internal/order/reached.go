package order

import (
	"gusset/internal/finding"
	"gusset/internal/reach"
	"gusset/internal/unit"
)

// Reached tells, for an order of work called by name ("planned", "printed"),
// which steps are awkward, left to the hand or out of reach where they come,
// and before which seams they would not be. Lengths are written in unit u. Of
// two hands alike the first is told.
func Reached(name string, list []Step, look reach.Survey, u unit.Unit) finding.List {
	kinds := map[reach.Level]finding.Kind{reach.Awkward: awkward, reach.ByHand: byHand, reach.Impossible: unreachable}
	var out finding.List
	done := map[string]bool{}
	told := map[string]bool{}
	for _, s := range list {
		a := look.At(s.Op.ID, func(id string) bool { return done[id] })
		if kind, hard := kinds[a.Level]; hard && !told[stem(s.Op.ID)] {
			told[stem(s.Op.ID)] = true
			out = append(out, kind.At(s.Op.Place, name, s.Number, stem(s.Op.ID), a.Words(u), sooner(s.Op.ID, a.Level, look, done)))
		}
		done[s.Op.ID] = true
	}
	return out
}

// sooner says what would mend it: the seams that closed too early.
func sooner(op string, l reach.Level, look reach.Survey, done map[string]bool) string {
	for _, c := range look.Conditions() {
		if c.Op != op {
			continue
		}
		for _, b := range c.Blockers(l) {
			if all := allDone(b.Closers, done); all && len(b.Closers) == 1 {
				return "do it before " + stem(b.Closers[0])
			} else if all {
				return "do it before the last of " + words(b.Closers)
			}
		}
	}
	return "choose another method, or finish this edge while the work lies flat"
}

func allDone(ids []string, done map[string]bool) bool {
	for _, id := range ids {
		if !done[id] {
			return false
		}
	}
	return true
}

// words joins operations' names: "a, b and c".
func words(ids []string) string {
	text := stem(ids[0])
	for i, id := range ids[1:] {
		if i == len(ids)-2 {
			text += " and " + stem(id)
		} else {
			text += ", " + stem(id)
		}
	}
	return text
}
