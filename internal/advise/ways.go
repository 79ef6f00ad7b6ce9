package advise

import (
	"fmt"
	"math"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/making"
	"gusset/internal/unit"
)

// ways lists the remedies that this make and this cloth allow, the cheapest
// for the wearer first.
func (c *counsel) ways() []way {
	var out []way
	for _, make := range []func() []way{
		c.longerLook, c.otherFold, c.otherCloth, c.piecing, c.lessHem, c.smallerSize, c.narrowerLeg, c.shorterLeg, c.bothWays,
	} {
		for _, w := range make() {
			if len(w) > 0 {
				out = append(out, w)
			}
		}
	}
	return out
}

// longerLook changes nothing: the search may have stopped too early.
func (c *counsel) longerLook() []way {
	var w way
	for _, times := range []int{3, 10} {
		rounds := max(c.opts.Effort.Rounds, 100) * times
		w = append(w, edit{
			step:   Step{Way: "look", Text: fmt.Sprintf("a longer look for a lay, %d rounds", rounds)},
			rounds: times, single: true,
			apply: func(*making.Inputs) {},
		})
	}
	return []way{w}
}

// otherFold frees a fold that the docket prescribes.
func (c *counsel) otherFold() []way {
	was := c.in.Docket.Fold
	if was == docket.Auto || was == "" || c.lay.Role != cloth.Main {
		return nil
	}
	return []way{{{
		step: Step{
			Way: "fold", Text: fmt.Sprintf("any fold that saves cloth instead of %s", was),
			Warning: "pieces cut singly must be turned over for their other hand: mark left and right as they are cut",
			File:    c.docketFile(), Write: "fold: auto",
		},
		folds: true,
		apply: func(in *making.Inputs) { in.Docket.Fold = docket.Auto },
	}}}
}

func (c *counsel) docketFile() string { return "dockets/" + c.in.Docket.Name + ".yaml" }

// bothWays lets tops point either way on one-way cloth.
func (c *counsel) bothWays() []way {
	k := c.lay.Cloth
	if k.Direction != cloth.OneWay {
		return nil
	}
	return []way{{{
		step: Step{
			Way: "direction", Text: "some pieces turned end for end",
			Warning: "shading: nap, pile and sheen look lighter one way and darker the other, and a print with a top stands on its head; " +
				"only where that does not matter",
			File: "cloths/" + k.Name + ".yaml", Write: "direction: two-way",
		},
		apply: func(in *making.Inputs) {
			for role, other := range in.Cloths {
				if other.Name == k.Name {
					other.Direction = cloth.TwoWay
					in.Cloths[role] = other
				}
			}
		},
	}}}
}

// say writes a length in the docket's unit.
func (c *counsel) say(mm float64) string { return unit.Format(mm, c.in.Docket.Unit) }

// whole is a length of about mm that is written without odd fractions: whole
// millimetres, or quarters of an inch.
func (c *counsel) whole(mm float64) unit.Length {
	if c.in.Docket.Unit == unit.Inch {
		return unit.Of(math.Round(mm/25.4*4)/4, unit.Inch)
	}
	return unit.Of(math.Round(mm)/10, unit.Centimetre)
}

// fine is a length to the millimetre, or the sixteenth of an inch.
func (c *counsel) fine(mm float64) unit.Length {
	if c.in.Docket.Unit == unit.Inch {
		return unit.Of(math.Round(mm/25.4*16)/16, unit.Inch)
	}
	return unit.Of(math.Round(mm)/10, unit.Centimetre)
}
