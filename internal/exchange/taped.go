package exchange

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// TapedVersion is the newest version of taped pieces that is read.
const TapedVersion = 1

// How far the tape and the drawing may differ, in mm: traced paper warns at 1.5
// and stops at 3 (common practice).
const (
	tapeWarn = 1.5
	tapeStop = 3.0
)

// span bounds a coordinate, and longest a length, in mm.
const (
	leastSpan, mostSpan = -5000, 5000
	longestTape         = 10000
)

// ReadTaped reads a piece that was measured with ruler and tape: points as
// distances across and along the grain, from any corner, and edges between them,
// straight, smooth through further points, or by their depth from the straight
// line at marked places. What was taped besides, edges and distances from point
// to point, is held against what is drawn.
func ReadTaped(f source.File) (Style, finding.List) {
	root, out := source.ParseYAML(f, "taped", TapedVersion)
	if !root.Exists() {
		return Style{}, out
	}
	t := &taped{m: root.Reader(&out), out: &out, points: map[string]geom.Pt{}}
	t.read()
	if out.Stops() > 0 {
		return Style{}, out
	}
	style := Style{Sizes: []string{t.part.Size}, Sample: t.part.Size, Parts: []Part{t.part}}
	return style, out
}

// taped reads one file.
type taped struct {
	m       *source.Map
	out     *finding.List
	unit    unit.Unit
	part    Part
	names   []string // of the points, in file order
	points  map[string]geom.Pt
	edges   []tapedEdge
	checked int
}

// tapedEdge is one edge as typed.
type tapedEdge struct {
	Edge
	from, to string
	tape     unit.Length
	place    finding.Place
}

func (t *taped) tell(k finding.Kind, at finding.Place, args ...any) {
	*t.out = append(*t.out, k.At(at, args...))
}

func (t *taped) read() {
	m := t.m
	p := &t.part
	p.Place = m.Place()
	p.Name = m.Required().String("piece")
	p.Title = m.StringOr("title", p.Name)
	p.Place.Piece = p.Name
	p.Size = m.Required().Label("size")
	t.unit = unit.Unit(m.Required().Word("unit", "mm", "cm", "in"))
	line := m.Required().Word("line", "stitching", "cutting")
	copies := m.WordOr("copies", "", "pair", "single", "fold")
	fold := m.String("fold-edge")
	t.readPoints()
	t.readEdges()
	if t.out.Stops() == 0 {
		t.close()
	}
	t.distances()
	t.lines()
	t.notches()
	t.drills()
	m.Done()
	if t.out.Stops() > 0 {
		return
	}
	if t.checked == 0 {
		t.tell(tapedNoCheck, p.Place)
	}
	p.Cut = nil
	for _, e := range t.edges {
		p.Cut = append(p.Cut, e.Edge)
	}
	if line == "stitching" {
		p.Sewn = p.Cut
	}
	t.copies(copies, fold)
}

// copies says how the piece is cut.
func (t *taped) copies(copies, fold string) {
	p := &t.part
	switch pattern.Copies(copies) {
	case pattern.Pair:
		p.Left, p.Right = 1, 1
	case pattern.Single, pattern.OnFold:
		p.Left = 1
	}
	if pattern.Copies(copies) != pattern.OnFold {
		return
	}
	i := slices.IndexFunc(t.edges, func(e tapedEdge) bool { return e.Name == fold })
	if i < 0 {
		t.tell(tapedPoint, t.m.Key("fold-edge").Place(), "fold-edge "+fold, "name the edge that lies on the fold")
		return
	}
	p.Mirror = t.edges[i].Curve
}

func (t *taped) readPoints() {
	for _, e := range t.m.Required().Entries("points") {
		items := e.Value.Items(t.out)
		if len(items) != 2 {
			t.tell(tapedBend, e.Value.Place(), "point "+e.Key, "it wants two distances: across, along the grain")
			continue
		}
		x, ok1 := items[0].Length(t.out, t.unit, leastSpan, mostSpan)
		y, ok2 := items[1].Length(t.out, t.unit, leastSpan, mostSpan)
		if ok1 && ok2 {
			t.points[e.Key] = geom.Pt{X: x.MM(), Y: y.MM()}
			t.names = append(t.names, e.Key)
		}
	}
}

