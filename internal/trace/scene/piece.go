package scene

import (
	"math"
	"math/rand/v2"

	"gusset/internal/geom"
)

// Truth is what a trace of the scene should find.
type Truth struct {
	Edges []geom.Curve // between corners, counter-clockwise, without notches
	Vs    []geom.Pt    // mouths of notches cut as a V
	Slits []geom.Pt    // mouths of notches cut as a slit
	Outs  []geom.Pt    // middles of notches that stand out
	Grain [2]geom.Pt   // ends of the grain line
	Panel string       // what kind of piece it is
}

// Corners are the places where the outline turns.
func (t Truth) Corners() []geom.Pt {
	var out []geom.Pt
	for _, e := range t.Edges {
		out = append(out, e.Start())
	}
	return out
}

// cutNotch is a notch to be cut into an edge at a fraction of its length.
type cutNotch struct {
	edge int
	at   float64
	slit bool
	out  bool // stands out as a triangle instead
}

func v(edge int, at float64) cutNotch     { return cutNotch{edge: edge, at: at} }
func slit(edge int, at float64) cutNotch  { return cutNotch{edge: edge, at: at, slit: true} }
func stand(edge int, at float64) cutNotch { return cutNotch{edge: edge, at: at, out: true} }

// panels are the pieces of the test scenes, in mm, each with its notches. All
// stand grain upright about the origin.
var panels = []struct {
	name    string
	edges   func(k float64) []geom.Curve // k varies the shape a little
	notches []cutNotch
	grain   [2]geom.Pt
	level   [2]geom.Pt // a printed line across
}{
	{"leg", legPanel, []cutNotch{v(1, 0.3), v(1, 0.75), v(3, 0.35), v(3, 0.8), slit(2, 0.5), slit(4, 0.3), slit(1, 0.55)},
		[2]geom.Pt{{X: 30, Y: -260}, {X: 30, Y: 260}}, [2]geom.Pt{{X: -150, Y: 120}, {X: 150, Y: 120}}},
	{"bodice", bodicePanel, []cutNotch{v(1, 0.5), slit(2, 0.4), v(3, 0.5)},
		[2]geom.Pt{{X: -20, Y: -190}, {X: -20, Y: 130}}, [2]geom.Pt{{X: -180, Y: -60}, {X: 160, Y: -60}}},
	{"pocket", pocketPanel, []cutNotch{v(0, 0.5), slit(3, 0.5)},
		[2]geom.Pt{{X: 10, Y: -70}, {X: 10, Y: 70}}, [2]geom.Pt{{X: -60, Y: 80}, {X: 70, Y: 80}}},
	{"train", trainPanel, []cutNotch{v(1, 0.3), slit(1, 0.7), v(3, 0.25), v(3, 0.6)},
		[2]geom.Pt{{X: 20, Y: -700}, {X: 20, Y: 700}}, [2]geom.Pt{{X: -140, Y: 300}, {X: 140, Y: 300}}},
	{"flap", pocketPanel, []cutNotch{stand(0, 0.5), stand(1, 0.4), stand(2, 0.6), slit(3, 0.5)},
		[2]geom.Pt{{X: 10, Y: -70}, {X: 10, Y: 70}}, [2]geom.Pt{{X: -60, Y: 80}, {X: 70, Y: 80}}},
}

// legPanel is a trouser back of 1100 by 430 mm.
func legPanel(k float64) []geom.Curve {
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x * k, Y: y} }
	return []geom.Curve{
		{geom.Line(p(-120, -550), p(120, -545))},
		{geom.Line(p(120, -545), p(125, -200)), geom.Cubic(p(125, -200), p(127, -60), p(150, 60), p(215, 210))},
		{geom.Cubic(p(215, 210), p(130, 225), p(95, 290), p(70, 400)), geom.Line(p(70, 400), p(35, 550))},
		{geom.Cubic(p(35, 550), p(-60, 540), p(-140, 532), p(-185, 535))},
		{geom.Cubic(p(-185, 535), p(-215, 400), p(-215, 260), p(-190, 120)), geom.Cubic(p(-190, 120), p(-160, -30), p(-130, -150), p(-120, -550))},
	}
}

// bodicePanel is a bodice front of 540 by 430 mm with armhole and neck.
func bodicePanel(k float64) []geom.Curve {
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y * k} }
	return []geom.Curve{
		{geom.Cubic(p(-210, -260), p(-80, -270), p(60, -268), p(190, -250))},
		{geom.Line(p(190, -250), p(215, 20))},
		{geom.Cubic(p(215, 20), p(120, 30), p(110, 120), p(150, 215))},
		{geom.Line(p(150, 215), p(10, 270))},
		{geom.Cubic(p(10, 270), p(-20, 190), p(-90, 130), p(-205, 125))},
		{geom.Line(p(-205, 125), p(-210, -260))},
	}
}

