package demo

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/change"
	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// Spreading adds a wedge whose legs are the slash: half its square times the sine
// of the angle, the opening being twice the slash times the sine of half of it;
// what is drawn round beyond the opening's straight line is measured apart. The
// edge with the hinge keeps its length, and lapped by as much at the same place
// the piece is as it was.
func TestSpread(t *testing.T) {
	for _, d := range []struct {
		docket, piece, hem string
		hinge              docket.Spot
	}{
		{weir, "front", "hem", spot("front:waist-side", "middle")},
		{weir, "back", "hem", spot("back:waist-middle", "middle")},
		{"dockets/quay-long.yaml", "back", "hem", spot("back:top", "middle")},
		{"dockets/quay-long.yaml", "front", "hem", spot("front:waist", "middle")},
	} {
		inSizes(t, d.docket, func(t *testing.T, g pattern.Garment) {
			for _, by := range []float64{30, 8} {
				was := g.Pieces[d.piece]
				e, _ := was.Edge(d.hem)
				h, _ := was.Edge(strings.SplitN(d.hinge.Edge, ":", 2)[1])
				at := 0.4 * e.Curve.Length()
				open := docket.Change{ID: "open", Kind: docket.Spread, Spot: spot(d.piece+":"+d.hem, at), Hinge: d.hinge, By: unit.MM(by)}
				p := changed(t, g, open).Pieces[d.piece]
				slash := e.Curve.At(at).Dist(h.Curve.At(h.Curve.Length() / 2))
				angle := 2 * math.Asin(by/2/slash)
				wide, _ := p.Edge(d.hem)
				round := wide.Curve.Between(at, at+wide.Curve.Length()-e.Curve.Length())
				chord := round.Start().Dist(round.End())
				beyond := geom.Area(round.Flatten(0.0005))
				if added := area(p) - area(was) - beyond; math.Abs(added-slash*slash/2*math.Sin(angle)) > 2 || math.Abs(chord-by) > 1e-3 {
					t.Errorf("%s: %.1f mm² added, want %.1f; opened by %.4f mm, want %g", d.piece, added, slash*slash/2*math.Sin(angle), chord, by)
				}
				if now, _ := p.Edge(h.Name); math.Abs(now.Curve.Length()-h.Curve.Length()) > 1e-6 {
					t.Errorf("%s: the hinged edge was %.4f mm, is %.4f", d.piece, h.Curve.Length(), now.Curve.Length())
				}
				shut := open
				shut.ID, shut.By = "shut", unit.MM(-by)
				if off := apart(was, changed(t, g, open, shut).Pieces[d.piece]); off > 0.01 {
					t.Errorf("%s: spread and lapped, the outline is %.4f mm off", d.piece, off)
				}
			}
		})
	}
}

// What is lapped must not take with it a notch at which a seam begins: the fly
// facing is sewn to the waist from the notch of the fly on.
func TestLapsNoSeamsEnd(t *testing.T) {
	inSizes(t, "dockets/quay-long.yaml", func(t *testing.T, g pattern.Garment) {
		fly, _ := g.Pieces["front"].Notch("waist", "fly-edge")
		for _, by := range []float64{-12, -4} {
			step := docket.Change{ID: "lap", Kind: docket.Spread, Spot: spot("front:waist", fly.At-8), Hinge: spot("front:hem", "middle"), By: unit.MM(by)}
			c, found := change.Apply(g, []docket.Change{step}, unit.Millimetre)
			if refused := found.Has("change.no-slash"); refused != (by == -12) {
				t.Errorf("lapped by %g, 8 mm before the notch: %v", by, found.Codes())
			}
			if _, unresolved := seam.Resolve(c.Garment()); len(unresolved) > 0 {
				t.Errorf("lapped by %g: %v", by, unresolved.Codes())
			}
		}
	})
}

// A pleat from waist to hem widens the piece by twice its depth all the way; the
// waist seam fits as before, the cloth between the lines being folded in.
func TestAddPleat(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		step := docket.Change{
			ID: "fold", Kind: docket.AddPleat, By: unit.MM(30), Where: unit.MM(120), Method: "pleat-stitched",
			Spot: spot("front:waist-centre", 50.0, "centre"), Hinge: spot("front:hem", 50.0),
		}
		now := changed(t, g, step)
		was, p := g.Pieces["front"], now.Pieces["front"]
		if grown := long(p, "hem") - long(was, "hem"); math.Abs(grown-60) > 0.01 {
			t.Errorf("the hem is %.3f mm wider, want 60", grown)
		}
		if top := long(p, "fold-top"); math.Abs(top-60) > 0.2 {
			t.Errorf("the pleat takes in %.3f mm, want 60", top)
		}
		high := was.Edges[was.Index("waist-centre")].Curve
		tall := high.At(high.Length()-50).Y - was.Edges[was.Index("hem")].Curve.Start().Y
		if added := area(p) - area(was); math.Abs(added-60*tall) > 0.002*60*tall {
			t.Errorf("%.0f mm² added, want %.0f", added, 60*tall)
		}
		sameFit(t, g, now, 0.01)
	})
}

// A waist with a pleat in it is raised as one line: every corner of it goes up the
// grain by as much, what the pleat takes in and the notches beside it stay as they
// are along it, and lowered again the outline is as it was.
func TestRaiseAcrossPleat(t *testing.T) {
	inSizes(t, "dockets/quay-long.yaml", func(t *testing.T, g pattern.Garment) {
		fly, _ := g.Pieces["front"].Notch("waist", "fly-edge")
		for _, at := range []float64{fly.At - 30, fly.At} { // the second where the fly facing's seam begins
			pleat := docket.Change{ID: "pleat", Kind: docket.AddPleat, Spot: spot("front:waist", at), Hinge: spot("front:hem", "middle"), By: unit.MM(10), Method: "pleat"}
			was := changed(t, g, pleat)
			up := docket.Change{ID: "up", Kind: docket.RaiseEdge, Edge: "waist", By: unit.MM(6)}
			now := changed(t, g, pleat, up)
			down := up
			down.ID, down.By = "down", unit.MM(-6)
			if off := apart(was.Pieces["front"], changed(t, g, pleat, up, down).Pieces["front"]); off > 0.35 { // sides are trued each time
				t.Errorf("raised and lowered, the front is %.3f mm off", off)
			}
			before, _ := was.Pieces["front"].Edge("pleat-top")
			after, _ := now.Pieces["front"].Edge("pleat-top")
			for _, d := range []geom.Pt{after.Curve.Start().Sub(before.Curve.Start()), after.Curve.End().Sub(before.Curve.End())} {
				if math.Abs(d.X) > 0.4 || math.Abs(d.Y-6) > 0.4 {
					t.Errorf("a corner of the pleat goes by %.2f, %.2f", d.X, d.Y)
				}
			}
			if _, unresolved := seam.Resolve(now); len(unresolved) > 0 {
				t.Errorf("pleat at %.1f: %v", at, unresolved.Codes())
			}
			if at != fly.At {
				a, _ := was.Pieces["front"].Notch("waist-2", "fly-edge")
				b, ok := now.Pieces["front"].Notch("waist-2", "fly-edge")
				if !ok || math.Abs(a.At-b.At) > 0.4 {
					t.Errorf("the notch of the fly was at %.2f, is at %.2f", a.At, b.At)
				}
			}
		}
	})
}
