package pattern

import (
	"slices"
	"testing"

	"gusset/internal/body"
	"gusset/internal/unit"
)

// A pattern asks for what its chart and its zones know, in the order of the
// tape, and a top for the high bust too.
func TestAsks(t *testing.T) {
	row := []unit.Length{unit.Of(36, unit.Inch)}
	p := Pattern{Choose: body.Bust, Zones: []Zone{{Name: "arm", Measure: body.UpperArm}, {Name: "hem"}}, Chart: Chart{
		Rows:     map[body.Measure][]unit.Length{body.Hip: row, body.Bust: row},
		Finished: map[body.Measure][]unit.Length{body.BackWaist: row},
	}}
	want := []body.Measure{body.HighBust, body.Bust, body.BackWaist, body.UpperArm, body.Hip}
	if got := p.Asks(); !slices.Equal(got, want) {
		t.Errorf("asks for %v, want %v", got, want)
	}
	p.Choose = body.Hip
	if slices.Contains(p.Asks(), body.HighBust) {
		t.Error("a pattern chosen by the hip asks for the high bust")
	}
}
