package change

import "gusset/internal/pattern"

// Changed is a sized garment after the docket's recipe. Only Apply makes one.
type Changed struct {
	garment pattern.Garment
	applied []Applied
}

// Garment returns the changed pieces with their view.
func (c Changed) Garment() pattern.Garment { return c.garment }

// Applied lists the steps that took effect, in order.
func (c Changed) Applied() []Applied { return c.applied }

// Applied is one step with what it did, in trade words: "hem 58 to 44 cm from
// the knee".
type Applied struct {
	ID   string
	Text string
}
