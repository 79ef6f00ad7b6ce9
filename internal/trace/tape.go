package trace

import (
	"fmt"
	"strings"

	"gusset/internal/cards"
	"gusset/internal/unit"
)

// ParseTape reads a tape as typed: "A-D 118,4 cm" or A-D:118,4cm. A length without a unit takes
// the assumed one; "" assumes none.
func ParseTape(text string, assumed unit.Unit) (Tape, error) {
	text = strings.TrimSpace(text)
	at := strings.IndexAny(text, " :")
	if at < 0 {
		at = len(text)
	}
	names, length := text[:at], strings.TrimLeft(text[at:], " :")
	from, to, dash := strings.Cut(names, "-")
	if length == "" || !dash {
		return Tape{}, fmt.Errorf("tape %q: write two cards and a length, as A-D 118,4 cm", text)
	}
	var t Tape
	for i, name := range []string{from, to} {
		id, ok := cards.Parse(name)
		if !ok {
			return Tape{}, fmt.Errorf("tape %q: there is no card %q, the cards are A to %s", text, name, cards.ID(cards.Count-1))
		}
		if i == 0 {
			t.A = id
		} else {
			t.B = id
		}
	}
	l, err := unit.Parse(length, assumed)
	if err != nil {
		return Tape{}, fmt.Errorf("tape %q: %w", text, err)
	}
	t.Length = l
	return t, nil
}
