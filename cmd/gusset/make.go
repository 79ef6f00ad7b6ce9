package main

import (
	"fmt"

	"gusset/internal/making"
)

// makeCmd runs everything and writes the sheets.
type makeCmd struct {
	docketArg
	effort
	Out string `help:"Folder for the sheets." default:"out" type:"path"`
}

func (c *makeCmd) Run(s *session) error {
	in, r, err := c.run(s, making.Needs, c.making())
	if err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(s, map[string]any{"digest": r.Digest, "findings": r.Findings}); err != nil {
			return err
		}
		return ended(r.Findings)
	}
	report(s.out, in, r)
	if err := findings(s, false, r.Findings); err != nil {
		return err
	}
	fmt.Fprintln(s.out)
	return nil
}
