package order

import "math/bits"

// set is a set of small numbers.
type set []uint64

func newSet(n int) set { return make(set, (n+63)/64) }

func (s set) has(i int) bool { return s[i/64]>>(i%64)&1 == 1 }

func (s set) add(i int) { s[i/64] |= 1 << (i % 64) }

// addAll adds every member of t.
func (s set) addAll(t set) {
	for i, w := range t {
		s[i] |= w
	}
}

// within reports whether every member of s is in t.
func (s set) within(t set) bool {
	for i, w := range s {
		if w&^t[i] != 0 {
			return false
		}
	}
	return true
}

func (s set) count() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

func equal(s, t set) bool {
	for i, w := range s {
		if w != t[i] {
			return false
		}
	}
	return true
}
