package lay

// course reckons how far a search has come. What is still to be done is known
// only so far as the search has come: a lay that turns out longer than the
// table is searched again in sections, a plan that comes close goes on. So each
// step is taken as its share of all that is left to do as far as is known, and
// what is told never goes back. Its methods do nothing on nil.
type course struct {
	tell   func(share float64)
	left   float64 // rounds to be done yet, as far as known
	plan   float64 // those of them that are the plan's in hand
	pieces int     // of the plan in hand
	told   float64 // share
}

// begin sets how many rounds there will be.
func (c *course) begin(rounds float64) {
	if c != nil {
		c.left, c.told = rounds, 0
	}
}

// turn begins the turn of a plan: rounds that were reckoned with from the
// beginning, and those that were not.
func (c *course) turn(known, new float64) {
	if c != nil {
		c.plan = known + new
		c.left += new
	}
}

// end ends it: what it has not used is done with.
func (c *course) end() {
	if c != nil {
		c.spend(c.plan)
	}
}

// share is how many of a plan's rounds are those of a stretch of so many
// pieces.
func (c *course) share(pieces int, rounds float64) float64 {
	if c == nil || c.pieces == 0 {
		return 0
	}
	return rounds * float64(pieces) / float64(c.pieces)
}

// more tells of rounds on a stretch that were not reckoned with.
func (c *course) more(pieces, rounds int) {
	if c != nil {
		n := c.share(pieces, float64(rounds))
		c.plan += n
		c.left += n
	}
}

// spend tells of rounds done.
func (c *course) spend(rounds float64) {
	rounds = min(rounds, c.plan)
	if rounds <= 0 || c.left <= 0 {
		return
	}
	c.told = min(1, c.told+(1-c.told)*min(1, rounds/c.left))
	c.plan -= rounds
	c.left -= rounds
	c.tell(c.told)
}

// search returns what is told of the rounds of one search of a stretch as they
// are done, and what ends it: a search may end before its rounds are used.
func (c *course) search(pieces, rounds int) (told func(done int), end func()) {
	if c == nil || rounds == 0 {
		return nil, func() {}
	}
	before := 0
	told = func(done int) {
		c.spend(c.share(pieces, float64(done-before)))
		before = done
	}
	return told, func() { c.spend(c.share(pieces, float64(rounds-before))) }
}
