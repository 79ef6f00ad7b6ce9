package order

import (
	"gusset/internal/construct"
	"gusset/internal/machine"
)

// Times says how long work takes, in minutes. The zero Times guess everything.
type Times struct {
	own map[machine.Kind]map[machine.Minute]float64
}

// guesses stand in for what the user has not timed. They are guesses of a
// careful home maker's pace, to be replaced by the clock.
var guesses = map[machine.Kind]map[machine.Minute]float64{
	machine.Lockstitch: {machine.To: 0.5, machine.Rethread: 2, machine.Refoot: 0.7, machine.Restitch: 0.3, machine.Handling: 1.5, machine.Metre: 2},
	machine.Overlocker: {machine.To: 0.5, machine.Rethread: 6, machine.Handling: 1, machine.Metre: 1},
	machine.Iron:       {machine.To: 1, machine.Handling: 1, machine.Metre: 1.5},
	machine.Table:      {machine.To: 0.3, machine.Handling: 2, machine.Metre: 0},
	machine.Hand:       {machine.To: 0.5, machine.Handling: 3, machine.Metre: 12},
}

// TimesOf reads the minutes of the user's machines. Of several machines of a
// kind the first that was timed counts.
func TimesOf(machines []machine.Machine) Times {
	t := Times{own: map[machine.Kind]map[machine.Minute]float64{}}
	for _, m := range machines {
		for what, n := range m.Minutes {
			if t.own[m.Kind] == nil {
				t.own[m.Kind] = map[machine.Minute]float64{}
			}
			if _, set := t.own[m.Kind][what]; !set {
				t.own[m.Kind][what] = n
			}
		}
	}
	return t
}

// Timed reports whether any of it is the user's own.
func (t Times) Timed() bool { return len(t.own) > 0 }

func (t Times) of(k machine.Kind, what machine.Minute) float64 {
	if n, ok := t.own[k][what]; ok {
		return n
	}
	return guesses[k][what]
}

// Of is how long an operation takes, changes of set-up aside: getting hold of
// the work, and so much for each metre of each row.
func (t Times) Of(o construct.Operation) float64 {
	metres := float64(max(o.Rows, 1)) * o.Length / 1000
	return t.of(o.Machine, machine.Handling) + float64(metres*t.of(o.Machine, machine.Metre))
}

// change is how long it takes to set one part anew, at the given place.
func (t Times) change(part int, at machine.Kind) float64 {
	return t.of(at, map[int]machine.Minute{
		place: machine.To, threaded: machine.Rethread, stitch: machine.Restitch, foot: machine.Refoot, overlock: machine.Rethread,
	}[part])
}
