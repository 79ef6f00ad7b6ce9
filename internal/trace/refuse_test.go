package trace_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/trace"
	"gusset/internal/trace/camera"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
	"gusset/internal/unit"
)

// small is a scene that is quickly rendered: a pocket on dark cloth.
var small = scene.Condition{Panel: 2, Tilt: 12, Azimuth: 240, MorePixel: 1300, Table: scene.Cloth}

// What lies outside the limits is refused with the finding that says why, and
// nothing comes through in silence.
func TestRefuses(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	white := small
	white.Table = scene.Light{0.65, 0.615, 0.55}
	for _, c := range []struct {
		name  string
		cond  scene.Condition
		spoil func(*scene.Scene)
		code  string
	}{
		{"a card is missing", small, func(s *scene.Scene) { s.Without(3) }, "trace.few-cards"},
		{"no card at all", small, func(s *scene.Scene) { s.Cards = nil }, "trace.no-cards"},
		{"two cards curl", small, func(s *scene.Scene) { s.Cards[0].Curl, s.Cards[1].Curl = 3, 3 }, "trace.card-curled"},
		{"white on white", white, func(*scene.Scene) {}, "trace.low-contrast trace.no-piece trace.cropped"},
		{"the piece is cut off by the picture", small, func(s *scene.Scene) {
			for i, p := range s.Outline { // as long as the table
				if p.Y > 50 {
					s.Outline[i].Y += 400
				}
			}
		}, "trace.cropped"},
		{"a card lies on the piece", small, func(s *scene.Scene) { s.Cards[0].At = geom.Pt{X: -110, Y: 60} }, "trace.card-on-piece"},
	} {
		s, _ := scene.Standard(77, c.cond)
		tapes := diagonals(s)
		if c.spoil(s); len(s.Cards) == 4 {
			tapes = diagonals(s)
		}
		p := load(t, c.name, photoOf(t, s, "refuse-"+c.name))
		_, found := trace.Run([]*photo.Photo{p}, tapes, trace.Tolerance)
		wants(t, c.name, found, c.code)
	}
}

// wants fails unless a Stop finding has one of the codes.
func wants(t *testing.T, name string, found finding.List, codes string) {
	t.Helper()
	stops := found.AtLeast(finding.Stop).Codes()
	for _, code := range stops {
		if slices.Contains(strings.Fields(codes), code) {
			return
		}
	}
	t.Errorf("%s: told %v, not %s", name, texts(found), codes)
}

// Tapes that do not do: none, to a card that is not there, misread.
func TestTapes(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	s, _ := scene.Standard(78, small)
	p := load(t, "tapes", photoOf(t, s, "tapes"))
	good := diagonals(s)
	longer := func(t trace.Tape, mm float64) trace.Tape {
		t.Length = unit.MM(t.Length.MM() + mm)
		return t
	}
	for _, c := range []struct {
		name  string
		tapes []trace.Tape
		code  string
	}{
		{"none", nil, "trace.no-tape"},
		{"to a card that is not there", []trace.Tape{{A: 0, B: 5, Length: unit.MM(500)}}, "trace.card-missing"},
		{"to itself", []trace.Tape{{A: 0, B: 0, Length: unit.MM(500)}}, "trace.tape-same"},
		{"one, a centimetre too long", []trace.Tape{longer(good[0], 10)}, "trace.print-scale"},
		{"one of two a centimetre too long", []trace.Tape{good[0], longer(good[1], 10)}, "trace.tape-wrong"},
		{"in the wrong unit", []trace.Tape{{A: 0, B: 1, Length: unit.MM(44)}}, "trace.tape-unlikely"},
	} {
		_, found := trace.Run([]*photo.Photo{p}, c.tapes, trace.Tolerance)
		wants(t, c.name, found, c.code)
	}
	if _, found := trace.Run([]*photo.Photo{p}, good, trace.Tolerance); found.Stops() > 0 {
		t.Errorf("sound tapes: %v", texts(found))
	}
}

// other is the same table from the opposite side.
func other(s *scene.Scene, tilt float64) *scene.Scene {
	o := *s
	l := s.View.Lens
	eye, h := s.View.Eye()
	o.View = camera.Looking(l, geom.Pt{}, math.Hypot(eye.Len(), h)*1.05, tilt*math.Pi/180, eye.Angle()+math.Pi, false)
	o.Seed++
	return &o
}

// A hem that stands up by 5 mm is told by two photos, paper that lies flat is
// not, and photos that share no card are refused.
func TestTwoPhotos(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	c := small
	c.Tilt = 25
	for _, lift := range []float64{0, 5} {
		s, truth := scene.Standard(79, c)
		if lift > 0 {
			s.Lift = func(p geom.Pt) float64 { return lift * math.Pow(min(max((-p.Y-20)/70, 0), 1), 2) }
		}
		name := []string{"flat", "lifted"}[min(int(lift), 1)]
		a := load(t, name+"1", photoOf(t, s, name+"1"))
		b := load(t, name+"2", photoOf(t, other(s, 25), name+"2"))
		got, found := trace.Run([]*photo.Photo{a, b}, diagonals(s), trace.Tolerance)
		if lift > 0 {
			wants(t, name, found, "trace.lifted")
			continue
		}
		if found.Stops()+found.Warns() > 0 {
			t.Errorf("%s: %v", name, texts(found))
		}
		if m := measure(truth, got); m.mean > 0.2 || m.max > 0.8 {
			t.Errorf("%s: %+v", name, m)
		}
	}
}

func TestParseTape(t *testing.T) {
	got, err := trace.ParseTape(" a-D 118,4 cm", "")
	if err != nil || got.A != 0 || got.B != 3 || math.Abs(got.Length.MM()-1184) > 1e-9 {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err := trace.ParseTape("B-C:43,55cm", ""); err != nil || got.A != 1 || math.Abs(got.Length.MM()-435.5) > 1e-9 {
		t.Errorf("%+v, %v", got, err)
	}
	for _, bad := range []string{"", "A-D", "A-D:", "A 118 cm", "A-Z 118 cm", "A-D 118", "A-D far"} {
		if _, err := trace.ParseTape(bad, ""); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}

func TestKinds(t *testing.T) {
	for _, k := range append(slices.Clone(trace.Kinds), photo.Kinds...) {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}
