package trace_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
	"gusset/internal/unit"
)

// diagonals are the two tapes of a scene, read to the millimetre, and to the half
// of one round a small piece, as the guide asks for.
func diagonals(s *scene.Scene) []trace.Tape {
	tape := func(a, b cards.ID) trace.Tape {
		span, fine := s.Tape(a, b), 1.0
		if span < 700 {
			fine = 0.5
		}
		return trace.Tape{A: a, B: b, Length: unit.MM(math.Round(span/fine) * fine)}
	}
	return []trace.Tape{tape(0, 1), tape(2, 3)}
}

func load(t *testing.T, name string, data []byte) *photo.Photo {
	t.Helper()
	p, found := photo.Load(name, data)
	if p == nil {
		t.Fatal(found.Codes())
	}
	return p
}

// accuracy is how true a trace is, after the best turn and shift, without a
// change of scale.
type accuracy struct {
	scale          float64 // of the area, as a length, less 1: the plane's and the edge's together
	mean, p95, max float64
	corner         float64 // the worst
	vs, slits      int     // found
	outs           int     // likewise, notches that stand out
	falseNotches   int
	segments       int
	grain          float64 // degrees
	missing, extra int     // corners
}

func measure(t scene.Truth, got trace.Traced) accuracy {
	var a accuracy
	m := aligned(t, got)
	var found []geom.Pt
	for _, e := range got.Shape.Edges {
		a.segments += len(e)
		n := int(e.Length() / 2)
		for k := range n {
			found = append(found, m(e.At(e.Length()*float64(k)/float64(n))))
		}
	}
	off := t.Apart(found)
	for _, d := range off {
		a.mean += d / float64(len(off))
	}
	slices.Sort(off)
	a.p95, a.max = off[len(off)*95/100], off[len(off)-1]
	var trueArea, gotArea float64
	var drafted []geom.Pt
	for _, e := range t.Edges {
		drafted = append(drafted, e.Flatten(0.02)...)
	}
	trueArea, gotArea = geom.Area(drafted), geom.Area(got.Loop())
	a.scale = math.Sqrt(gotArea/trueArea) - 1
	for _, c := range t.Corners() {
		best := math.Inf(1)
		for _, e := range got.Shape.Edges {
			best = min(best, m(e.Start()).Dist(c))
		}
		if best > 5 {
			a.missing++
		} else {
			a.corner = max(a.corner, best)
		}
	}
	a.extra = len(got.Shape.Edges) - len(t.Edges) + a.missing
	count := func(places []geom.Pt) (n int) {
		for _, p := range places {
			for _, k := range got.Shape.Notches {
				if m(k.At).Dist(p) < 1.5 {
					n++
					break
				}
			}
		}
		return n
	}
	a.vs, a.slits = count(t.Vs), count(t.Slits)
	a.outs = count(t.Outs)
	a.falseNotches = len(got.Shape.Notches) - a.vs - a.slits - a.outs
	a.grain = 90
	for _, l := range got.Lines {
		d, g := m(l.B).Sub(m(l.A)), t.Grain[1].Sub(t.Grain[0])
		a.grain = min(a.grain, math.Abs(math.Atan(d.Cross(g)/d.Dot(g)))*180/math.Pi)
	}
	return a
}

// aligned returns the map from the frame of the cards to that of the scene: the
// turn and shift under which the measured points lie nearest to the true
// outline.
func aligned(t scene.Truth, got trace.Traced) func(geom.Pt) geom.Pt {
	var pts []geom.Pt
	for _, e := range got.Shape.Edges {
		for d := 0.0; d < e.Length(); d += 10 {
			pts = append(pts, e.At(d))
		}
	}
	turn, shift := start(t, got)
	for range 30 {
		var ma, mb geom.Pt
		on := make([]geom.Pt, len(pts))
		n := float64(len(pts))
		for i, p := range pts {
			q := p.Rot(turn).Add(shift)
			on[i] = nearestOn(t.Edges, q)
			ma, mb = ma.Add(p.Mul(1/n)), mb.Add(on[i].Mul(1/n))
		}
		var s, c float64
		for i, p := range pts {
			u, v := p.Sub(ma), on[i].Sub(mb)
			s, c = s+u.Cross(v), c+u.Dot(v)
		}
		turn = math.Atan2(s, c)
		shift = mb.Sub(ma.Rot(turn))
	}
	return func(p geom.Pt) geom.Pt { return p.Rot(turn).Add(shift) }
}

// start is a first guess of that map, from where the solver put its first card.
func start(t scene.Truth, got trace.Traced) (float64, geom.Pt) {
	lo, hi := geom.BoundsOf(got.Edge.Points)
	var drafted []geom.Pt
	for _, e := range t.Edges {
		drafted = append(drafted, e.Flatten(0.5)...)
	}
	l, h := geom.BoundsOf(drafted)
	return 0, l.Lerp(h, 0.5).Sub(lo.Lerp(hi, 0.5))
}

