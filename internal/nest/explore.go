package nest

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// explorer shortens a layout: take a little off the length, take the overlaps
// that makes out again, repeat.
type explorer struct {
	*solver
	rng   *rand.Rand
	best  []spot
	score score
	mess  *mess
	probe probe
	pool  []failed
	share float64 // of the length, to be taken off next
	fails int     // attempts in a row that failed when exploring is hard
	from  float64 // share of the budget used when compressing began
	stuck bool    // nothing can be shorter
}

// failed is an attempt that ended with overlaps.
type failed struct {
	spots []spot
	loss  float64
}

const (
	insertShare  = 0.5    // of the budget, at most, to place what is left over
	exploreShare = 0.8    // of the rest
	firstCut     = 0.01   // share of the length taken off at once, to begin with
	leastCut     = 0.001  // when exploring gets hard
	compressFrom = 0.0005 // when compressing
	compressTo   = 0.00001
	poolMost     = 12
	briefTries   = 6  // hard attempts in a row that are brief, before longer ones
	briefItems   = 60 // and the most items for that
)

// taken accepts the mess, free of overlaps, as the best layout. What the
// fences say is checked once more with the outlines themselves.
func (e *explorer) taken() bool {
	if !e.f.sound(&e.probe, e.mess.spots) {
		return false
	}
	e.best = slices.Clone(e.mess.spots)
	e.tighten()
	e.score = e.f.score(e.best)
	e.load(e.best)
	return true
}

// tighten slides every item back along its strip in turn, as far as it goes.
func (e *explorer) tighten() {
	b := builder{f: e.f, spots: e.best, phase: e.f.phases(e.best)}
	order := make([]int, 0, len(e.best))
	for i, s := range e.best {
		if s.strip >= 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(e.f.boxAt(i, e.best[i]).x0, e.f.boxAt(j, e.best[j]).x0)
	})
	for again, n := true, 0; again && n < 8; n++ {
		for _, i := range order {
			b.slip(i)
		}
		again = false
		for g := range e.f.comb {
			again = b.settle(g) || again
		}
	}
	e.best = b.spots
}

// load puts the mess at spots, with limits at the lengths they use.
func (e *explorer) load(spots []spot) {
	e.mess.phase = e.f.phases(spots)
	for i, s := range spots {
		e.mess.put(i, s)
	}
	for k := range e.f.strips {
		e.mess.limit[k] = e.f.lengthOf(k, spots)
	}
	e.mess.judgeAll()
}

// cut shortens some strip of the mess by a share of its length.
func (e *explorer) cut(share float64) bool {
	for _, k := range e.rng.Perm(len(e.f.strips)) {
		if n := e.mess.limit[k]; n > 0 && e.mess.shrink(k, float64(n*share), e.rng) {
			e.mess.shaken(e.rng, 4)
			e.mess.judgeAll()
			return true
		}
	}
	return false
}

// restart begins anew from a layout.
func (e *explorer) restart(spots []spot, score score) {
	e.best, e.score = slices.Clone(spots), score
	e.share = max(e.share, leastCut)
	e.again()
}

// again cuts the best layout shorter and forgets what failed.
func (e *explorer) again() {
	e.pool, e.fails = e.pool[:0], 0
	e.load(e.best)
	e.stuck = !e.cut(e.share)
}

// explore shortens in steps, large ones while that is easy, and when a step
// fails swaps two large items of a failed attempt and tries again.
func (e *explorer) explore(rounds int, until float64) {
	for e.rounds < rounds && e.used() < until && !e.over() && !e.stuck {
		began := e.rounds
		hard := e.share <= leastCut
		loss := e.separate(e.mess, e.effort(hard))
		switch {
		case loss == 0 && e.taken():
			if e.rounds-began < 10 {
				e.share = min(2*e.share, firstCut)
			}
			e.again()
		case hard:
			e.fails++
			e.remember(loss)
			e.disrupt()
		default:
			e.share = max(e.share/2, leastCut)
			e.again()
		}
	}
}

// effort is how long an attempt goes on without gain. Where exploring is hard
// another start soon is worth more than staying, until several have failed; but
// many items take long to settle.
func (e *explorer) effort(hard bool) effort {
	switch {
	case !hard:
		return effort{1, 40}
	case e.fails < briefTries && e.mess.n <= briefItems:
		return effort{2, 50}
	}
	return effort{3, 100}
}

