package demo

import (
	"context"
	"math"
	"strconv"
	"testing"

	"gusset/internal/body"
	"gusset/internal/change"
	"gusset/internal/construct"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/fit"
	"gusset/internal/geom"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

var dockets = []string{
	"dockets/quay-long.yaml", "dockets/quay-cropped.yaml", "dockets/weir-knee.yaml",
	"dockets/mooring-stripe.yaml", "dockets/mooring-plain.yaml",
}

// calm fails on every finding that is more than advice.
func calm(t *testing.T, what string, found finding.List) {
	t.Helper()
	for _, f := range found {
		if f.Severity() > finding.Advice {
			t.Errorf("%s: %s: %s: %s", what, f.Place, f.Code(), f.Text())
		}
	}
}

func open(t *testing.T, path string) making.Inputs {
	t.Helper()
	in, found, err := making.Open(Files, path)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		t.Errorf("%s: %s: %s: %s", path, f.Place, f.Code(), f.Text())
	}
	return in
}

// TestDocketsAreMade takes the dockets from the files to the plan of how the
// garment is made: nothing stops them and every change is done.
func TestDocketsAreMade(t *testing.T) {
	for _, path := range dockets {
		in := open(t, path)
		sized, found := fit.Fit(in.Pattern, in.Docket.View, in.Body, fit.Choice{Unit: in.Docket.Unit})
		calm(t, path, found)
		changed, found := change.Apply(sized.Garment(), in.Docket.Changes, in.Docket.Unit)
		calm(t, path, found)
		if got, want := len(changed.Applied()), len(in.Docket.Changes); got != want {
			t.Errorf("%s: %d of %d changes done", path, got, want)
		}
		plan, found := construct.Construct(changed.Garment(), in.Methods, in.Cloths, in.Docket.Methods)
		calm(t, path, found)
		if len(plan.Operations()) == 0 {
			t.Errorf("%s: nothing to do", path)
		}
	}
}

// TestTheCastTakesItsSizes holds the cast to what README.md says of it. The
// chart's waist is 29 1/2 in for 12 and 31 1/2 in for 14, the thigh 22 1/4 and
// 23 1/2 in, the hip 38 1/2 and 40 1/2 in: Wren's 31 1/4 in, 58 cm and 98.5 cm
// lie within, each elsewhere. Tarn is a 16 at every level. Plover's full bust is
// 7 cm over the high bust, more than 2 in, so the overshirt goes by the high bust
// (Texas agricultural extension service), 88 cm: a 12; the hip of 100.5 cm lies a
// tenth from 14 to 16. Dunlin's 2 cm are less: the bust of 102 cm is an 18, the
// hip of 104 cm lies four fifths from 14 to 16.
func TestTheCastTakesItsSizes(t *testing.T) {
	want := map[string]map[string]float64{
		dockets[0]: {"waist": 12 + 2*1.75/2, "thigh": 12 + 2*(58/2.54-22.25)/1.25, "hip": 12 + 2*(98.5/2.54-38.5)/2},
		dockets[1]: {"waist": 16, "thigh": 16, "hip": 16},
		// Sedge: 71 cm from 69.5 (38) and 73 (40); 105.2 cm from 102 (42) and 106.5 (44).
		dockets[2]: {"waist": 38 + 2*1.5/3.5, "hip": 42 + 2*3.2/4.5},
		dockets[3]: {"bust": 12, "hip": 14.2},
		dockets[4]: {"bust": 18, "hip": 15.6},
	}
	for _, path := range dockets {
		in := open(t, path)
		first, err := strconv.ParseFloat(in.Pattern.Sizes[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		sized, _ := fit.Fit(in.Pattern, in.Docket.View, in.Body, fit.Choice{Unit: in.Docket.Unit})
		seen := 0
		for _, z := range sized.Zones() {
			w, ok := want[path][z.Zone]
			if !ok {
				continue
			}
			seen++
			// Sizes run in steps of two; the chart may be read along a
			// curve, so a fifth of a size is left open.
			if got := first + 2*z.At; math.Abs(got-w) > 0.2 {
				t.Errorf("%s: %s is size %.2f, read straight off the chart %.2f", path, z.Zone, got, w)
			}
		}
		if seen != len(want[path]) {
			t.Errorf("%s: %d zones sized, want %d", path, seen, len(want[path]))
		}
	}
}

// TestLegsLengthen checks that in both views, in every printed size and for each
// of the cast, the leg can be made 60 mm longer or 30 mm shorter at its printed
// line and every seam still fits; for the cast 94 mm longer too, which is what
// Heron's inside leg has over the chart's at size 10.
func TestLegsLengthen(t *testing.T) {
	p := open(t, dockets[0]).Pattern
	for _, v := range p.Views {
		for k, size := range p.Sizes {
			g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
			for name, grade := range p.Pieces {
				g.Pieces[name] = grade.In[k]
			}
			lengthen(t, v.Name+" "+size, g, 60, -30)
		}
		for _, who := range []string{"heron", "tarn", "wren"} {
			b, found := body.Load(source.File{Path: who, Data: []byte(read(t, "bodies/"+who+".yaml"))})
			calm(t, who, found)
			sized, found := fit.Fit(p, v.Name, b, fit.Choice{})
			calm(t, who, found)
			lengthen(t, v.Name+" "+who, sized.Garment(), 94, 60, -30)
		}
	}
}

func lengthen(t *testing.T, what string, g pattern.Garment, bys ...float64) {
	t.Helper()
	for _, by := range bys {
		step := docket.Change{ID: "legs", Kind: docket.Lengthen, At: "leg", By: unit.MM(by)}
		changed, found := change.Apply(g, []docket.Change{step}, unit.Millimetre)
		calm(t, what, found)
		if len(changed.Applied()) != 1 {
			t.Errorf("%s: not made %.0f mm longer", what, by)
		}
	}
}

// The buttons of the overshirt are marked on the printed front, as many as are
// needed, in equal gaps of L/(n-1) (sewing handbooks), the first 15 mm below the
// neck on the line of the buttons.
func TestButtonPlaces(t *testing.T) {
	r := making.Run(context.Background(), open(t, "dockets/mooring-plain.yaml"), making.Finish, making.Effort{}, nil)
	for _, c := range r.Cut.Pieces() {
		if c.Piece != "front" {
			continue
		}
		var at []geom.Pt
		for _, m := range c.Sewn.Marks {
			if m.Kind == piece.Button {
				at = append(at, m.P)
			}
		}
		line, _ := c.Sewn.LineNamed("buttons")
		if len(at) < 4 || math.Abs(line.Curve.Start().Dist(at[0])-15) > 1e-6 {
			t.Fatalf("%s: %d buttons marked", c.ID, len(at))
		}
		gap := at[0].Dist(at[len(at)-1]) / float64(len(at)-1)
		for i := 1; i < len(at); i++ {
			if _, off := line.Curve.Nearest(at[i]); off > 1e-6 || math.Abs(at[i].Dist(at[i-1])-gap) > 1e-6 {
				t.Errorf("%s: button %d lies %.4f mm off the line, %.4f from the last", c.ID, i+1, off, at[i].Dist(at[i-1]))
			}
		}
	}
}
