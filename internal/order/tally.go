package order

import (
	"strings"

	"gusset/internal/machine"
)

// Tally counts what an order of work takes.
type Tally struct {
	Steps    int
	Changes  int     // of set-up: place, thread, stitch, foot
	Moves    int     // from one place of work to another
	Trips    int     // to the iron
	Presses  int     // operations at the iron
	Fittings int     // on the body
	Changing float64 // minutes spent changing
	Minutes  float64 // all of it
}

// TallyOf counts an order.
func TallyOf(list []Step, t Times) Tally {
	var at [parts]string
	tally := Tally{Steps: len(list)}
	for _, s := range list {
		for k, word := range asks(s.Op) {
			if word == "" || word == at[k] {
				continue
			}
			if at[k] != "" {
				tally.Changes++
			}
			if k == place {
				tally.Moves++
				if s.Op.Machine == machine.Iron {
					tally.Trips++
				}
			}
			at[k] = word
			tally.Changing += t.change(k, s.Op.Machine)
		}
		if s.Op.Machine == machine.Iron {
			tally.Presses++
		}
		if isFitting(s.Op.ID) {
			tally.Fittings++
		}
		tally.Minutes += t.Of(s.Op)
	}
	tally.Minutes += tally.Changing
	return tally
}

// isFitting reports whether an operation, by its name in the method, is a trial
// on the body.
func isFitting(id string) bool {
	_, op, _ := strings.Cut(stem(id), ".")
	return op == "fit" || strings.HasPrefix(op, "fit-") || strings.HasSuffix(op, "-fit")
}
