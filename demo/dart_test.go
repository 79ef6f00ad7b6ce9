package demo

import (
	"context"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gusset/internal/change"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// inSizes calls do with a view of a pattern in every printed size, in one only
// when the tests run short of time.
func inSizes(t *testing.T, docket string, do func(t *testing.T, g pattern.Garment)) {
	t.Helper()
	in := open(t, docket)
	v, _ := in.Pattern.View(in.Docket.View)
	for k, size := range in.Pattern.Sizes {
		if os.Getenv("GUSSET_QUICK") != "" && k != 3 {
			continue
		}
		g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
		for _, u := range v.Uses {
			g.Pieces[u.Piece] = in.Pattern.Pieces[u.Piece].In[k]
			g.Order = append(g.Order, u.Piece)
		}
		t.Run(size, func(t *testing.T) { do(t, g) })
	}
}

// changed makes the steps and fails when one is refused.
func changed(t *testing.T, g pattern.Garment, steps ...docket.Change) pattern.Garment {
	t.Helper()
	for i := range steps {
		if steps[i].ID == "" {
			steps[i].ID = fmt.Sprintf("step-%d", i)
		}
	}
	c, found := change.Apply(g, steps, unit.Millimetre)
	for _, f := range found {
		if f.Severity() == finding.Stop {
			t.Errorf("%s: %s", f.Code(), f.Text())
		}
	}
	return c.Garment()
}

// spot is a place on an edge: "hip", "middle", a corner, or mm from a corner.
func spot(edge string, at any, from ...string) docket.Spot {
	s := docket.Spot{Edge: edge}
	switch v := at.(type) {
	case string:
		s.At = v
	case float64:
		s.Along = unit.MM(v)
	}
	if len(from) > 0 {
		s.From = from[0]
	}
	return s
}

// misfits is how far the sides of each seam miss, in mm.
func misfits(t *testing.T, g pattern.Garment) map[string]float64 {
	t.Helper()
	seams, found := seam.Resolve(g)
	for _, f := range found {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
	w, _ := seam.Walk(g, seams, unit.Millimetre)
	out := map[string]float64{}
	for _, r := range w.Seams() {
		out[r.Seam.ID] = r.Widest()
	}
	return out
}

// sameFit checks that every seam fits as well as before.
func sameFit(t *testing.T, before, after pattern.Garment, within float64) {
	t.Helper()
	was := misfits(t, before)
	for id, now := range misfits(t, after) {
		if now > was[id]+within {
			t.Errorf("%s missed by %.4f mm, now by %.4f", id, was[id], now)
		}
	}
}

// apart is how far two outlines lie from each other at most, by points on both.
func apart(a, b piece.Piece) float64 {
	one := func(from, to piece.Piece) float64 {
		var worst float64
		for _, e := range from.Edges {
			for k := 0; k <= 40; k++ {
				q := e.Curve.At(e.Curve.Length() * float64(k) / 40)
				least := math.Inf(1)
				for _, f := range to.Edges {
					_, off := f.Curve.Nearest(q)
					least = math.Min(least, off)
				}
				worst = math.Max(worst, least)
			}
		}
		return worst
	}
	return math.Max(one(a, b), one(b, a))
}

// wedge measures a dart by the law of cosines from the distances between its
// three corners: its angle, and how far its legs differ.
func wedge(t *testing.T, p piece.Piece, in, out string) (angle, uneven float64) {
	t.Helper()
	a, ok1 := p.Edge(in)
	b, ok2 := p.Edge(out)
	if !ok1 || !ok2 || a.Curve.End().Dist(b.Curve.Start()) > 1e-9 {
		t.Fatalf("%s has no dart of %s and %s", p.Name, in, out)
	}
	x, y, z := a.Curve.Length(), b.Curve.Length(), a.Curve.Start().Dist(b.Curve.End())
	return math.Acos((x*x + y*y - z*z) / (2 * x * y)), math.Abs(x - y)
}

// long is the length of all parts of an edge of a piece: of side, side-2 and so
// on.
func long(p piece.Piece, edge string) float64 {
	var sum float64
	for _, e := range p.Edges {
		if rest, ok := strings.CutPrefix(e.Name, edge); ok && (rest == "" || strings.Trim(rest, "-0123456789") == "") {
			sum += e.Curve.Length()
		}
	}
	return sum
}

const weir = "dockets/weir-knee.yaml"

// The darts of the Weir, with places to pivot them to and the place where each
// opens as printed. On the back, which is drawn from the centre out, the legs
// come the other way round.
var weirDarts = []struct {
	dart, piece, in, out string
	to                   docket.Spot
	home                 docket.Spot
}{
	{"front-dart", "front", "dart-side", "dart-centre", spot("front:side", 80.0, "waist-side"), spot("front:waist-centre", 0.0)},
	{"front-dart", "front", "dart-side", "dart-centre", spot("front:side", "hip"), spot("front:waist-centre", 0.0)},
	{"front-dart", "front", "dart-side", "dart-centre", spot("front:waist-side", "middle"), spot("front:waist-centre", 0.0)},
	{"front-dart", "front", "dart-side", "dart-centre", spot("front:waist-centre", 40.0, "centre"), spot("front:waist-centre", 0.0)},
	{"outer-dart", "back", "outer-dart-centre", "outer-dart-side", spot("back:side", 70.0, "waist-side"), spot("back:waist-side", 0.0)},
	{"inner-dart", "back", "inner-dart-centre", "inner-dart-side", spot("back:centre", "zip-foot"), spot("back:waist-middle", 0.0)},
}

// Pivoting keeps the dart's angle and the length of every edge and fits every
// seam as before (a turn about a point keeps lengths and angles); pivoted back to
// where it was, the piece is as drawn.
func TestPivotDart(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, d := range weirDarts {
			t.Run(d.dart+" "+d.to.Edge, func(t *testing.T) {
				step := docket.Change{Kind: docket.PivotDart, Item: d.dart, Spot: d.to}
				now := changed(t, g, step)
				was, p := g.Pieces[d.piece], now.Pieces[d.piece]
				before, _ := wedge(t, was, d.in, d.out)
				after, uneven := wedge(t, p, d.in, d.out)
				if math.Abs(after-before) > 1e-9 || uneven > 1e-6 {
					t.Errorf("the dart had %.9f, has %.9f radians; its legs differ by %.6f mm", before, after, uneven)
				}
				for _, e := range was.Edges {
					if e.Name != d.in && e.Name != d.out && math.Abs(long(p, e.Name)-e.Curve.Length()) > 1e-4 {
						t.Errorf("%s was %.4f mm long and is %.4f", e.Name, e.Curve.Length(), long(p, e.Name))
					}
				}
				sameFit(t, g, now, 1e-4)
				step.ID = "there"
				back := changed(t, g, step, docket.Change{ID: "back", Kind: docket.PivotDart, Item: d.dart, Spot: d.home})
				if off := apart(was, back.Pieces[d.piece]); off > 0.01 {
					t.Errorf("pivoted there and back, the outline is %.4f mm off", off)
				}
			})
		}
	})
}

