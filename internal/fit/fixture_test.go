package fit

import (
	"testing"

	"gusset/internal/body"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// The fixture is a trouser leg of our own invention in seven sizes: a front, a
// back below a yoke, a band, a patch pocket on the back and a fly shield on the
// fold. The back is drawn lower than the front, its inseam is hollower, and the
// grading is uneven, so that nothing fits by luck.

var testSizes = []string{"8", "10", "12", "14", "16", "18", "20"}

// hips and waists are rows of the US pattern industry's body table for misses,
// in inches (sewingscholar.blogspot.com, 2011-02); thighs are our own.
var (
	hips   = []float64{33.5, 34.5, 36, 38, 40, 42, 44}
	waists = []float64{24, 25, 26.5, 28, 30, 32, 34}
	thighs = []float64{19.5, 20.25, 21.25, 22.5, 23.75, 25, 26.25}
)

const (
	hipEase, waistEase = 60.0, 20.0
	backDown           = 35.0 // how much lower the back is drawn
	yokeAt             = 0.55 // where along the front's hip-to-waist side the yoke begins
)

// leg holds the measures of one size.
type leg struct{ hip, waist, thigh, knee, hem, crotchY, hipY, waistY, kneeY float64 }

func legOf(i int) leg {
	h := hips[i] * 25.4
	return leg{
		hip: h + hipEase, waist: waists[i]*25.4 + waistEase, thigh: thighs[i]*25.4 + 70,
		knee: 440 + 0.12*(h-850), hem: 430 + 0.1*(h-850),
		crotchY: 770 + 2*float64(i), hipY: 850 + 2.6*float64(i), waistY: 1030 + 3.5*float64(i), kneeY: 430 + float64(i),
	}
}

// side is the front's outseam from hem to waist, the outer side at larger x.
func (l leg) side() (lower, upper geom.Curve) {
	hem, knee := geom.Pt{X: l.hem / 4, Y: 0}, geom.Pt{X: l.knee / 4, Y: l.kneeY}
	hip := geom.Pt{X: l.hip/4 - 105, Y: l.hipY}
	waist := geom.Pt{X: l.waist/4 - 90, Y: l.waistY}
	run := knee.Sub(hem).Unit()
	up := geom.Pt{X: 0.03, Y: 1}.Unit()
	lower = geom.Curve{geom.Line(hem, knee), geom.Cubic(knee, knee.Add(run.Mul(140)), hip.Sub(up.Mul(150)), hip)}
	upper = geom.Curve{geom.Cubic(hip, hip.Add(up.Mul(60)), waist.Add(geom.Pt{X: 14, Y: -55}), waist)}
	return lower, upper
}

func (l leg) inner(hollow float64) geom.Curve {
	hem, knee := geom.Pt{X: -l.hem / 4, Y: 0}, geom.Pt{X: -l.knee / 4, Y: l.kneeY}
	run := knee.Sub(hem).Unit()
	fork := geom.Pt{X: knee.X - (l.thigh-l.knee)/4 - 20, Y: l.crotchY}
	c := geom.Curve{geom.Line(hem, knee), geom.Cubic(knee, knee.Add(run.Mul(120)), fork.Add(geom.Pt{X: hollow, Y: -110}), fork)}
	return c.Reverse()
}

func (l leg) front(i int) piece.Piece {
	lower, upper := l.side()
	outseam := append(append(geom.Curve{}, lower...), upper...)
	inseam := l.inner(18)
	fork, top := inseam.Start(), outseam.End()
	centre := geom.Pt{X: fork.X + 48, Y: l.waistY + 4}
	fly := geom.Pt{X: centre.X - 6, Y: centre.Y - 165}
	down := fly.Sub(centre).Unit()
	return piece.Piece{Name: "front", Edges: []piece.Edge{
		{Name: "hem", Curve: geom.Polyline(inseam.End(), outseam.Start())},
		{Name: "outseam", Curve: outseam},
		{Name: "waist", Curve: geom.Curve{geom.Cubic(top, top.Add(geom.Pt{X: -60, Y: -9}), centre.Add(geom.Pt{X: 50, Y: -2}), centre)}},
		{Name: "fly", Curve: geom.Polyline(centre, centre.Lerp(fly, 0.3+0.02*float64(i)), fly)},
		{Name: "fork", Curve: geom.Curve{geom.Cubic(fly, fly.Add(down.Mul(55)), fork.Add(geom.Pt{X: 30, Y: 4}), fork)}},
		{Name: "inseam", Curve: inseam},
	}, Lines: append(l.levels(0), piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: 2, Y: 200}, geom.Pt{X: 2, Y: 700})},
		piece.Line{Kind: piece.Fold, Name: "crease", Curve: geom.Polyline(geom.Pt{X: float64(i) / 2, Y: 0}, geom.Pt{X: float64(i) / 2, Y: l.hipY})}),
		Marks: []piece.Mark{
			{Kind: piece.Notch, Name: "knee", Edge: "outseam", At: lower[0].Length()},
			{Kind: piece.Notch, Name: "hip", Edge: "outseam", At: lower.Length()},
			{Kind: piece.Notch, Name: "knee", Edge: "inseam", At: inseam[0].Length()},
		}}
}

