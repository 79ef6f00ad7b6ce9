package store

import (
	"sync"
	"time"
)

// tree is the files of a workroom as one change left them. What a change has left
// stays so for good, so one tree is shared by all who ask for that change; it is
// never altered.
type tree struct {
	files map[string]Version
	times map[int64]time.Time // of the changes that wrote them
	dirs  map[string][]string // the names in each folder, in their order
}

// mostKept is how many trees are kept at hand: that of the last change serves
// nearly everybody, the others those who are still at an earlier one.
const mostKept = 8

// keptTrees are the trees that were asked for last, by change.
type keptTrees struct {
	lock sync.Mutex
	of   map[int64]tree
	line []int64 // the changes, in the order they were first asked for
}

func (k *keptTrees) get(change int64) (tree, bool) {
	k.lock.Lock()
	defer k.lock.Unlock()
	t, ok := k.of[change]
	return t, ok
}

func (k *keptTrees) put(change int64, t tree) {
	k.lock.Lock()
	defer k.lock.Unlock()
	if _, there := k.of[change]; there {
		return
	}
	if k.of == nil {
		k.of = map[int64]tree{}
	}
	if len(k.line) == mostKept {
		delete(k.of, k.line[0])
		k.line = k.line[1:]
	}
	k.of[change] = t
	k.line = append(k.line, change)
}
