package order

// chains gives, for part k of the set-up, every task i and every value v, the
// cost that some chain of tasks starting at i forces when the part has value v
// before it. A chain has to be done in its order, and other work in between
// saves nothing, since going from a to c never costs more than by way of b.
// enter is the cost of setting the part to each value.
func chains(need []setup, before []set, k int, enter []int) [][]int32 {
	f := make([][]int32, len(need))
	for i := len(need) - 1; i >= 0; i-- {
		f[i] = make([]int32, len(enter))
		for j := i + 1; j < len(need); j++ {
			if before[j].has(i) {
				for v := range f[i] {
					f[i][v] = max(f[i][v], f[j][v])
				}
			}
		}
		if want := need[i][k]; want != 0 {
			behind := f[i][want]
			for v := range f[i] {
				f[i][v] = behind + int32(enter[want])
			}
			f[i][want] = behind
		}
	}
	return f
}

// least is a lower bound on what the remaining tasks cost to set up for: the
// highest that the views tell.
func (p *problem) least(done set, at setup) int {
	sum, _ := p.above(done, at, maxCost)
	return sum
}

// above is a lower bound on what the remaining tasks cost to set up for. The
// views are asked no longer than until it is higher than enough; it is the highest
// that they tell when known.
func (p *problem) above(done set, at setup, enough int) (sum int, known bool) {
	var states [parts]int32
	for k, v := range p.views {
		states[k] = v.find(done, at)
		sum += v.states[states[k]].least
	}
	for k, v := range p.views {
		for !v.settled(states[k]) {
			if sum > enough {
				return sum, false
			}
			sum -= v.states[states[k]].least
			v.within(states[k], v.states[states[k]].least)
			sum += v.states[states[k]].least
		}
	}
	return sum, true
}
