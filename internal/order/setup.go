package order

import (
	"gusset/internal/construct"
	"gusset/internal/machine"
)

// The parts of a set-up.
const (
	place    = iota // where one works
	threaded        // lockstitch: thread and needle
	stitch          // lockstitch: straight or zigzag
	foot            // lockstitch
	overlock        // overlocker: threads
	parts
)

// setup says for each part which of its values is set; 0 is nothing yet, and
// in what an operation needs, no matter which.
type setup [parts]uint8

// Costs weighs one change in each part of the set-up; all 0 stand for one each.
// Awkward and ByHand are what it costs besides, in changes, to do a step where
// it can only be reached so and need not be; 0 stands for 3 and 8.
type Costs struct {
	Place, Thread, Stitch, Foot, Overlock int
	Awkward, ByHand                       int
}

func (c Costs) weights() [parts]int {
	if c.Place|c.Thread|c.Stitch|c.Foot|c.Overlock == 0 {
		return [parts]int{1, 1, 1, 1, 1}
	}
	return [parts]int{c.Place, c.Thread, c.Stitch, c.Foot, c.Overlock}
}

// values names the values of each part, as words; index 0 is nothing.
type values [parts][]string

// needs reads what every operation needs of the set-up, and the values there
// are.
func needs(ops []construct.Operation) ([]setup, values) {
	var known values
	for p := range known {
		known[p] = []string{""}
	}
	all := make([]setup, len(ops))
	for i, o := range ops {
		for p, word := range asks(o) {
			all[i][p] = known.number(p, word)
		}
	}
	return all, known
}

// asks gives the words for what an operation needs, empty for no matter which.
func asks(o construct.Operation) [parts]string {
	words := [parts]string{place: string(o.Machine)}
	switch o.Machine {
	case machine.Lockstitch:
		if o.Thread != "" {
			words[threaded] = o.Thread + " thread"
			if o.Needle != "" {
				words[threaded] += ", needle " + o.Needle
			}
		}
		words[stitch] = o.Stitch
		if o.Foot != "" {
			words[foot] = o.Foot + " foot"
		}
	case machine.Overlocker:
		if o.Thread != "" {
			words[overlock] = o.Spool() + " thread"
		}
	}
	return words
}

// most values of one part; more than these share the last number, which makes
// an order no worse than valid.
const most = 250

func (v *values) number(part int, word string) uint8 {
	if word == "" {
		return 0
	}
	for i, w := range v[part] {
		if w == word {
			return uint8(i)
		}
	}
	if len(v[part]) < most {
		v[part] = append(v[part], word)
	}
	return uint8(len(v[part]) - 1)
}

// with is the set-up after what is needed has been set.
func (s setup) with(need setup) setup {
	for p, v := range need {
		if v != 0 {
			s[p] = v
		}
	}
	return s
}

// changed weighs the parts that had a value and get another. Threading a
// machine for the first time is no change: every order has to do it.
func (s setup) changed(next setup, weight [parts]int) int {
	n := 0
	for p, v := range s {
		if v != 0 && v != next[p] {
			n += weight[p]
		}
	}
	return n
}

// set says what to do to come from s to next, for an operation that asks for it.
func (s setup) set(next setup, o construct.Operation) []construct.Told {
	var list []construct.Told
	for p := range parts {
		if s[p] != next[p] {
			list = append(list, say(p, o, s[p] == 0))
		}
	}
	return list
}

// say puts one change into words: of the part of the set-up that an operation asks
// for, first where nothing was set there before.
func say(part int, o construct.Operation, first bool) construct.Told {
	switch part {
	case place:
		if o.Machine == machine.Hand {
			return construct.Told{Text: "by hand"}
		}
		return construct.Told{Text: "to the {place}", Words: map[string]string{"place": string(o.Machine)}}
	case stitch:
		return construct.Told{Text: "set stitch {stitch}", Words: map[string]string{"stitch": o.Stitch}}
	case foot:
		return construct.Told{Text: "{foot} foot", Words: map[string]string{"foot": o.Foot}}
	}
	return construct.Told{Text: threading(part, o.Needle != "", first), Words: map[string]string{"thread": o.Spool(), "needle": o.Needle}}
}

// threading is what is said of a thread; the overlocker keeps its needles.
func threading(part int, needle, first bool) string {
	switch {
	case part == overlock && first:
		return "overlocker threaded with {thread} thread"
	case part == overlock:
		return "change the overlocker to {thread} thread"
	case first && needle:
		return "threaded with {thread} thread, needle {needle}"
	case first:
		return "threaded with {thread} thread"
	case needle:
		return "change to {thread} thread, needle {needle}"
	}
	return "change to {thread} thread"
}
