package nest

import (
	"context"
	"sync"
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
	seed   uint64
	rounds int // used so far
	most   int // allowed
	weight []float64
	movers []*mover
	best   *mess       // scratch of separate
	done   func() bool // the best layout cannot be bettered
}

func newSolver(ctx context.Context, f *field, spots []spot, b Budget, lanes int) *solver {
	s := &solver{ctx: ctx, f: f, seed: b.Seed, most: b.Rounds}
	m := newMess(f, spots)
	s.weight = make([]float64, m.all*m.all)
	for range lanes {
		s.movers = append(s.movers, newMover(m.clone(), s.weight))
	}
	s.best = m
	return s
}

// over tells that no further pass may be made.
func (s *solver) over() bool { return s.rounds >= s.most || s.ctx.Err() != nil || s.done() }

func (s *solver) level() {
	for i := range s.weight {
		s.weight[i] = 1
	}
}

// pass makes one pass from the same mess in every lane, each with its own
// chance, and keeps the one that ends with the least loss.
func (s *solver) pass(m *mess) float64 {
	s.rounds++
	var wait sync.WaitGroup
	for lane, v := range s.movers {
		v.pcg.Seed(s.seed, uint64(s.rounds)<<8|uint64(lane))
		v.mess.copyFrom(m)
		if lane > 0 {
			wait.Go(v.pass)
		}
	}
	s.movers[0].pass()
	wait.Wait()
	winner, least := 0, s.movers[0].mess.loss()
	for lane, v := range s.movers[1:] {
		if l := v.mess.loss(); l < least {
			winner, least = lane+1, l
		}
	}
	m.copyFrom(s.movers[winner].mess)
	return least
}

// weigh raises the weights of quarrelling pairs by how bad they are.
func (s *solver) weigh(m *mess) {
	var worst float64
	for _, q := range m.quarrel {
		worst = max(worst, q)
	}
	if worst == 0 {
		return
	}
	for k, q := range m.quarrel {
		if q > 0 {
			s.weight[k] *= weightLeast + float64((weightMost-weightLeast)*q/worst)
		} else if s.weight[k] > 1 {
			s.weight[k] = max(1, s.weight[k]*weightEase)
		}
	}
}

// separate tries to bring m, whose quarrels are known, to none. It gives up
// after a number of attempts in a row that gained nothing, each ended by
// patience passes without gain, and leaves the best mess it saw in m.
func (s *solver) separate(m *mess, strikes, patience int) (loss float64) {
	s.level()
	least := m.loss()
	s.best.copyFrom(m)
	for struck := 0; struck < strikes && least > 0; {
		gained := false
		for idle := 0; idle < patience && least > 0; {
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
