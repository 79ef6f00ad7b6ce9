package reach

// labels gives every glued arc what crossing it to its mate adds to a path's
// label. The vector that belongs to it has one whole number for each arc that
// is in neither tree (see the package comment); it is folded into one word by
// odd weights that make two small vectors differ in it as well.
func (t *state) labels() {
	t.label = make([]int64, len(t.arcs))
	turn, inTree := t.dualTree()
	f := t.primalForest(inTree)
	for k, i := range f.extra {
		w := weight(k)
		t.addLabel(i, w, turn)
		f.cycle(f.end(i), f.start(i), func(j int, forward bool) {
			if forward {
				t.addLabel(j, w, turn)
			} else {
				t.addLabel(j, -w, turn)
			}
		})
	}
}

// weight is a fixed word for each coordinate (the splitmix64 finaliser).
func weight(k int) int64 {
	z := uint64(k+1) * 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return int64((z ^ z>>31) | 1)
}

// addLabel adds w for crossing arc i from its left to its right, seen along it
// and with all faces turned alike.
func (t *state) addLabel(i int, w int64, turn []int64) {
	w *= turn[t.arcs[i].face]
	t.label[i] += w
	t.label[t.arcs[i].mate] -= w
}

// dualTree spans each part's faces by glued arcs, and says of every face
// whether it has to be turned over (-1) for the left sides to agree.
func (t *state) dualTree() (turn []int64, inTree []bool) {
	turn = make([]int64, len(t.faces))
	inTree = make([]bool, len(t.arcs))
	for f := range t.faces {
		if turn[f] != 0 {
			continue
		}
		turn[f] = 1
		for todo := []int{f}; len(todo) > 0; {
			at := todo[0]
			todo = todo[1:]
			for _, i := range t.faces[at].arcs {
				if !t.glued(i, t.done) {
					continue
				}
				m := t.arcs[i].mate
				other := t.arcs[m].face
				if turn[other] != 0 {
					continue
				}
				turn[other] = turn[at]
				if t.turned(i) {
					turn[other] = -turn[at]
				}
				inTree[i], inTree[m] = true, true
				todo = append(todo, other)
			}
		}
	}
	return turn, inTree
}

// forest spans the corners by glued arcs that are not in the dual tree. All
// corners on an opening count as one, the ground.
type forest struct {
	t      *state
	ground []bool // of each corner
	near   map[int][]int
	extra  []int // glued arcs in neither tree
}

const ground = -1

func (f *forest) node(corner int) int {
	if f.ground[corner] {
		return ground
	}
	return corner
}

func (f *forest) start(i int) int { return f.node(f.t.corner[i]) }
func (f *forest) end(i int) int   { return f.node(f.t.corner[f.t.arcs[i].next]) }

func (t *state) primalForest(inTree []bool) *forest {
	f := &forest{t: t, ground: make([]bool, len(t.arcs)), near: map[int][]int{}}
	for i, a := range t.arcs {
		if !t.glued(i, t.done) {
			f.ground[t.corner[i]], f.ground[t.corner[a.next]] = true, true
		}
	}
	joined := newSets(len(t.arcs) + 1) // the ground is 0
	for i, a := range t.arcs {
		if !t.glued(i, t.done) || a.mate < i || inTree[i] {
			continue
		}
		if joined.union(f.start(i)+1, f.end(i)+1) {
			f.near[f.start(i)] = append(f.near[f.start(i)], i)
			f.near[f.end(i)] = append(f.near[f.end(i)], i)
		} else {
			f.extra = append(f.extra, i)
		}
	}
	return f
}

// cycle calls each for the arcs on the way through the forest from one node to
// another, and says whether each is walked along itself.
func (f *forest) cycle(from, to int, each func(i int, forward bool)) {
	type step struct {
		node, arc int
		forward   bool
		back      *step
	}
	seen := map[int]bool{from: true}
	for todo := []*step{{node: from, arc: -1}}; len(todo) > 0; {
		at := todo[0]
		todo = todo[1:]
		if at.node == to {
			for ; at.back != nil; at = at.back {
				each(at.arc, at.forward)
			}
			return
		}
		for _, i := range f.near[at.node] {
			next, forward := f.end(i), true
			if next == at.node {
				next, forward = f.start(i), false
			}
			if !seen[next] {
				seen[next] = true
				todo = append(todo, &step{next, i, forward, at})
			}
		}
	}
}