// point is the place of a point named under a key.
func (t *taped) point(n source.Node) (geom.Pt, string, bool) {
	name, ok := n.Text(t.out)
	if !ok {
		return geom.Pt{}, "", false
	}
	p, ok := t.points[name]
	if !ok {
		mend := "choose one of the points above"
		if near := source.Nearest(name, t.names); near != "" {
			mend = "did you mean " + near + "?"
		}
		t.tell(tapedPoint, n.Place(), name, mend)
	}
	return p, name, ok
}

func (t *taped) readEdges() {
	t.m.Required().Each("edges", func(_ int, n source.Node) {
		m := n.Reader(t.out)
		e := tapedEdge{place: n.Place()}
		e.Name = m.Required().String("name")
		a, from, ok1 := t.point(m.Required().Key("from"))
		b, to, ok2 := t.point(m.Required().Key("to"))
		e.from, e.to = from, to
		pts, ok3 := t.way(m, a, b, e.Name)
		e.tape = m.Length("tape", t.unit, 1, longestTape)
		m.Done()
		if !ok1 || !ok2 || !ok3 || e.Name == "" {
			return
		}
		if slices.ContainsFunc(t.edges, func(o tapedEdge) bool { return o.Name == e.Name }) {
			t.tell(tapedTwice, e.place, e.Name)
			return
		}
		if slug(e.Name) != e.Name {
			t.tell(badEdge, e.place, fmt.Sprintf("%q is not a name: names are small letters, digits and hyphens", e.Name), "write a name such as side-seam")
			return
		}
		c, err := smoothThrough(pts)
		if err != nil || pts[0].Dist(pts[1]) < 0.1 {
			t.tell(tapedBend, e.place, e.Name, "two of them lie on each other")
			return
		}
		e.Curve = c
		t.edges = append(t.edges, e)
	})
}

// way is the points that an edge runs through, ends and all.
func (t *taped) way(m *source.Map, a, b geom.Pt, name string) ([]geom.Pt, bool) {
	pts, sound := []geom.Pt{a}, true
	if m.Has("through") && m.Has("depth") {
		t.tell(tapedWay, m.Place(), name)
		return nil, false
	}
	if m.Has("through") {
		for _, n := range m.Items("through") {
			p, _, ok := t.point(n)
			pts, sound = append(pts, p), sound && ok
		}
	}
	if m.Has("depth") {
		dir := b.Sub(a).Unit()
		out := dir.Left().Mul(-1)
		type deep struct{ at, by float64 }
		var list []deep
		m.Each("depth", func(_ int, n source.Node) {
			r := n.Reader(t.out)
			at, ok := r.Required().Key("at").Length(t.out, t.unit, 0.1, longestTape)
			d := r.Length("out", t.unit, 0, 1000).MM() - r.Length("in", t.unit, 0, 1000).MM()
			r.Done()
			sound = sound && ok && at.MM() < a.Dist(b)
			if ok && at.MM() >= a.Dist(b) {
				t.tell(tapedBend, n.Place(), name, "a depth is marked beyond the end of the straight line between its ends")
			}
			list = append(list, deep{at.MM(), d})
		})
		slices.SortFunc(list, func(x, y deep) int { return cmp.Compare(x.at, y.at) })
		for _, d := range list {
			pts = append(pts, a.Add(dir.Mul(d.at)).Add(out.Mul(d.by)))
		}
	}
	return append(pts, b), sound
}

// close joins the edges to a ring, and looks at it as a whole.
func (t *taped) close() {
	n := len(t.edges)
	if n < 2 {
		t.tell(tapedFew, t.part.Place, n)
		return
	}
	for i := range t.edges {
		e, next := &t.edges[i], t.edges[(i+1)%n]
		corner := next.Curve.Start()
		switch gap := e.Curve.End().Dist(corner); {
		case gap > tapeStop:
			t.tell(tapedGap, e.place, e.Name, e.to, next.Name, next.from, gap)
			return
		case gap > joinTol:
			t.tell(tapedSlip, e.place, e.Name, e.to, next.Name, next.from, gap)
			fallthrough
		default:
			e.Curve = endingAt(e.Curve, corner)
		}
	}
	var edges []Edge
	for _, e := range t.edges {
		edges = append(edges, e.Edge)
		t.check("edge "+e.Name, e.Curve.Length(), e.tape, e.place)
	}
	pts := loopPoints(whole(edges))
	if p, _, _, crosses := geom.SelfCrossing(pts); crosses {
		t.tell(tapedCrossing, t.part.Place, p.X, p.Y)
	} else if geom.Area(pts) < 0 {
		t.tell(tapedTurned, t.part.Place)
	}
}

