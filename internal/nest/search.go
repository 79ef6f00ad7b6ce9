package nest

import "context"

// Search places the parts of p.
func Search(ctx context.Context, p Problem, b Budget, start *Layout, report func(Layout, Stats)) (Layout, Stats, error) {
	if err := p.check(); err != nil {
		return Layout{}, Stats{}, err
	}
	l := Layout{Lengths: make([]float64, len(p.Containers))}
	for i := range p.Parts {
		l.Unplaced = append(l.Unplaced, i)
	}
	return l, Stats{Stopped: StoppedBudget}, nil
}
