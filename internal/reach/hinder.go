package reach

import (
	"math/bits"
	"slices"

	"gusset/internal/piece"
)

// Condition says of one operation which seams make it harder to reach than it
// has to be.
type Condition struct {
	// Op is the operation that is hindered.
	Op string
	// Closers are the operations that sew the seams in question. None of them
	// has to come before Op or after it.
	Closers []string
	// When holds the access for every set of them that is sewn already: bit k of
	// the index stands for Closers[k]. All that has to come before Op is sewn.
	When []Access
}

// Blocker is a smallest set of seams that together make an operation harder:
// with one, the operation has to come before it; with more, before the last of
// them.
type Blocker struct {
	Closers []string
	Access  Access
}

// Conditions returns one condition for every operation that some order makes
// harder than another.
func (s Survey) Conditions() []Condition { return s.conditions }

// Falls reports whether a further seam ever makes the operation easier again:
// when two openings become one that is wide enough.
func (c Condition) Falls() bool {
	for set := range c.When {
		for k := range c.Closers {
			if set>>k&1 == 0 && c.When[set|1<<k].Level < c.When[set].Level {
				return true
			}
		}
	}
	return false
}

// Blockers lists the smallest sets of seams that make the operation at least
// as hard as the level, which is above the one it has without them.
func (c Condition) Blockers(level Level) []Blocker {
	var out []Blocker
	var sets []int
	for size := 1; size <= len(c.Closers); size++ {
		for set := range c.When {
			smaller := slices.ContainsFunc(sets, func(s int) bool { return s&set == s })
			if bits.OnesCount(uint(set)) == size && c.When[set].Level >= level && !smaller {
				sets = append(sets, set)
				out = append(out, Blocker{c.pick(set), c.When[set]})
			}
		}
	}
	return out
}

func (c Condition) pick(set int) []string {
	var out []string
	for k, id := range c.Closers {
		if set>>k&1 == 1 {
			out = append(out, id)
		}
	}
	return out
}

const (
	mostClosers = 7  // seams that one condition may hold
	mostTrials  = 80 // states looked at in search of them
)

// hindrances finds the condition of a line, none when no seam makes it harder.
func (s Survey) hindrances(i int) []Condition {
	h := hunt{survey: s, line: i, known: map[string]Access{}}
	h.gather()
	if len(h.free) == 0 || len(s.lines[i].points) == 0 {
		return nil
	}
	h.base = h.level(nil)
	for l := h.level(h.free); l > h.base; l-- {
		h.minimal(l, nil)
	}
	for _, k := range h.free {
		if !h.narrows([]int{k}) {
			continue
		}
		if l := h.level([]int{k}); l > h.base {
			h.keep([]int{k})
			h.relief([]int{k}, l)
		}
	}
	h.reopened()
	if len(h.found) == 0 {
		return nil
	}
	return []Condition{h.condition()}
}

// hunt looks for the seams that matter to one line.
type hunt struct {
	survey Survey
	line   int
	sewn   sewn  // all that has to be sewn before
	free   []int // seams that may be sewn before or after
	base   Level
	found  []int
	trials int
	known  map[string]Access
}

func (h *hunt) gather() {
	s, l := h.survey, h.survey.lines[h.line]
	h.sewn = make(sewn, len(s.closers))
	all := make(sewn, len(s.closers))
	for k, id := range s.closers {
		h.sewn[k] = l.before[id]
		all[k] = id != "" && !l.behind[id]
		if all[k] && !l.before[id] && k != l.seam {
			h.free = append(h.free, k)
		}
	}
	if len(l.points) == 0 {
		return
	}
	// What never hangs together with the line does not matter.
	t := s.surface.outlined(all)
	here := map[int]bool{}
	for _, p := range l.points {
		here[t.part[p.face]] = true
	}
	h.free = slices.DeleteFunc(h.free, func(k int) bool {
		for i := range t.arcs {
			if t.arcs[i].seam == k && here[t.part[t.arcs[i].face]] {
				return false
			}
		}
		return true
	})
}

// access judges the line with some of the free seams sewn.
func (h *hunt) access(with []int) Access {
	done := slices.Clone(h.sewn)
	for _, k := range with {
		done[k] = true
	}
	key := make([]byte, len(done))
	for k, d := range done {
		if d {
			key[k] = 1
		}
	}
	a, known := h.known[string(key)]
	if !known {
		h.trials++
		a = h.survey.at(h.line, done)
		h.known[string(key)] = a
	}
	return a
}