// trainPanel is the half train of a cloak, 1900 by 420 mm: longer than a photo
// shows finely enough.
func trainPanel(k float64) []geom.Curve {
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x * k, Y: y} }
	return []geom.Curve{
		{geom.Cubic(p(-210, -900), p(-80, -960), p(80, -950), p(200, -880))},
		{geom.Cubic(p(200, -880), p(150, -300), p(120, 300), p(110, 940))},
		{geom.Line(p(110, 940), p(-100, 930))},
		{geom.Cubic(p(-100, 930), p(-120, 300), p(-190, -300), p(-210, -900))},
	}
}

// pocketPanel is a patch pocket of 180 by 210 mm.
func pocketPanel(k float64) []geom.Curve {
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x * k, Y: y * k} }
	return []geom.Curve{
		{geom.Cubic(p(-85, -70), p(-30, -112), p(30, -112), p(85, -70))},
		{geom.Line(p(85, -70), p(92, 105))},
		{geom.Line(p(92, 105), p(-92, 100))},
		{geom.Line(p(-92, 100), p(-85, -70))},
	}
}

// Put lays the numbered panel down: outline, printed lines and truth, turned by
// an angle and moved.
func (s *Scene) Put(panel int, r *rand.Rand, angle float64, to geom.Pt) Truth {
	p := panels[panel%len(panels)]
	m := geom.Turn(angle, geom.Pt{}).Then(geom.Shift(to))
	t := Truth{Panel: p.name}
	for _, e := range p.edges(0.96 + 0.08*r.Float64()) {
		t.Edges = append(t.Edges, e.Transform(m))
	}
	t.Grain = [2]geom.Pt{m.Apply(p.grain[0]), m.Apply(p.grain[1])}
	for i, e := range t.Edges {
		s.Outline = append(s.Outline, t.notched(i, e, p.notches)...)
	}
	s.Ink = append(s.Ink, Line{t.Grain[:], 0.6}, Line{[]geom.Pt{m.Apply(p.level[0]), m.Apply(p.level[1])}, 0.4})
	s.arrow(t.Grain[1], t.Grain[0])
	s.arrow(t.Grain[0], t.Grain[1])
	s.scribble(r, m.Apply(geom.Pt{X: -40, Y: 20}), angle)
	return t
}

// notched is an edge of the paper with its notches cut in, without its end.
func (t *Truth) notched(i int, e geom.Curve, notches []cutNotch) []geom.Pt {
	const vHalf, vDeep, slitHalf, slitDeep = 2.5, 5, 0.3, 6
	length := e.Length()
	type gap struct {
		from, to float64
		pts      []geom.Pt
	}
	var gaps []gap
	for _, n := range notches {
		if n.edge != i {
			continue
		}
		at := n.at * length
		half, deep := float64(vHalf), float64(vDeep)
		switch {
		case n.slit:
			half, deep = slitHalf, slitDeep
			t.Slits = append(t.Slits, e.At(at))
		case n.out:
			deep = -vDeep
			t.Outs = append(t.Outs, e.At(at))
		default:
			t.Vs = append(t.Vs, e.At(at))
		}
		tip := e.At(at).Add(e.TangentAt(at).Left().Mul(deep))
		gaps = append(gaps, gap{at - half, at + half, []geom.Pt{e.At(at - half), tip, e.At(at + half)}})
	}
	var out []geom.Pt
	const step = 0.5
	for d := 0.0; d < length; d += step {
		cut := false
		for _, g := range gaps {
			if d >= g.from && d <= g.to {
				cut = true
				if d-step < g.from {
					out = append(out, g.pts...)
				}
			} else if d-step < g.from && d > g.to { // a slit between two steps
				out = append(out, g.pts...)
			}
		}
		if !cut {
			out = append(out, e.At(d))
		}
	}
	return out
}

// arrow prints a small arrowhead at the end of a line.
func (s *Scene) arrow(tip, from geom.Pt) {
	d := tip.Sub(from).Unit()
	for _, a := range []float64{0.4, -0.4} {
		s.Ink = append(s.Ink, Line{[]geom.Pt{tip, tip.Sub(d.Rot(a).Mul(11))}, 0.6})
	}
}

// scribble prints strokes like a line of lettering.
func (s *Scene) scribble(r *rand.Rand, at geom.Pt, angle float64) {
	for i := range 14 {
		x := float64(i) * 4.5
		a := geom.Pt{X: x, Y: 3 * r.Float64()}
		b := geom.Pt{X: x + 3*r.Float64(), Y: 6 + 2*r.Float64()}
		s.Ink = append(s.Ink, Line{[]geom.Pt{at.Add(a.Rot(angle)), at.Add(b.Rot(angle))}, 0.5})
	}
}

// Apart returns how far found points lie from the true outline, without its
// notches, in mm, in the order of the points.
func (t Truth) Apart(found []geom.Pt) []float64 {
	out := make([]float64, len(found))
	for i, p := range found {
		out[i] = math.Inf(1)
		for _, e := range t.Edges {
			if _, d := e.Nearest(p); d < out[i] {
				out[i] = d
			}
		}
	}
	return out
}
