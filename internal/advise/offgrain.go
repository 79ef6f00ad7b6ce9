package advise

import (
	"fmt"

	"gusset/internal/docket"
	"gusset/internal/making"
)

// tilts are degrees off the grain, from what is hardly felt to what a pocket
// bag bears (common practice).
var tilts = []float64{5, 15}

// offGrain permits the pieces that do not show to lie off the grain.
func (c *counsel) offGrain() []way {
	if c.in.Docket.OffGrain.UpTo > 0 || len(c.hidden()) == 0 {
		return nil
	}
	var w way
	for _, d := range tilts {
		w = append(w, edit{
			step: Step{
				Way: "off-grain", Text: fmt.Sprintf("small hidden pieces up to %g° off the grain", d),
				Warning: "off the grain cloth stretches and hangs askew: only small pieces that do not show, and never a leg or a front",
				File:    c.docketFile(), Write: fmt.Sprintf("off-grain: {up-to: %g}", d),
			},
			apply: func(in *making.Inputs) { in.Docket.OffGrain = docket.OffGrain{UpTo: d} },
		})
	}
	return []way{w}
}