func (h *hunt) level(with []int) Level { return h.access(with).Level }

// minimal finds smallest sets of free seams that bring the line to a level, by
// leaving out each member of one found in turn and looking for another.
func (h *hunt) minimal(l Level, without []int) {
	rest := slices.DeleteFunc(slices.Clone(h.free), func(k int) bool { return slices.Contains(without, k) })
	if h.trials > mostTrials || len(h.found) >= mostClosers || h.level(rest) < l {
		return
	}
	rest = h.shrink(rest, nil, func(a Level) bool { return a >= l })
	h.keep(rest)
	for _, k := range rest {
		h.minimal(l, append(slices.Clone(without), k))
	}
}

// shrink leaves out of a set what is not needed, beside some that stay, for the
// level to be right.
func (h *hunt) shrink(set, beside []int, right func(Level) bool) []int {
	for i := 0; i < len(set); {
		less := slices.Delete(slices.Clone(set), i, i+1)
		if right(h.level(append(slices.Clone(less), beside...))) {
			set = less
		} else {
			i++
		}
	}
	return set
}

// narrows reports whether seams leave an opening, where the line is, that the
// arm does not go into: only then can a further seam make things easier.
func (h *hunt) narrows(seams []int) bool {
	done := slices.Clone(h.sewn)
	for _, k := range seams {
		done[k] = true
	}
	l := h.survey.lines[h.line]
	t := h.survey.surface.outlined(done)
	for _, p := range l.points {
		for _, o := range t.parts[t.part[p.face]].openings {
			if slices.ContainsFunc(l.machines, func(m Machine) bool { return t.rounds[o] < m.ArmGirth+ease }) {
				return true
			}
		}
	}
	return false
}

// reopened finds seams that open what the others together have closed: any one by
// itself, and those between the left and the right copies, as the crotch seams
// make one waist of two leg tops.
func (h *hunt) reopened() {
	if h.trials > mostTrials {
		return
	}
	all := h.level(h.free)
	for _, opens := range append(h.each(), h.between()) {
		rest := slices.DeleteFunc(slices.Clone(h.free), func(k int) bool { return slices.Contains(opens, k) })
		if len(opens) == 0 || len(rest) == 0 || !h.narrows(rest) {
			continue
		}
		l := h.level(rest)
		if l <= all {
			continue
		}
		rest = h.shrink(rest, nil, func(a Level) bool { return a >= l })
		h.keep(rest)
		for _, k := range opens {
			if h.level(append(slices.Clone(rest), k)) < l {
				h.keep([]int{k})
			}
		}
	}
}

func (h *hunt) each() [][]int {
	var out [][]int
	for _, k := range h.free {
		out = append(out, []int{k})
	}
	return out
}

// between lists the free seams that join a left copy to a right one.
func (h *hunt) between() []int {
	s := h.survey.surface
	var out []int
	for _, k := range h.free {
		for _, f := range s.joined(k) {
			if a, b := s.faces[f[0]].copy, s.faces[f[1]].copy; (a == piece.Left && b == piece.Right || a == piece.Right && b == piece.Left) && !slices.Contains(out, k) {
				out = append(out, k)
			}
		}
	}
	return out
}

// relief finds the seams that make the line easier again after some have made
// it harder.
func (h *hunt) relief(after []int, l Level) {
	if h.level(h.free) >= l {
		return
	}
	rest := slices.DeleteFunc(slices.Clone(h.free), func(k int) bool { return slices.Contains(after, k) })
	h.keep(h.shrink(rest, after, func(a Level) bool { return a < l }))
}

func (h *hunt) keep(seams []int) {
	for _, k := range seams {
		if !slices.Contains(h.found, k) && len(h.found) < mostClosers {
			h.found = append(h.found, k)
		}
	}
}

func (h *hunt) condition() Condition {
	slices.Sort(h.found)
	c := Condition{Op: h.survey.lines[h.line].op.ID}
	for _, k := range h.found {
		c.Closers = append(c.Closers, h.survey.closers[k])
	}
	for set := range 1 << len(h.found) {
		var with []int
		for k, f := range h.found {
			if set>>k&1 == 1 {
				with = append(with, f)
			}
		}
		c.When = append(c.When, h.access(with))
	}
	return c
}