func nearestOn(edges []geom.Curve, p geom.Pt) geom.Pt {
	best, out := math.Inf(1), p
	for _, e := range edges {
		if at, d := e.Nearest(p); d < best {
			best, out = d, e.At(at)
		}
	}
	return out
}

// The scenes that were looked at while tracing was made: the accuracy that is
// wanted of every scene, every notch and corner.
func TestTuned(t *testing.T) {
	for i := range tuned {
		if os.Getenv("GUSSET_QUICK") != "" && i > 0 {
			t.Skip("quick: one scene is enough for the race detector")
		}
		s, truth, name := tunedScene(i)
		p := load(t, name, photoOf(t, s, name))
		got, found := trace.Run([]*photo.Photo{p}, diagonals(s), trace.Tolerance)
		if found.Stops() > 0 {
			t.Errorf("%s: %v", name, texts(found))
			continue
		}
		a := measure(truth, got)
		t.Logf("%s: %+v, corner marks %.3f px, signal %.0f, weak %.3f: %v", name, a, got.Table.Solution.RMS, got.Edge.Signal, got.Edge.Weak, found.Codes())
		if a.mean > 0.2 || a.max > 0.8 || a.missing+a.extra > 0 || a.vs != len(truth.Vs) || a.slits != len(truth.Slits) || a.falseNotches > 0 || a.grain > 0.1 {
			t.Errorf("%s: %+v", name, a)
		}
		loads(t, got)
	}
}

// Notches that stand out are found and told from corners, and the edge runs
// through beneath them.
func TestNotchesThatStandOut(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: scenes take long to render under the race detector")
	}
	c := small
	c.Panel, c.MorePixel, c.Table, c.Wood = 4, 1500, scene.Oak, 0.3
	s, truth := scene.Standard(81, c)
	got, found := trace.Run([]*photo.Photo{load(t, "flap", photoOf(t, s, "flap"))}, diagonals(s), trace.Tolerance)
	if found.Stops() > 0 {
		t.Fatal(texts(found))
	}
	a := measure(truth, got)
	t.Logf("%+v: %v", a, found.Codes())
	if a.mean > 0.2 || a.max > 0.8 || a.missing+a.extra > 0 || a.outs != len(truth.Outs) || a.slits != len(truth.Slits) || a.falseNotches > 0 {
		t.Errorf("%+v", a)
	}
	for _, n := range got.Shape.Notches {
		near := math.Inf(1)
		m := aligned(truth, got)
		for _, p := range truth.Outs {
			near = min(near, m(n.At).Dist(p))
		}
		if n.Out != (near < 1.5) {
			t.Errorf("notch at %v: stands out is %v", n.At, n.Out)
		}
	}
}

// loads writes the traced piece into a pattern and has it read back.
func loads(t *testing.T, got trace.Traced) {
	t.Helper()
	p, found := got.Piece(trace.Naming{Piece: "panel", Size: "12"})
	if found.Stops() > 0 {
		t.Error(texts(found))
	}
	yaml := "gusset: pattern/1\ntitle: traced\nchoose: hip\nsizes: [\"12\"]\nchart: {unit: cm, hip: [96]}\nprinted: {line: stitching}\n" +
		"pieces: {panel: {}}\nviews:\n  one: {pieces: [{piece: panel, copies: pair, cloth: [main]}]}\n"
	drawing := trace.File([]string{"12"}, []piece.Piece{p})
	read, told := pattern.Load(source.File{Path: "pattern.yaml", Data: []byte(yaml)}, func(name string) (source.File, error) {
		return source.File{Path: name, Data: drawing}, nil
	})
	g, ok := read.Pieces["panel"]
	if !ok || len(g.In) != 1 {
		t.Fatalf("the piece file is not read: %v", texts(told))
	}
	for i, e := range g.In[0].Edges {
		if d := e.Curve.Length() - p.Edges[i].Curve.Length(); math.Abs(d) > 0.01 {
			t.Errorf("edge %s is read %.3f mm longer", e.Name, d)
		}
	}
	if len(g.In[0].Marks) != len(p.Marks) || len(g.In[0].Lines) != len(p.Lines) {
		t.Errorf("%d marks and %d lines are read of %d and %d", len(g.In[0].Marks), len(g.In[0].Lines), len(p.Marks), len(p.Lines))
	}
}

func texts(l finding.List) (out []string) {
	for _, f := range l {
		out = append(out, f.Code()+": "+f.Text())
	}
	return out
}
