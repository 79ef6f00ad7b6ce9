package order

import (
	"strings"

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

// words says what to do to come from s to next.
func (v values) words(s, next setup) string {
	var list []string
	for p := range parts {
		if s[p] == next[p] {
			continue
		}
		list = append(list, say(p, v[p][next[p]], s[p] == 0))
	}
	return strings.Join(list, "; ")
}

// say puts one change into words.
func say(part int, word string, first bool) string {
	switch {
	case part == place && word == string(machine.Hand):
		return "by hand"
	case part == place:
		return "to the " + word
	case part == stitch:
		return "set stitch " + word
	case part == foot:
		return word
	case part == overlock && first:
		return "overlocker threaded with " + word
	case part == overlock:
		return "change the overlocker to " + word
	case first:
		return "threaded with " + word
	}
	return "change to " + word
}