// A longer dart takes in what it did: its legs follow Pythagoras from half the
// opening and the depth. Shortened by as much it is as it was.
func TestDartLength(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, d := range weirDarts {
			for _, by := range []float64{15, -25} {
				step := docket.Change{ID: "a", Kind: docket.DartLength, Item: d.dart, By: unit.MM(by)}
				was, p := g.Pieces[d.piece], changed(t, g, step).Pieces[d.piece]
				leg := func(p piece.Piece) (legs, half float64) {
					a, _ := p.Edge(d.in)
					b, _ := p.Edge(d.out)
					return a.Curve.Length(), a.Curve.Start().Dist(b.Curve.End()) / 2
				}
				l, h := leg(was)
				if now, half := leg(p); math.Abs(now-math.Hypot(h, math.Sqrt(l*l-h*h)+by)) > 1e-6 || math.Abs(half-h) > 1e-9 {
					t.Errorf("%s by %g: legs of %.4f mm, opening %.4f", d.dart, by, now, 2*half)
				}
				back := docket.Change{ID: "b", Kind: docket.DartLength, Item: d.dart, By: unit.MM(-by)}
				if off := apart(was, changed(t, g, step, back).Pieces[d.piece]); off > 0.01 {
					t.Errorf("%s there and back is %.4f mm off", d.dart, off)
				}
			}
		}
	})
}

