package pattern

import (
	"slices"

	"gusset/internal/body"
)

// Asks lists the body measures that a size of the pattern is chosen from, in the
// order they are taken: the chart's rows, the zones' measures, and with a bust
// the high bust, which decides between the two.
func (p Pattern) Asks() []body.Measure {
	var out []body.Measure
	for _, t := range body.Takings {
		_, charted := p.Chart.Rows[t.Measure]
		_, finished := p.Chart.Finished[t.Measure]
		zone := slices.ContainsFunc(p.Zones, func(z Zone) bool { return z.Measure == t.Measure })
		high := t.Measure == body.HighBust && p.Choose == body.Bust
		if charted || finished || zone || high || t.Measure == p.Choose {
			out = append(out, t.Measure)
		}
	}
	return out
}
