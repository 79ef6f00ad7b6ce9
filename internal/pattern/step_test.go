package pattern

import (
	"testing"

	"gusset/internal/piece"
)

func TestParseStep(t *testing.T) {
	for text, want := range map[string]Step{
		"outseam":          {Item: "outseam"},
		"fly.outside":      {Item: "fly", Operation: "outside"},
		"outseam.sew@left": {Item: "outseam", Operation: "sew", Hand: piece.Left},
		"hem@right":        {Item: "hem", Hand: piece.Right},
	} {
		got, err := ParseStep(text)
		if err != nil || got != want || got.String() != text {
			t.Errorf("%s read as %+v (%v)", text, got, err)
		}
	}
	for _, text := range []string{"", "a b", "fly.", "@left", "fly.outside@middle", "fly..outside"} {
		if got, err := ParseStep(text); err == nil {
			t.Errorf("%q read as %+v", text, got)
		}
	}
}