// Moved along its edge a dart leaves the edge as long as it was, and takes in
// what the strip it passes turned by its angle leaves: an isosceles triangle.
func TestMoveDart(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, d := range []struct {
			dart, piece, in, out, give, take string
			by                               float64
		}{
			{"front-dart", "front", "dart-side", "dart-centre", "waist-side", "waist-centre", 20},
			{"front-dart", "front", "dart-side", "dart-centre", "waist-centre", "waist-side", 25},
			{"inner-dart", "back", "inner-dart-centre", "inner-dart-side", "waist-middle", "waist-centre", 10},
			{"outer-dart", "back", "outer-dart-centre", "outer-dart-side", "waist-side", "waist-middle", 15},
		} {
			step := docket.Change{ID: "a", Kind: docket.MoveDart, Item: d.dart, By: unit.MM(d.by), Edge: d.give}
			now := changed(t, g, step)
			was, p := g.Pieces[d.piece], now.Pieces[d.piece]
			angle, _ := wedge(t, was, d.in, d.out)
			_, uneven := wedge(t, p, d.in, d.out)
			give, _ := p.Edge(d.give)
			in, _ := was.Edge(d.in)
			corner := give.Curve.Start() // of the edge that gave, at the dart
			a, _ := p.Edge(d.in)
			b, _ := p.Edge(d.out)
			if a.Curve.Start().Dist(give.Curve.End()) < 1e-6 {
				corner = give.Curve.End()
			}
			want := 2 * corner.Dist(in.Curve.End()) * math.Sin(angle/2)
			if got := a.Curve.Start().Dist(b.Curve.End()); math.Abs(got-want) > 1e-6 || uneven > 1e-6 {
				t.Errorf("%s takes in %.4f mm, want %.4f; legs differ by %.6f", d.dart, got, want, uneven)
			}
			for _, k := range []struct {
				edge string
				by   float64
			}{{d.give, -d.by}, {d.take, d.by}} {
				e, _ := was.Edge(k.edge)
				if grown := long(p, k.edge) - e.Curve.Length(); math.Abs(grown-k.by) > 1e-4 {
					t.Errorf("%s: %s grew by %.4f mm, want %.4f", d.dart, k.edge, grown, k.by)
				}
			}
			sameFit(t, g, now, 1e-3)
			back := docket.Change{ID: "b", Kind: docket.MoveDart, Item: d.dart, By: unit.MM(-d.by), Edge: d.give}
			sameFit(t, g, changed(t, g, step, back), 1e-3)
		}
	})
}

