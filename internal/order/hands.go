package order

import (
	"strings"

	"gusset/internal/construct"
	"gusset/internal/piece"
)

// followers finds operations that may be done directly after their mirror
// image without making any order worse: it maps the right hand operation to
// the left hand one. The others keep -1.
//
// r may follow l when both need the same set-up, all that r needs comes before
// l anyway (or follows something that does), and all that needs r comes after
// l anyway. Neither may be named where reaching matters (reached), since there
// it counts what comes first. Then in any order r can be taken out of its place, which costs
// nothing, and put behind l, which costs nothing either.
func followers(ops []construct.Operation, need []setup, g graph, reached []bool) []int {
	leader := mirrored(ops, need)
	for r, l := range leader {
		if l >= 0 && (reached[r] || reached[l]) {
			leader[r] = -1
		}
	}
	for again := true; again; {
		again = false
		for r, l := range leader {
			if l >= 0 && !follows(r, l, leader, g) {
				leader[r], again = -1, true
			}
		}
	}
	return leader
}

// mirrored pairs right hand operations with their left hand ones.
func mirrored(ops []construct.Operation, need []setup) []int {
	left := map[string]int{}
	for i, o := range ops {
		if o.Copy == piece.Left {
			left[stem(o.ID)] = i
		}
	}
	leader := make([]int, len(ops))
	for i, o := range ops {
		leader[i] = -1
		if l, ok := left[stem(o.ID)]; ok && o.Copy == piece.Right && need[l] == need[i] {
			leader[i] = l
		}
	}
	return leader
}

// stem is an operation's name without its hand.
func stem(id string) string {
	name, _, _ := strings.Cut(id, "@")
	return name
}

func follows(r, l int, leader []int, g graph) bool {
	for _, p := range g.pred[r] {
		if leader[p] >= 0 {
			p = leader[p]
		}
		if p != l && !g.all[l].has(p) {
			return false
		}
	}
	for _, s := range g.succ[r] {
		if leader[s] < 0 && !g.all[s].has(l) {
			return false
		}
	}
	return true
}
