package reach

// state is the surface with some seams sewn.
type state struct {
	*surface
	done    sewn
	part    []int // of each face: the connected part it belongs to
	corner  []int // of each arc: the corner at its start
	opening []int // of each arc: the opening it lies on, -1 when glued
	rounds  []float64
	parts   []part
	label   []int64 // of each arc: what crossing it to its mate adds
}

// part is one connected part of the garment in the making.
type part struct {
	euler    int
	openings []int
}

// after gives the surface with seams sewn.
func (s *surface) after(done sewn) *state {
	t := s.outlined(done)
	t.count()
	t.labels()
	return t
}

// outlined gives no more of it than the parts and their openings.
func (s *surface) outlined(done sewn) *state {
	t := &state{surface: s, done: done}
	t.connect()
	t.walkOpenings()
	return t
}

// sets is a union-find structure.
type sets []int

func newSets(n int) sets {
	u := make(sets, n)
	for i := range u {
		u[i] = i
	}
	return u
}

func (u sets) find(i int) int {
	for u[i] != i {
		u[i] = u[u[i]]
		i = u[i]
	}
	return i
}

// union reports whether the two were apart.
func (u sets) union(i, j int) bool {
	i, j = u.find(i), u.find(j)
	u[i] = j
	return i != j
}

// number gives every set a number from 0 and each member its set's.
func (u sets) number() (of []int, n int) {
	of = make([]int, len(u))
	seen := map[int]int{}
	for i := range u {
		r := u.find(i)
		if _, known := seen[r]; !known {
			seen[r] = len(seen)
		}
		of[i] = seen[r]
	}
	return of, len(seen)
}

// connect finds the parts and the corners: an arc's start and end meet those
// of its mate.
func (t *state) connect() {
	faces, corners := newSets(len(t.faces)), newSets(len(t.arcs))
	for i, a := range t.arcs {
		if !t.glued(i, t.done) || a.mate < i {
			continue
		}
		m := t.arcs[a.mate]
		faces.union(a.face, m.face)
		if t.turned(i) {
			corners.union(i, a.mate)
			corners.union(a.next, m.next)
		} else {
			corners.union(i, m.next)
			corners.union(a.next, a.mate)
		}
	}
	var n int
	t.part, n = faces.number()
	t.parts = make([]part, n)
	t.corner, _ = corners.number()
}

// walkOpenings goes along the free arcs: at the end of one to the next of the
// outline, or, where that is glued, across to the mate and on from there.
func (t *state) walkOpenings() {
	t.opening = make([]int, len(t.arcs))
	for i := range t.opening {
		t.opening[i] = -1
	}
	for i := range t.arcs {
		if t.opening[i] >= 0 || t.glued(i, t.done) {
			continue
		}
		n := len(t.rounds)
		var round float64
		for at, forward := i, true; t.opening[at] < 0; at, forward = t.onward(at, forward) {
			t.opening[at] = n
			round += t.arcs[at].to - t.arcs[at].from
		}
		t.rounds = append(t.rounds, round)
		p := &t.parts[t.part[t.arcs[i].face]]
		p.openings = append(p.openings, n)
	}
}

// onward gives the free arc that follows one along its opening, and whether it
// is walked with its outline.
func (t *state) onward(i int, forward bool) (int, bool) {
	for {
		if forward {
			i = t.arcs[i].next
		} else {
			i = t.arcs[i].prev
		}
		if !t.glued(i, t.done) {
			return i, forward
		}
		if t.turned(i) {
			forward = !forward
		}
		i = t.arcs[i].mate
	}
}

// count finds the Euler number of every part.
func (t *state) count() {
	seen := map[int]bool{}
	for i, a := range t.arcs {
		p := &t.parts[t.part[a.face]]
		if !seen[t.corner[i]] {
			seen[t.corner[i]] = true
			p.euler++
		}
		if !t.glued(i, t.done) || i < a.mate {
			p.euler--
		}
	}
	for f := range t.faces {
		t.parts[t.part[f]].euler++
	}
}