// Divided, the two angles seen from the old point add up to the old one, and
// every edge keeps its length.
func TestDivideDart(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, share := range []float64{0.3, 0.5} {
			for _, d := range []struct {
				dart, piece, in, out string
				to                   docket.Spot
			}{
				{"front-dart", "front", "dart-side", "dart-centre", spot("front:waist-side", 30.0, "dart-side")},
				{"front-dart", "front", "dart-side", "dart-centre", spot("front:side", 80.0, "waist-side")},
				{"outer-dart", "back", "outer-dart-centre", "outer-dart-side", spot("back:side", 70.0, "waist-side")},
			} {
				now := changed(t, g, docket.Change{ID: "half", Kind: docket.DivideDart, Item: d.dart, Spot: d.to, Share: share})
				was, p := g.Pieces[d.piece], now.Pieces[d.piece]
				old, _ := wedge(t, was, d.in, d.out)
				first, u1 := wedge(t, p, d.in, d.out)
				_, u2 := wedge(t, p, d.in+"-2", d.out+"-2")
				in, _ := p.Edge(d.in)
				in2, _ := p.Edge(d.in + "-2")
				out2, _ := p.Edge(d.out + "-2")
				point := in.Curve.End()
				x, y := in2.Curve.Start().Dist(point), out2.Curve.End().Dist(point)
				z := in2.Curve.Start().Dist(out2.Curve.End())
				second := math.Acos((x*x + y*y - z*z) / (2 * x * y))
				if math.Abs(first+second-old) > 1e-7 || math.Abs(second-share*old) > 1e-7 || u1 > 1e-6 || u2 > 1e-6 {
					t.Errorf("%s: %.6f and %.6f radians of %.6f; legs differ by %.6f and %.6f mm", d.dart, first, second, old, u1, u2)
				}
				for _, e := range was.Edges {
					if !strings.Contains(e.Name, "dart") && math.Abs(long(p, e.Name)-e.Curve.Length()) > 1e-4 {
						t.Errorf("%s: %s was %.4f mm long and is %.4f", d.dart, e.Name, e.Curve.Length(), long(p, e.Name))
					}
				}
				if _, found := now.View.Joins[len(now.View.Joins)-1], len(now.View.Joins) == len(g.View.Joins)+1; !found {
					t.Errorf("%s: the second dart is not sewn", d.dart)
				}
				sameFit(t, g, now, 1e-4)
			}
		}
	})
}

// Two darts made one leave the edge as long as it was, sewn. The new opening is
// worked out here: the end of the kept dart that lies towards the other turns
// about the other's point by its angle, and so by twice its distance times the
// sine of half the angle.
func TestMergeDarts(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		was := g.Pieces["back"]
		end := func(p piece.Piece, dart, leg string) (mouth, point geom.Pt) {
			e, _ := p.Edge(dart + leg)
			if leg == "-centre" { // on the back the leg on the centre's side runs in
				return e.Curve.Start(), e.Curve.End()
			}
			return e.Curve.End(), e.Curve.Start()
		}
		for _, d := range [][2]string{{"inner-dart", "outer-dart"}, {"outer-dart", "inner-dart"}} {
			now := changed(t, g, docket.Change{ID: "one", Kind: docket.MergeDarts, Item: d[0], Other: d[1]})
			p := now.Pieces["back"]
			towards, off := "-side", "-centre"
			if d[0] == "outer-dart" {
				towards, off = off, towards
			}
			angle, _ := wedge(t, was, d[1]+"-centre", d[1]+"-side")
			near, _ := end(was, d[0], towards)
			stays, _ := end(was, d[0], off)
			_, pivot := end(was, d[1], towards)
			sin, cos := math.Sincos(angle)
			v := near.Sub(pivot)
			want := math.Inf(-1) // the turn that opens the kept dart
			for _, s := range []float64{sin, -sin} {
				moved := pivot.Add(geom.Pt{X: v.X*cos - v.Y*s, Y: v.X*s + v.Y*cos})
				want = math.Max(want, moved.Dist(stays))
			}
			a, _ := end(p, d[0], "-centre")
			b, _ := end(p, d[0], "-side")
			_, uneven := wedge(t, p, d[0]+"-centre", d[0]+"-side")
			if got := a.Dist(b); math.Abs(got-want) > 1e-6 || uneven > 1e-6 {
				t.Errorf("%s opens %.4f mm, want %.4f; legs differ by %.6f", d[0], got, want, uneven)
			}
			for _, e := range was.Edges {
				if !strings.Contains(e.Name, "dart") && math.Abs(long(p, e.Name)-e.Curve.Length()) > 1e-6 {
					t.Errorf("%s was %.4f mm long and is %.4f", e.Name, e.Curve.Length(), long(p, e.Name))
				}
			}
			if p.Index(d[1]+"-side") >= 0 || len(now.View.Joins) != len(g.View.Joins)-1 {
				t.Errorf("%s is still there", d[1])
			}
			sameFit(t, g, now, 1e-4)
		}
	})
}

