package order

// numbers gives sets, together with a set-up, numbers from 0 in the order in
// which they are first met. A garment is planned over a hundred thousand of
// them, so they lie one behind the other and are found by open addressing.
type numbers struct {
	words int
	sets  []uint64
	at    []setup
	slots []int32 // number + 1, 0 for none; their count is a power of two
}

func newNumbers(n int) *numbers {
	return &numbers{words: len(newSet(n)), slots: make([]int32, 1<<10)}
}

// set is the set with a number, not to be changed.
func (t *numbers) set(i int32) set { return t.sets[int(i)*t.words : int(i+1)*t.words] }

// number is the number of a set and a set-up, and whether they were met before.
func (t *numbers) number(s set, at setup) (int32, bool) {
	if 2*len(t.at) > len(t.slots) {
		t.grow()
	}
	k := t.slot(s, at)
	if i := t.slots[k]; i > 0 {
		return i - 1, true
	}
	t.sets = append(t.sets, s...)
	t.at = append(t.at, at)
	t.slots[k] = int32(len(t.at))
	return int32(len(t.at)) - 1, false
}

// slot is where a set and a set-up are, or where they belong.
func (t *numbers) slot(s set, at setup) int {
	mask := len(t.slots) - 1
	for k := int(hash(s, at)) & mask; ; k = (k + 1) & mask {
		i := t.slots[k] - 1
		if i < 0 || t.at[i] == at && equal(t.set(i), s) {
			return k
		}
	}
}

func (t *numbers) grow() {
	t.slots = make([]int32, 4*len(t.slots))
	for i := range t.at {
		t.slots[t.slot(t.set(int32(i)), t.at[i])] = int32(i) + 1
	}
}

// hash mixes the words of a key (the splitmix64 finaliser after each).
func hash(s set, at setup) uint64 {
	h := uint64(0)
	mix := func(w uint64) {
		h = (h ^ w) + 0x9e3779b97f4a7c15
		h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
		h = (h ^ h>>27) * 0x94d049bb133111eb
		h ^= h >> 31
	}
	for _, w := range s {
		mix(w)
	}
	w := uint64(0)
	for _, v := range at {
		w = w<<8 | uint64(v)
	}
	mix(w)
	return h
}
