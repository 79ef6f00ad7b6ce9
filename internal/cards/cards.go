package cards

import (
	"fmt"
	"strings"

	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"

	"gusset/internal/geom"
)

// Measures of a card in mm.
const (
	Side   = 100.0 // the part that has to stay uncovered, across
	Cut    = 120.0 // across the paper
	Square = 6.0   // one black square of a corner mark
	Reach  = 42.5  // from the middle to a corner mark, along and across
	Module = 2.5   // one module of the symbol
)

// Modules is the number of modules along a side of the symbol (ISO/IEC 18004,
// version 1).
const Modules = 21

// Count is how many different cards there are.
const Count = 12

// ID tells one card from another: 0 is A.
type ID int

// String is the letter of the card.
func (id ID) String() string { return string(rune('A' + id)) }

// Parse reads the letter of a card.
func Parse(letter string) (ID, bool) {
	letter = strings.ToUpper(strings.TrimSpace(letter))
	if len(letter) != 1 || letter[0] < 'A' || letter[0] >= 'A'+Count {
		return 0, false
	}
	return ID(letter[0] - 'A'), true
}

// payload begins what the symbol of a card holds.
const payload = "GUSSET:"

// Payload is what the symbol holds.
func (id ID) Payload() string { return payload + id.String() }

// FromPayload tells the card from what a symbol holds; false for a symbol that
// is none of ours.
func FromPayload(text string) (ID, bool) {
	letter, ours := strings.CutPrefix(text, payload)
	if !ours {
		return 0, false
	}
	return Parse(letter)
}

// Turned reports whether the card is printed turned by a quarter
// counter-clockwise on its sheet.
func (id ID) Turned() bool { return id%2 == 1 }

// Corners are the four points where black squares touch: upper left, upper
// right, lower right, lower left.
func Corners() [4]geom.Pt {
	return [4]geom.Pt{{X: -Reach, Y: Reach}, {X: Reach, Y: Reach}, {X: Reach, Y: -Reach}, {X: -Reach, Y: -Reach}}
}

// Tape is the middle of the cross to hold a tape to.
func Tape() geom.Pt { return geom.Pt{Y: -Reach} }

// Finders are the middles of the symbol's three finder patterns: upper left,
// upper right, lower left.
func Finders() [3]geom.Pt {
	const d = (Modules/2.0 - 3.5) * Module
	return [3]geom.Pt{{X: -d, Y: d}, {X: d, Y: d}, {X: -d, Y: -d}}
}

// Symbol returns the modules of the card's symbol, true where dark, rows from
// the top.
func (id ID) Symbol() ([Modules][Modules]bool, error) {
	var out [Modules][Modules]bool
	code, err := encoder.Encoder_encode(id.Payload(), decoder.ErrorCorrectionLevel_M, nil)
	if err != nil {
		return out, fmt.Errorf("card %s: %w", id, err)
	}
	m := code.GetMatrix()
	if m.GetWidth() != Modules || m.GetHeight() != Modules {
		return out, fmt.Errorf("card %s: its symbol has %d modules, not %d", id, m.GetWidth(), Modules)
	}
	for y := range out {
		for x := range out[y] {
			out[y][x] = m.Get(x, y) != 0
		}
	}
	return out, nil
}
