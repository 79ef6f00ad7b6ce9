package lay

// course reckons how far a search has come, in rounds: each plan gets so many,
// shared out over its sections by their pieces. Its methods do nothing on nil.
type course struct {
	tell     func(share float64)
	done, of float64 // rounds
	before   int     // pieces of the plan in hand that are laid
	all      int     // its pieces
	told     float64 // share; it never goes back, whatever has to be laid twice
}

// plan sets how many rounds there will be.
func (c *course) plan(rounds float64) {
	if c != nil {
		c.done, c.of, c.told = 0, rounds, 0
	}
}

// step ends a plan's share.
func (c *course) step(rounds float64) {
	if c != nil {
		c.done += rounds
		c.say(0)
	}
}

// pieces begins a plan with what is laid on each stretch.
func (c *course) pieces(stretches [][]job) {
	if c == nil {
		return
	}
	c.before, c.all = 0, 0
	for _, jobs := range stretches {
		c.all += len(jobs)
	}
}

// laid ends a stretch.
func (c *course) laid(pieces int) {
	if c != nil {
		c.before += pieces
	}
}

// within tells of rounds done on a stretch of so many pieces.
func (c *course) within(pieces, done, rounds int) {
	if c.all > 0 {
		c.say(float64(rounds) * (float64(c.before) + float64(pieces*done)/float64(rounds)) / float64(c.all))
	}
}

func (c *course) say(more float64) {
	if c.of > 0 {
		c.told = max(c.told, min(1, (c.done+more)/c.of))
		c.tell(c.told)
	}
}