// Gathered, the edge is longer by what is drawn up, the seams of it state that as
// ease, and the waist measured round is what it was.
func TestGatherDart(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		now := changed(t, g, docket.Change{ID: "full", Kind: docket.GatherDart, Item: "front-dart", Method: "gathers"})
		was, p := g.Pieces["front"], now.Pieces["front"]
		a, _ := was.Edge("dart-side")
		b, _ := was.Edge("dart-centre")
		opening := a.Curve.Start().Dist(b.Curve.End())
		grown := long(p, "waist-side") + long(p, "waist-centre") - long(was, "waist-side") - long(was, "waist-centre")
		if grown < opening || grown > 1.02*opening {
			t.Errorf("the edge is %.3f mm longer, the dart opened %.3f", grown, opening)
		}
		for _, x := range now.View.Joins {
			if x.ID == "waist" && (len(x.Ease) != 1 || math.Abs(x.Ease[0].MM()+grown) > 1e-4) {
				t.Errorf("the facing is stated %v shorter, want %.4f mm", x.Ease, grown)
			}
		}
		sameFit(t, g, now, 1e-4)
	})
}

// area is a piece's area by the corners of a fine polygon.
func area(p piece.Piece) float64 { return geom.Area(p.Outline(0.002)) }

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

// A fold made a seam, and the seam saved again, is the piece as it was.
func TestFoldAndSeam(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		for _, name := range []string{"front", "front-facing"} {
			cut := docket.Change{ID: "seam", Kind: docket.FoldToSeam, Piece: name, To: unit.MM(15), Method: "plain-open"}
			apiece := changed(t, g, cut)
			if u, _ := apiece.Use(name); u.Copies != pattern.Pair || misfits(t, apiece)["seam"] > 1e-9 {
				t.Errorf("%s is cut %s", name, u.Copies)
			}
			back := changed(t, g, cut, docket.Change{ID: "fold", Kind: docket.SeamToFold, Piece: name})
			u, _ := back.Use(name)
			was, _ := g.Use(name)
			if u.Copies != was.Copies || u.FoldEdge != was.FoldEdge || len(back.View.Joins) != len(g.View.Joins) || apart(g.Pieces[name], back.Pieces[name]) > 0.01 {
				t.Errorf("%s: %+v, was %+v", name, u, was)
			}
		}
	})
}

// A piece divided and joined again is the piece as it was, and every seam means
// what it meant.
func TestJoinPieces(t *testing.T) {
	for _, d := range []struct {
		docket, piece string
		at            float64
	}{{"dockets/quay-long.yaml", "front", 500}, {"dockets/quay-long.yaml", "band", 300}, {"dockets/quay-long.yaml", "back", 400}} {
		inSizes(t, d.docket, func(t *testing.T, g pattern.Garment) {
			apiece := docket.Change{ID: "cut", Kind: docket.Divide, Piece: d.piece, Where: unit.MM(d.at), Method: "plain-open"}
			now := changed(t, g, apiece, docket.Change{ID: "one", Kind: docket.JoinPieces, Item: "cut"})
			if off := apart(g.Pieces[d.piece], now.Pieces[d.piece]); off > 0.01 || len(now.Pieces) != len(g.Pieces) || len(now.View.Joins) != len(g.View.Joins) {
				t.Errorf("%s is %.4f mm off; %d pieces of %d", d.piece, off, len(now.Pieces), len(g.Pieces))
			}
			sameFit(t, g, now, 1e-3)
		})
	}
}