// remember keeps a failed attempt, best first.
func (e *explorer) remember(loss float64) {
	at, _ := slices.BinarySearchFunc(e.pool, loss, func(f failed, l float64) int { return cmp.Compare(f.loss, l) })
	e.pool = slices.Insert(e.pool, at, failed{slices.Clone(e.mess.spots), loss})
	if len(e.pool) > poolMost {
		e.pool = e.pool[:poolMost]
	}
}

// disrupt goes back to a failed attempt, more likely a good one, and swaps two
// large items of different shape in it.
func (e *explorer) disrupt() {
	m := e.mess
	rank := int(math.Abs(e.rng.NormFloat64()) * 0.25 * float64(len(e.pool)))
	spots := e.pool[min(rank, len(e.pool)-1)].spots
	m.phase = e.f.phases(spots)
	for i, s := range spots {
		m.put(i, s)
	}
	if a, b, ok := e.pair(); ok {
		sa, sb := m.spots[a], m.spots[b]
		ba, bb := m.box[a], m.box[b]
		m.put(a, m.centred(a, sb.strip, bb))
		m.put(b, m.centred(b, sa.strip, ba))
	}
	m.shaken(e.rng, 2)
	m.judgeAll()
}

// pair draws two large items of different shape that may change places.
func (e *explorer) pair() (a, b int, ok bool) {
	m := e.mess
	large := make([]int, 0, m.n)
	for i, s := range m.spots {
		if s.strip >= 0 {
			large = append(large, i)
		}
	}
	slices.SortStableFunc(large, func(i, j int) int { return cmp.Compare(m.solid[j].blob, m.solid[i].blob) })
	large = large[:min(len(large), max(4, len(large)/4))]
	for range 20 {
		if len(large) < 2 {
			break
		}
		a, b = large[e.rng.IntN(len(large))], large[e.rng.IntN(len(large))]
		sa, sb := m.spots[a].strip, m.spots[b].strip
		if m.solid[a] != m.solid[b] && m.mayLie(a, sb) && m.mayLie(b, sa) {
			return a, b, true
		}
	}
	return 0, 0, false
}

// compressed is the share of compressing that is done, from 0 to 1.
func (e *explorer) compressed() float64 {
	if e.from >= 1 {
		return 1
	}
	return (e.used() - e.from) / (1 - e.from)
}

// compress takes ever smaller steps from the best layout; a failed one is
// dropped.
func (e *explorer) compress(rounds int) {
	for e.rounds < rounds && !e.over() {
		e.load(e.best)
		if !e.cut(compressFrom + float64(e.compressed()*(compressTo-compressFrom))) {
			e.stuck = true
			return
		}
		if e.separate(e.mess, effort{2, 60}) == 0 {
			e.taken()
		}
	}
}

// insert tries to find room for items left over, in strips that end: each is
// dropped in anywhere and the overlaps are taken out.
func (e *explorer) insert(until float64) {
	for e.used() < until && !e.over() {
		left := e.leftOver()
		if len(left) == 0 {
			return
		}
		for _, i := range left {
			e.load(e.best)
			for k, s := range e.f.strips {
				if !math.IsInf(s.x1, 1) {
					e.mess.limit[k] = s.x1
				}
			}
			s, ok := e.mess.anywhere(i, e.rng)
			if !ok {
				e.rounds++ // so that a loop of unlucky draws ends
				continue
			}
			e.mess.put(i, s)
			e.mess.judgeAll()
			if e.separate(e.mess, effort{2, 60}) == 0 {
				e.taken()
			}
			if e.over() {
				return
			}
		}
	}
}

// leftOver lists unplaced items that some strip could take, largest first,
// as long as there is area for them.
func (e *explorer) leftOver() []int {
	var out []int
	var free float64
	for _, s := range e.f.strips {
		free += (s.x1 - s.x0) * (s.y1 - s.y0)
		for _, w := range s.walls {
			free -= w.area
		}
	}
	for i, s := range e.best {
		if s.strip >= 0 {
			free -= e.f.items[i].area
		} else if e.f.items[i].fits() {
			out = append(out, i)
		}
	}
	out = slices.DeleteFunc(out, func(i int) bool { return e.f.items[i].area > free })
	slices.SortStableFunc(out, func(i, j int) int { return cmp.Compare(e.f.items[j].area, e.f.items[i].area) })
	return out
}
