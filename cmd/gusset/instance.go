package main

import (
	"fmt"
	"os"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/referee"
	"gusset/internal/unit"
)

// tapeLine says where one piece lies: both ends of its grain line by two
// distances each.
func tapeLine(l lay.Lay, p lay.Placed, u unit.Unit) string {
	t, ok := l.Tape(p)
	if !ok {
		return "  " + p.Cut.ID
	}
	edge := "selvedge"
	if t.FromFold {
		edge = "fold"
	}
	along := func(x float64) string { return unit.Format(max(0, x-lay.Squaring), u) }
	return fmt.Sprintf("  %-20s %d ply  grain: top %s from %s, %s from squared end; foot %s from %s, %s from squared end",
		p.Cut.ID, p.Layers, unit.Format(t.Top.Edge, u), edge, along(t.Top.End), unit.Format(t.Foot.Edge, u), edge, along(t.Foot.End))
}

// instance lays a packing problem: real garment outlines from the open sets.
func (c *layCmd) instance(s *session) error {
	data, err := os.ReadFile(c.Docket)
	if err != nil {
		return err
	}
	in, err := lay.FromInstance(data)
	if err != nil {
		return err
	}
	l, found := lay.Make(s.ctx, in.Cloth, cloth.Main, in.Cuts, lay.Options{Fold: string(lay.Open), Rounds: c.Rounds, Seed: c.Seed})
	found = append(found, referee.Check(in.Cuts, in.Cloth, l)...)
	if c.JSON {
		return printJSON(s, map[string]any{"name": in.Name, "length": in.Length(l), "density": in.Density(l), "findings": found})
	}
	fmt.Fprintf(s.out, "%s: %d pieces, length %.2f at width %g, density %.2f %%, judged by the referee\n",
		in.Name, len(in.Cuts), in.Length(l), in.Width, 100*in.Density(l))
	return findings(s, false, found)
}