// Each of these changes goes through every stage down to the cut pieces in every
// size, without a stop.
func TestDartChangesAreMade(t *testing.T) {
	steps := []docket.Change{
		{Kind: docket.PivotDart, Item: "front-dart", Spot: spot("front:side", 80.0, "waist-side")},
		{Kind: docket.PivotDart, Item: "outer-dart", Spot: spot("back:side", 80.0, "waist-side")},
		{Kind: docket.MoveDart, Item: "front-dart", By: unit.MM(20), Edge: "waist-side"},
		{Kind: docket.DartLength, Item: "inner-dart", By: unit.MM(-20)},
		{Kind: docket.DivideDart, Item: "front-dart", Spot: spot("front:waist-side", 30.0, "dart-side"), Share: 0.5},
		{Kind: docket.MergeDarts, Item: "inner-dart", Other: "outer-dart"},
		{Kind: docket.GatherDart, Item: "front-dart", Method: "gathers"},
		{Kind: docket.Spread, Spot: spot("front:hem", "middle"), Hinge: spot("front:waist-side", "middle"), By: unit.MM(40)},
		{Kind: docket.Spread, Spot: spot("front:hem", "middle"), Hinge: spot("front:waist-side", "middle"), By: unit.MM(-20)},
		{Kind: docket.AddPleat, By: unit.MM(30), Where: unit.MM(120), Method: "pleat-stitched", Spot: spot("front:waist-centre", 50.0, "centre"), Hinge: spot("front:hem", 50.0)},
		{Kind: docket.SetAllowance, Edge: "front:side", To: unit.MM(25)},
		{Kind: docket.FoldToSeam, Piece: "front", To: unit.MM(15), Method: "plain-open"},
	}
	in := open(t, weir)
	for k, size := range in.Pattern.Sizes {
		if os.Getenv("GUSSET_QUICK") != "" && k != 3 {
			continue
		}
		for i, step := range steps {
			step.ID = "it"
			in.Docket.Size = docket.Size{All: size}
			in.Docket.Changes = []docket.Change{step}
			r := making.Run(context.Background(), in, making.Finish, making.Effort{}, nil)
			if r.Findings.Stops() > 0 || len(r.Changed.Applied()) != 1 || r.Walked.Widest() > 0.5 {
				t.Errorf("size %s, step %d %s: %d applied, widest %.2f mm", size, i, step.Kind, len(r.Changed.Applied()), r.Walked.Widest())
				for _, f := range r.Findings {
					if f.Severity() == finding.Stop {
						t.Logf("%s: %s", f.Code(), f.Text())
					}
				}
			}
		}
	}
}

// Taken in at the side, the waist breaks there; drawn on across it, it runs on,
// the seams fit, and no corner has moved by more than truing allows.
func TestRunOn(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		breaks := func(g pattern.Garment) float64 {
			seams, _ := seam.Resolve(g)
			var worst float64
			for _, c := range seam.Crossings(g, seams) {
				if c.Seam.Join == "side" {
					worst = math.Max(worst, math.Abs(c.Break))
				}
			}
			return worst
		}
		in := docket.Change{ID: "in", Kind: docket.TakeIn, Item: "side", By: unit.MM(15), At: "waist", From: "hip"}
		on := docket.Change{ID: "on", Kind: docket.RunOn, Item: "side", By: unit.MM(40)}
		taken, smooth := changed(t, g, in), changed(t, g, in, on)
		if was, now := breaks(taken), breaks(smooth); was < 1 || now > 0.3 {
			t.Errorf("the waist breaks by %.2f degrees, and by %.2f drawn on", was, now)
		}
		sameFit(t, g, smooth, 0.1)
	})
}

