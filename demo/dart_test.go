package demo

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

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
