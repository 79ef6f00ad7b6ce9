package cards_test

import (
	"testing"

	"gusset/internal/cards"
)

// The fixed parts of a version 1 symbol (ISO/IEC 18004:2015, 6.3): finder
// patterns with their separators, timing patterns in row and column 6, and the
// dark module beside the lower left finder.
func TestSymbolFixedParts(t *testing.T) {
	seen := map[[cards.Modules][cards.Modules]bool]bool{}
	for id := cards.ID(0); id < cards.Count; id++ {
		m, err := id.Symbol()
		if err != nil {
			t.Fatal(err)
		}
		if seen[m] {
			t.Errorf("card %s has the symbol of another", id)
		}
		seen[m] = true
		for _, corner := range [][2]int{{0, 0}, {0, 14}, {14, 0}} {
			for y := range 7 {
				for x := range 7 {
					d := max(abs(x-3), abs(y-3))
					if want := d == 3 || d < 2; m[corner[0]+y][corner[1]+x] != want {
						t.Errorf("card %s: finder at %v, module %d %d is %v", id, corner, y, x, !want)
					}
				}
			}
		}
		for i := 8; i <= 12; i++ {
			if want := i%2 == 0; m[6][i] != want || m[i][6] != want {
				t.Errorf("card %s: timing pattern at %d", id, i)
			}
		}
		if !m[13][8] {
			t.Errorf("card %s: the dark module is light", id)
		}
	}
}

func abs(v int) int { return max(v, -v) }

func TestLetters(t *testing.T) {
	for id := cards.ID(0); id < cards.Count; id++ {
		if got, ok := cards.Parse(" " + id.String()); !ok || got != id {
			t.Errorf("%s is read as %v", id, got)
		}
		if got, ok := cards.FromPayload(id.Payload()); !ok || got != id {
			t.Errorf("%q is read as %v", id.Payload(), got)
		}
	}
	for _, bad := range []string{"", "M", "@", "AB", "1"} {
		if _, ok := cards.Parse(bad); ok {
			t.Errorf("%q is taken for a card", bad)
		}
	}
	if _, ok := cards.FromPayload("https://example.org/A"); ok {
		t.Error("a foreign symbol is taken for a card")
	}
}

// No mark lies in the symbol's quiet zone of four modules (ISO/IEC 18004:2015,
// 6.3.8), nor outside the square that has to stay uncovered.
func TestMarksKeepClear(t *testing.T) {
	const quiet = (cards.Modules/2.0 + 4) * cards.Module
	for _, c := range cards.Corners() {
		if near := max(c.X, -c.X) - cards.Square; near < quiet {
			t.Errorf("a corner mark begins %.2f mm from the middle, inside the quiet zone that ends at %.2f", near, quiet)
		}
		if far := max(c.X, -c.X) + cards.Square; far > cards.Side/2 {
			t.Errorf("a corner mark reaches %.2f mm out", far)
		}
	}
}
