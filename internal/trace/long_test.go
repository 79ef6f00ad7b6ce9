package trace_test

import (
	"math"
	"os"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
	"gusset/internal/unit"
)

// longTable is a train of 1.9 m with two rows of four cards beside it, and a
// photo of either two thirds of it: they share the four cards in the middle.
func longTable(seed uint64) (lower, upper *scene.Scene, truth scene.Truth, tapes []trace.Tape) {
	s, truth := scene.Standard(seed, scene.Condition{Panel: 3, K1: 0.03, MorePixel: 2600, Table: scene.Cloth})
	lo, hi := geom.BoundsOf(s.Outline)
	w, h := (hi.X-lo.X)/2+185, (hi.Y-lo.Y)/3+85
	lower = s.Part(geom.Pt{Y: lo.Y + (hi.Y-lo.Y)/3}, w, h, 12, 20)
	upper = s.Part(geom.Pt{Y: hi.Y - (hi.Y-lo.Y)/3}, w, h, 14, 170)
	upper.Seed++
	for _, ab := range [][2]cards.ID{{0, 1}, {2, 3}} { // both long diagonals
		tapes = append(tapes, trace.Tape{A: ab[0], B: ab[1], Length: unit.MM(math.Round(s.Tape(ab[0], ab[1])))})
	}
	return lower, upper, truth, tapes
}

// A piece that is longer than a photo shows finely enough is taken in two that
// share cards: the outline of 1.9 m is as true as that of a short piece. Paper
// that stands up where both see it is refused, and so are photos that share no
// card.
func TestLongPiece(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	lower, upper, truth, tapes := longTable(120)
	a, b := load(t, "lower", photoOf(t, lower, "long-lower")), load(t, "upper", photoOf(t, upper, "long-upper"))
	got, found := trace.Run([]*photo.Photo{a, b}, tapes, trace.Tolerance)
	if found.Stops() > 0 {
		t.Fatal(texts(found))
	}
	m := measure(truth, got)
	t.Logf("%+v, corner marks %.3f px: %v", m, got.Table.Solution.RMS, found.Codes())
	if math.Abs(m.scale) > 0.0005 || m.mean > 0.2 || m.max > 0.8 || m.missing+m.extra > 0 || m.vs != len(truth.Vs) || m.slits != len(truth.Slits) || m.falseNotches > 0 {
		t.Errorf("%+v", m)
	}
	for _, s := range []*scene.Scene{lower, upper} { // a fold across the middle
		s.Lift = func(p geom.Pt) float64 { return 8 * math.Exp(-p.Y*p.Y/(2*80*80)) }
	}
	up := load(t, "lifted", photoOf(t, upper, "long-lifted-upper"))
	low := load(t, "lifted", photoOf(t, lower, "long-lifted-lower"))
	_, found = trace.Run([]*photo.Photo{low, up}, tapes, trace.Tolerance)
	wants(t, "lifted in the middle", found, "trace.lifted")
}

// Photos that share no card do not say how they lie to each other.
func TestPhotosApart(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	var photos []*photo.Photo
	for k, name := range []string{"apart-1", "apart-2"} {
		s, _ := scene.Standard(121, small)
		for i := range s.Cards {
			s.Cards[i].ID += cards.ID(4 * k)
		}
		photos = append(photos, load(t, name, photoOf(t, s, name)))
	}
	tapes := []trace.Tape{{A: 0, B: 1, Length: unit.MM(400)}}
	_, found := trace.Run(photos, tapes, trace.Tolerance)
	wants(t, "no card shared", found, "trace.unconnected")
}