// An edge in one sweep keeps its ends and their directions, and is nowhere far
// from where it was: a hem that has been spread bends one way only afterwards.
func TestSmoothEdge(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		open := docket.Change{ID: "open", Kind: docket.Spread, Spot: spot("front:hem", "middle"), Hinge: spot("front:waist-side", "middle"), By: unit.MM(60)}
		sweep := docket.Change{ID: "sweep", Kind: docket.SmoothEdge, Edge: "front:hem"}
		a, _ := changed(t, g, open).Pieces["front"].Edge("hem")
		b, _ := changed(t, g, open, sweep).Pieces["front"].Edge("hem")
		for _, d := range []float64{
			a.Curve.Start().Dist(b.Curve.Start()), a.Curve.End().Dist(b.Curve.End()),
			a.Curve.StartTangent().Dist(b.Curve.StartTangent()), a.Curve.EndTangent().Dist(b.Curve.EndTangent()),
		} {
			if d > 1e-9 {
				t.Errorf("an end has moved or turned by %g", d)
			}
		}
		for at := 1.0; at < b.Curve.Length()-2; at += 5 {
			if b.Curve.TangentAt(at).Cross(b.Curve.TangentAt(at+1)) < -1e-9 {
				t.Errorf("the hem bends back %.0f mm from the centre", at)
				break
			}
		}
	})
}

// A seam whose sides differ: the front's side is drawn 4 mm too long. Shared, each
// side moves by half; trimmed, the front by all of it; eased, nothing moves and the
// seam states 4 mm; and notches 4 mm apart are moved by as much.
func TestSettle(t *testing.T) {
	inSizes(t, weir, func(t *testing.T, g pattern.Garment) {
		g = g.Clone()
		p := g.Pieces["front"]
		hem, side, centre := p.Index("hem"), p.Index("side"), p.Index("centre")
		down := geom.Pt{Y: -4}
		a, b := p.Edges[hem].Curve.Start().Add(down), p.Edges[hem].Curve.End().Add(down)
		p.Edges[hem].Curve = geom.Polyline(a, b)
		p.Edges[side].Curve = append(geom.Polyline(b, p.Edges[side].Curve[0].End()), p.Edges[side].Curve[1:]...)
		p.Edges[centre].Curve = geom.Polyline(p.Edges[centre].Curve.Start(), a)
		for i, m := range p.Marks {
			if m.Edge == "side" {
				p.Marks[i].At += 4
			}
		}
		was := map[string]float64{"front": long(p, "side"), "back": long(g.Pieces["back"], "side")}
		for how, moved := range map[docket.How][2]float64{docket.Share: {-2, 2}, docket.Trim: {-4, 0}, docket.Ease: {0, 0}} {
			now := changed(t, g, docket.Change{ID: "fit", Kind: docket.Settle, Item: "side", How: how})
			for k, name := range []string{"front", "back"} {
				if by := long(now.Pieces[name], "side") - was[name]; math.Abs(by-moved[k]) > 0.05 {
					t.Errorf("%s: the side of the %s is longer by %.3f mm, want %g", how, name, by, moved[k])
				}
			}
			seams, _ := seam.Resolve(now)
			w, _ := seam.Walk(now, seams, unit.Millimetre)
			for _, r := range w.Seams() {
				if math.Abs(r.Gaps[1]) > 0.05 {
					t.Errorf("%s: %s misses by %.3f mm", how, r.Seam.ID, r.Gaps[1])
				}
			}
		}
		at := func(g pattern.Garment, name string) float64 {
			m, _ := g.Pieces[name].Notch("side", "hip")
			return m.At
		}
		now := changed(t, g, docket.Change{ID: "fit", Kind: docket.Settle, Item: "side", How: docket.Notches})
		if by := math.Abs(at(now, "back") - at(g, "back")); math.Abs(by-4) > 1e-6 || at(now, "front") != at(g, "front") {
			t.Errorf("the notch of the back has moved by %.3f mm, want 4", by)
		}
	})
}

const flared = "dockets/weir-flared.yaml"

// The flared skirt for Reed goes through every stage down to the cut pieces: six
// steps take effect and nothing stops.
func TestFlaredIsMade(t *testing.T) {
	r := making.Run(context.Background(), open(t, flared), making.Finish, making.Effort{}, nil)
	if r.Findings.Stops() > 0 || len(r.Changed.Applied()) != 6 || r.Walked.Widest() > 0.5 {
		t.Errorf("%d steps took effect, widest miss %.2f mm: %v", len(r.Changed.Applied()), r.Walked.Widest(), r.Findings.Codes())
	}
}
