package trace_test

import (
	"testing"

	"gusset/demo"
	"gusset/internal/cards"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/unit"
)

// The demo's photo is a rendered one, the first of the tuned scenes: it is traced
// as truly as that scene is known, with the tapes that the guide gives.
func TestDemoPhoto(t *testing.T) {
	data, err := demo.Files.ReadFile("photos/pocket.jpg")
	if err != nil {
		t.Fatal(err)
	}
	_, truth, _ := tunedScene(0)
	var tapes []trace.Tape
	for k, mm := range []float64{450, 435.5} {
		tapes = append(tapes, trace.Tape{A: cards.ID(2 * k), B: cards.ID(2*k + 1), Length: unit.MM(mm)})
	}
	got, found := trace.Run([]*photo.Photo{load(t, "pocket.jpg", data)}, tapes, trace.Tolerance)
	if found.Stops()+found.Warns() > 0 {
		t.Fatal(texts(found))
	}
	if a := measure(truth, got); a.mean > 0.2 || a.max > 0.8 || a.missing+a.extra > 0 || a.vs != 1 || a.slits != 1 || a.falseNotches > 0 || a.grain > 0.1 {
		t.Errorf("%+v", a)
	}
	loads(t, got)
}
