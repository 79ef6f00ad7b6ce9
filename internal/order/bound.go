package order

// chains gives, for part k, every task i and every value v, the cost that some
// chain of tasks starting at i forces when the part has value v before it. A
// chain has to be done in its order, and other work in between saves nothing,
// since going from a to c never costs more than by way of b.
func (p *problem) chains(k int) [][]int32 {
	f := make([][]int32, len(p.need))
	for i := len(p.need) - 1; i >= 0; i-- {
		f[i] = make([]int32, p.values[k])
		for v := range f[i] {
			own, now := int32(0), v
			if want := int(p.need[i][k]); want != 0 && want != v {
				own, now = int32(p.enter(k, uint8(want))), want
			}
			longest := int32(0)
			for _, j := range p.succ[i] {
				longest = max(longest, f[j][now])
			}
			f[i][v] = own + longest
		}
	}
	return f
}

// least is a lower bound on what the remaining tasks cost: for each part the
// dearer of its worst chain and of entering every value still needed once. The
// parts add up, since each is paid by itself.
func (p *problem) least(done set, at setup) int {
	var worst [parts]int
	var wanted [parts][4]uint64 // bit v: value v is still needed
	for i := range p.need {
		if done.has(i) {
			continue
		}
		for k, v := range p.need[i] {
			wanted[k][v/64] |= 1 << (v % 64)
		}
		if p.before[i].within(done) {
			for k, v := range at {
				worst[k] = max(worst[k], int(p.chain[k][i][v]))
			}
		}
	}
	sum := 0
	for k := range parts {
		entered := 0
		for v := 1; v < p.values[k]; v++ {
			if wanted[k][v/64]>>(v%64)&1 == 1 && uint8(v) != at[k] {
				entered += p.enter(k, uint8(v))
			}
		}
		sum += max(worst[k], entered)
	}
	return sum
}