func (l leg) levels(down float64) []piece.Line {
	var out []piece.Line
	for _, at := range []struct {
		name string
		y    float64
	}{{"hip", l.hipY}, {"thigh", l.crotchY - 30}, {"knee", l.kneeY}} {
		y := at.y - down
		out = append(out, piece.Line{Kind: piece.Level, Name: at.name, Curve: geom.Polyline(geom.Pt{X: -60, Y: y}, geom.Pt{X: 60, Y: y})})
	}
	return out
}

// turned carries a front's line over to the back: mirrored and lowered, walked
// the other way.
func turned(c geom.Curve) geom.Curve {
	return c.Transform(geom.Affine{A: -1, D: 1, F: -backDown}).Reverse()
}

func (l leg) back() piece.Piece {
	lower, upper := l.side()
	cut, _ := upper.Split(upper.Length() * yokeAt)
	outseam := turned(append(append(geom.Curve{}, lower...), cut...))
	inner := l.inner(26)
	inner[0].P[0] = inner[0].P[0].Add(geom.Pt{X: -32, Y: -6}) // the back's fork reaches further
	inner[0].P[1] = inner[0].P[1].Add(geom.Pt{X: -14})
	inseam := turned(inner)
	fork, side := inseam.End(), outseam.Start()
	centre := geom.Pt{X: fork.X - 125, Y: side.Y + 30}
	up := geom.Pt{X: -0.22, Y: 1}.Unit()
	hip := centre.Sub(up.Mul(90))
	p := piece.Piece{Name: "back", Edges: []piece.Edge{
		{Name: "hem", Curve: geom.Polyline(outseam.End(), inseam.Start())},
		{Name: "inseam", Curve: inseam},
		{Name: "seat", Curve: geom.Curve{geom.Cubic(fork, fork.Add(geom.Pt{X: -50, Y: -6}), hip.Sub(up.Mul(70)), hip), geom.Line(hip, centre)}},
		{Name: "top", Curve: geom.Polyline(centre, side)},
		{Name: "outseam", Curve: outseam},
	}, Lines: append(l.levels(backDown), piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{Y: 150}, geom.Pt{Y: 600})}),
		Marks: []piece.Mark{
			{Kind: piece.Notch, Name: "knee", Edge: "outseam", At: outseam.Length() - lower[0].Length()},
			{Kind: piece.Notch, Name: "hip", Edge: "outseam", At: outseam.Length() - lower.Length()},
			{Kind: piece.Notch, Name: "knee", Edge: "inseam", At: inseam[0].Length()},
			{Kind: piece.Drill, Name: "pocket", P: centre.Add(geom.Pt{X: -60, Y: -60})},
		}}
	place := pocketOutline().Transform(geom.Shift(centre.Add(geom.Pt{X: -150, Y: -60})))
	p.Lines = append(p.Lines, piece.Line{Kind: piece.Placement, Name: "pocket-place", Curve: place})
	return p
}

// pocketOutline is the line a patch pocket is sewn along, the same in all sizes.
func pocketOutline() geom.Curve {
	return geom.Polyline(geom.Pt{}, geom.Pt{X: 8, Y: -120}, geom.Pt{X: 65, Y: -150}, geom.Pt{X: 122, Y: -120}, geom.Pt{X: 130})
}

func pocket() piece.Piece {
	return piece.Piece{Name: "pocket", Edges: []piece.Edge{
		{Name: "sides", Curve: pocketOutline()},
		{Name: "top", Curve: geom.Polyline(geom.Pt{X: 130}, geom.Pt{})},
	}}
}

func (l leg) yoke(back piece.Piece) piece.Piece {
	_, upper := l.side()
	_, rest := upper.Split(upper.Length() * yokeAt)
	side := turned(rest)
	top, _ := back.Edge("top")
	low := side.End()
	corner := low.Add(geom.Pt{X: top.Curve.Length()}) // the yoke is turned to lie level
	waist := geom.Pt{X: corner.X - 22, Y: side.Start().Y + 14}
	return piece.Piece{Name: "yoke", Edges: []piece.Edge{
		{Name: "lower", Curve: geom.Polyline(low, corner)},
		{Name: "centre", Curve: geom.Polyline(corner, waist)},
		{Name: "waist", Curve: geom.Curve{geom.Cubic(waist, waist.Add(geom.Pt{X: -60, Y: -12}), side.Start().Add(geom.Pt{X: 50, Y: -6}), side.Start())}},
		{Name: "side", Curve: side},
	}}
}

