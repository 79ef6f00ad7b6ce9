package nest

// sieve tells which bodies a box may meet without looking at each: it knows, for
// each of many even steps along either axis, which begin before the step's end
// and which end after its beginning. Four such sets taken together leave little
// more than the bodies that do meet the box.
type sieve struct {
	words int     // of a set of bodies
	gap   float64 // bodies nearer than this are met, mm
	axis  [2]steps
}

// steps is the sieve along one axis.
type steps struct {
	from, scale float64  // where the first begins, and how many there are a millimetre
	begun       []uint64 // per step, the set of bodies that begin before its end
	unended     []uint64 // per step, the set of those that end after its beginning
	at          [][2]int // per body, the steps of its beginning and its end
}

// sieveSteps is how many steps an axis has. What lies beyond the ends belongs
// to the first or the last.
const sieveSteps = 128

// newSieve is for bodies that lie within a box, more or less; none is at its
// place yet.
func newSieve(bodies int, within box, gap float64) sieve {
	v := sieve{words: (bodies + 63) / 64, gap: gap}
	v.axis[0] = newSteps(within.x0, within.x1, bodies, v.words)
	v.axis[1] = newSteps(within.y0, within.y1, bodies, v.words)
	return v
}

// newSteps has all bodies begin and end in the first step.
func newSteps(lo, hi float64, bodies, words int) steps {
	s := steps{
		from:    lo,
		scale:   sieveSteps / max(hi-lo, 1),
		begun:   make([]uint64, sieveSteps*words),
		unended: make([]uint64, sieveSteps*words),
		at:      make([][2]int, bodies),
	}
	for i := range bodies {
		for k := range sieveSteps {
			s.begun[k*words+i>>6] |= 1 << (i & 63)
		}
		s.unended[i>>6] |= 1 << (i & 63)
	}
	return s
}

// step of a coordinate. It never falls as the coordinate grows, so what the
// sieve leaves out cannot be met.
func (s *steps) step(u float64) int {
	at := (u - s.from) * s.scale
	switch {
	case !(at > 0):
		return 0
	case at > sieveSteps-1:
		return sieveSteps - 1
	}
	return int(at)
}

// put notes that body i is at b.
func (v *sieve) put(i int, b box) {
	v.axis[0].put(i, v.words, b.x0, b.x1+v.gap)
	v.axis[1].put(i, v.words, b.y0, b.y1+v.gap)
}

func (s *steps) put(i, words int, lo, hi float64) {
	first, last := s.step(lo), s.step(hi)
	at, bit := i>>6, uint64(1)<<(i&63)
	was := s.at[i]
	for k := min(first, was[0]); k < max(first, was[0]); k++ {
		s.begun[k*words+at] ^= bit
	}
	for k := min(last, was[1]) + 1; k <= max(last, was[1]); k++ {
		s.unended[k*words+at] ^= bit
	}
	s.at[i] = [2]int{first, last}
}

// query is a box in steps: for each axis and side where its set begins.
type query struct{ begunX, unendedX, begunY, unendedY int }

func (v *sieve) ask(b box) query {
	x, y := &v.axis[0], &v.axis[1]
	return query{
		x.step(b.x1+v.gap) * v.words, x.step(b.x0) * v.words,
		y.step(b.y1+v.gap) * v.words, y.step(b.y0) * v.words,
	}
}

// met is word w of the set of bodies that the box may meet.
func (v *sieve) met(q query, w int) uint64 {
	x, y := &v.axis[0], &v.axis[1]
	return x.begun[q.begunX+w] & x.unended[q.unendedX+w] & y.begun[q.begunY+w] & y.unended[q.unendedY+w]
}

func (v *sieve) copyFrom(o *sieve) {
	for k := range v.axis {
		copy(v.axis[k].begun, o.axis[k].begun)
		copy(v.axis[k].unended, o.axis[k].unended)
		copy(v.axis[k].at, o.axis[k].at)
	}
}
