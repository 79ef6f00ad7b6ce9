package main

import (
	"fmt"
	"path/filepath"

	"gusset/internal/draw"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/source"
)

// cardsCmd prints the cards that are laid beside a piece to be photographed.
type cardsCmd struct {
	Count int    `help:"How many cards, 4 to 12; six do for a piece of 1.2 m." default:"6"`
	Paper string `help:"Paper: a4 or letter." enum:"a4,letter" default:"a4"`
	Out   string `help:"Folder to write cards.pdf to." type:"path" default:"out"`
}

func (c *cardsCmd) Run(s *session) error {
	if c.Count < 4 || c.Count > 12 {
		return fmt.Errorf("%d cards: a photo needs 4, and there are 12", c.Count)
	}
	data, err := making.DrawSheet(func() (draw.Doc, error) { return sheet.Cards(c.Count, papers[c.Paper]) })
	if err != nil {
		return err
	}
	if err := source.WriteAll(c.Out, map[string][]byte{"cards.pdf": data}); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "cards    %s: %d cards, print at 100 %%; the first page says how they are laid out\n", filepath.Join(c.Out, "cards.pdf"), c.Count)
	return nil
}
