package nest

import (
	"context"
	"math/bits"
)

// How weights of pairs follow their quarrels.
const (
	weightLeast = 1.2  // factor for the smallest quarrel after a pass
	weightMost  = 2.0  // for the largest
	weightEase  = 0.95 // for a pair that is free
)

// solver takes the overlaps out of a mess by moves that see weighted quarrels.
// A pair that keeps quarrelling grows dear, until one of the two goes
// elsewhere; what is settled is forgotten.
type solver struct {
	ctx    context.Context
	f      *field
	lane   uint64
	rounds int // used so far
	budget Budget
	weight []float64
	dear   []uint64 // per body, the set of those that a quarrel with weighs more than 1
	mover  *mover
	best   *mess       // scratch of separate
	done   func() bool // the best layout cannot be bettered
}

func newSolver(ctx context.Context, f *field, m *mess, b Budget, lane int) *solver {
	s := &solver{ctx: ctx, f: f, lane: uint64(lane), budget: b, best: m.clone()}
	s.weight = make([]float64, m.all*m.all)
	s.dear = make([]uint64, len(m.mates))
	s.mover = newMover(m, s.weight)
	return s
}

// over tells that no further pass may be made.
func (s *solver) over() bool { return s.used() >= 1 || s.ctx.Err() != nil || s.done() }

// used is the share of the budget that is gone, from 0 to 1.
func (s *solver) used() float64 {
	share := float64(s.rounds) / float64(s.budget.Rounds)
	if s.budget.Used != nil {
		share = max(share, s.budget.Used())
	}
	return min(share, 1)
}

func (s *solver) level() {
	for i := range s.weight {
		s.weight[i] = 1
	}
	clear(s.dear)
}

// pass moves what quarrels once, each pass with a chance of its own.
func (s *solver) pass(m *mess) float64 {
	s.rounds++
	if s.budget.Told != nil && s.lane == 0 {
		s.budget.Told(s.rounds)
	}
	s.mover.pcg.Seed(s.budget.Seed, uint64(s.rounds)<<8|s.lane)
	s.mover.pass()
	return m.loss()
}

// weigh raises the weights of quarrelling pairs by how bad they are.
func (s *solver) weigh(m *mess) {
	var worst float64
	for k, set := range m.mates {
		row := k / m.sieve.words * m.all
		for base := k % m.sieve.words << 6; set != 0; set &= set - 1 {
			worst = max(worst, m.quarrel[row+base+bits.TrailingZeros64(set)])
		}
	}
	if worst == 0 {
		return
	}
	for k := range m.mates {
		row := k / m.sieve.words * m.all
		for set := m.mates[k] | s.dear[k]; set != 0; set &= set - 1 {
			j := row + k%m.sieve.words<<6 + bits.TrailingZeros64(set)
			bit := set & -set
			if q := m.quarrel[j]; q > 0 {
				s.weight[j] *= weightLeast + float64((weightMost-weightLeast)*q/worst)
				s.dear[k] |= bit
			} else if s.weight[j] = s.weight[j] * weightEase; s.weight[j] <= 1 {
				s.weight[j] = 1
				s.dear[k] &^= bit
			}
		}
	}
}

// effort is how long a separation goes on: until a number of attempts in a row
// have gained nothing, each ended by patience passes without gain.
type effort struct{ strikes, patience int }

// separate tries to bring m, whose quarrels are known, to none. It leaves the
// best mess it saw in m.
func (s *solver) separate(m *mess, e effort) (loss float64) {
	s.level()
	least := m.loss()
	s.best.copyFrom(m)
	for struck := 0; struck < e.strikes && least > 0; {
		gained := false
		for idle := 0; idle < e.patience && least > 0; {
			if s.over() {
				m.copyFrom(s.best)
				return least
			}
			idle++
			if l := s.pass(m); l < least {
				if l < 0.98*least {
					gained = true
					idle = 0
				}
				least = l
				s.best.copyFrom(m)
			}
			s.weigh(m)
		}
		m.copyFrom(s.best)
		if gained {
			struck = 0
		} else {
			struck++
		}
	}
	return least
}