// endingAt moves the end of a curve to a corner near it.
func endingAt(c geom.Curve, p geom.Pt) geom.Curve {
	return startingAt(c.Reverse(), p).Reverse()
}

// check holds a taped length against the drawn one.
func (t *taped) check(what string, drawn float64, tape unit.Length, at finding.Place) {
	if tape.IsZero() {
		return
	}
	t.checked++
	off := math.Abs(drawn - tape.MM())
	switch {
	case off > tapeStop:
		t.tell(tapedOff, at, what, drawn, tape.MM(), off)
	case off > tapeWarn:
		t.tell(tapedNear, at, what, drawn, tape.MM(), off)
	}
}

// distances are straight distances between points, taped besides.
func (t *taped) distances() {
	t.m.Each("distances", func(_ int, n source.Node) {
		m := n.Reader(t.out)
		a, from, ok1 := t.point(m.Required().Key("from"))
		b, to, ok2 := t.point(m.Required().Key("to"))
		tape, ok3 := m.Required().Key("tape").Length(t.out, t.unit, 1, longestTape)
		m.Done()
		if ok1 && ok2 && ok3 {
			t.check("the distance from "+from+" to "+to, a.Dist(b), tape, n.Place())
		}
	})
}

func (t *taped) lines() {
	var kinds []string
	for _, k := range piece.LineKinds {
		kinds = append(kinds, string(k))
	}
	t.m.Each("lines", func(_ int, n source.Node) {
		m := n.Reader(t.out)
		l := piece.Line{Kind: piece.LineKind(m.Required().Word("kind", kinds...)), Place: n.Place()}
		l.Name = m.StringOr("name", string(l.Kind))
		a, _, ok1 := t.point(m.Required().Key("from"))
		b, _, ok2 := t.point(m.Required().Key("to"))
		pts, ok3 := t.way(m, a, b, l.Name)
		m.Done()
		if !ok1 || !ok2 || !ok3 {
			return
		}
		c, err := smoothThrough(pts)
		if err != nil || a.Dist(b) < 0.1 {
			t.tell(tapedBend, n.Place(), l.Name, "two of them lie on each other")
			return
		}
		l.Curve = c
		t.part.Lines = append(t.part.Lines, l)
	})
}

func (t *taped) notches() {
	t.m.Each("notches", func(_ int, n source.Node) {
		m := n.Reader(t.out)
		name := m.Required().String("name")
		edge := m.Required().String("edge")
		at, ok := m.Required().Key("at").Length(t.out, t.unit, 0, longestTape)
		m.Done()
		i := slices.IndexFunc(t.edges, func(e tapedEdge) bool { return e.Name == edge })
		if !ok || edge == "" || t.out.Stops() > 0 {
			return
		}
		if i < 0 {
			t.tell(tapedPoint, m.Key("edge").Place(), "edge "+edge, "name one of the edges above")
			return
		}
		c := t.edges[i].Curve
		if l := c.Length(); at.MM() > l {
			t.tell(tapedNotch, n.Place(), edge, l, name, at.MM())
			return
		}
		t.part.Marks = append(t.part.Marks, piece.Mark{Kind: piece.Notch, Name: name, Edge: edge, P: c.At(at.MM()), Place: n.Place()})
	})
}

func (t *taped) drills() {
	t.m.Each("marks", func(_ int, n source.Node) {
		m := n.Reader(t.out)
		k := piece.Mark{Kind: piece.MarkKind(m.WordOr("kind", string(piece.Drill), string(piece.Drill), string(piece.Button), string(piece.Buttonhole))), Place: n.Place()}
		k.Name = m.Required().String("name")
		p, _, ok := t.point(m.Required().Key("at"))
		m.Done()
		if ok {
			k.P = p
			t.part.Marks = append(t.part.Marks, k)
		}
	})
}