func box(name string, w, h float64, edges ...string) piece.Piece {
	c := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	p := piece.Piece{Name: name}
	for i, e := range edges {
		p.Edges = append(p.Edges, piece.Edge{Name: e, Curve: geom.Polyline(c[i], c[(i+1)%4])})
	}
	return p
}

func ref(t testing.TB, text string) piece.Ref {
	r, err := piece.ParseRef(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func side(t testing.TB, texts ...string) []piece.Ref {
	var out []piece.Ref
	for _, s := range texts {
		out = append(out, ref(t, s))
	}
	return out
}

func testPattern(t testing.TB) pattern.Pattern {
	graded := map[string]piece.Graded{}
	add := func(p piece.Piece) {
		for k, m := range p.Marks {
			if e, ok := p.Edge(m.Edge); ok {
				p.Marks[k].P = e.Curve.At(m.At)
			}
		}
		g := graded[p.Name]
		g.Name = p.Name
		g.In = append(g.In, p)
		graded[p.Name] = g
	}
	for i := range testSizes {
		l := legOf(i)
		front, back := l.front(i), l.back()
		yoke := l.yoke(back)
		fw, _ := front.Edge("waist")
		yw, _ := yoke.Edge("waist")
		fly, _ := front.Edge("fly")
		add(front)
		add(back)
		add(yoke)
		add(box("band", 2*(fw.Curve.Length()+yw.Curve.Length()), 40, "lower", "right-end", "upper", "left-end"))
		add(pocket())
		add(box("shield", 45, fly.Curve.Length(), "bottom", "side", "top", "fold").Transform(geom.Shift(geom.Pt{X: 3 * float64(i)})))
	}
	sew := func(id string, sides ...[]piece.Ref) pattern.Join {
		j := pattern.Join{ID: id, Sides: sides, Each: true}
		for _, s := range sides {
			for _, r := range s {
				j.Each = j.Each && r.Copy == piece.Both
			}
		}
		return j
	}
	outseam := sew("outseam", side(t, "front:outseam"), side(t, "back:outseam", "yoke:side"))
	outseam.Notches = []string{"knee", "hip"}
	inseam := sew("inseam", side(t, "front:inseam"), side(t, "back:inseam"))
	inseam.Notches = []string{"knee"}
	view := pattern.View{Name: "long", Uses: []pattern.Use{
		{Piece: "front", Copies: pattern.Pair}, {Piece: "back", Copies: pattern.Pair}, {Piece: "yoke", Copies: pattern.Pair},
		{Piece: "band", Copies: pattern.Single}, {Piece: "pocket", Copies: pattern.Pair},
		{Piece: "shield", Copies: pattern.OnFold, FoldEdge: "fold", Folded: true},
	}, Joins: []pattern.Join{
		sew("pocket", side(t, "back:/pocket-place"), side(t, "pocket:sides reversed")),
		sew("yoke", side(t, "yoke:lower"), side(t, "back:top")),
		outseam, inseam,
		sew("seat", side(t, "back@left:seat", "yoke@left:centre"), side(t, "back@right:seat", "yoke@right:centre")),
		sew("shield", side(t, "front@left:fly"), side(t, "shield:side")),
		sew("waist", side(t, "band:lower"), side(t, "front@left:waist", "yoke@left:waist", "yoke@right:waist", "front@right:waist")),
	}, Girths: []pattern.Girth{
		{Zone: "waist", Edges: side(t, "front@left:waist", "yoke@left:waist", "yoke@right:waist", "front@right:waist")},
		{Zone: "hip", Pieces: side(t, "front:/hip", "back:/hip")},
		{Zone: "thigh", Pieces: side(t, "front@left:/thigh", "back@left:/thigh")},
		{Zone: "knee", Pieces: side(t, "front@left:/knee", "back@left:/knee")},
		{Zone: "hem", Edges: side(t, "front@left:hem", "back@left:hem")},
	}}
	return pattern.Pattern{
		Name: "leg", Sizes: testSizes, Choose: body.Hip, Pieces: graded,
		Chart: pattern.Chart{Unit: unit.Inch, Rows: map[body.Measure][]unit.Length{
			body.Hip: inches(hips), body.Waist: inches(waists), body.Thigh: inches(thighs),
		}},
		Zones: []pattern.Zone{
			{Name: "waist", Measure: body.Waist}, {Name: "hip", Measure: body.Hip}, {Name: "thigh", Measure: body.Thigh},
			{Name: "knee", Measure: body.Knee}, {Name: "hem"},
		},
		Views: []pattern.View{view},
	}
}

func inches(values []float64) []unit.Length {
	out := make([]unit.Length, len(values))
	for i, v := range values {
		out[i] = unit.Of(v, unit.Inch)
	}
	return out
}

func testBody(in map[body.Measure]float64) body.Body {
	b := body.Body{Name: "wren", WaistAt: "natural", Measures: map[body.Measure]unit.Length{}}
	for m, v := range in {
		b.Measures[m] = unit.Of(v, unit.Inch)
	}
	return b
}
