package sheet

import (
	"math"
	"strings"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/pattern"
	"gusset/internal/piece"

	"pgregory.net/rapid"
)

// Points moved rigidly, turned over or not, are brought back exactly.
func TestRigidFindsTheMovement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-500, 500)
		move := geom.Turn(rapid.Float64Range(-3, 3).Draw(t, "turn"), geom.Pt{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y")})
		mirrored := rapid.Bool().Draw(t, "over")
		if mirrored {
			move = geom.Affine{A: -1, D: 1}.Then(move)
		}
		var m matched
		for range 6 {
			p := geom.Pt{X: coordinate.Draw(t, "px"), Y: coordinate.Draw(t, "py")}
			m.from, m.to = append(m.from, p), append(m.to, move.Apply(p))
		}
		got, off := m.rigid(mirrored)
		if got.Mirrors() != mirrored || off > 1e-12*1e6 {
			t.Fatalf("off by %g", math.Sqrt(off))
		}
		for i, p := range m.from {
			if got.Apply(p).Dist(m.to[i]) > 1e-6 {
				t.Fatalf("%v went to %v, not %v", p, got.Apply(p), m.to[i])
			}
		}
	})
}

// The words of a step say how its pieces lie.
func TestWayOf(t *testing.T) {
	for do, want := range map[string]way{
		"sew outseam, front to back, right sides together":             {together: true},
		"sew outseam, wrong sides together":                            {together: true, wrong: true},
		"press yoke seam from the wrong side":                          {wrong: true},
		"topstitch the inside of the band from the right side":         {},
		"fold the top to the right side on the fold line and press it": {},
	} {
		if got := wayOf(construct.Operation{Do: do, Machine: machine.Iron}); got != want {
			t.Errorf("%s: %+v", do, got)
		}
	}
	if got := wayOf(construct.Operation{Do: "press the seam open", Machine: machine.Iron}); got != (way{wrong: true}) {
		t.Errorf("at the iron: %+v", got)
	}
	if got := wayOf(construct.Operation{Do: "topstitch the seam", Machine: machine.Lockstitch, Stitch: "301", Thread: "topstitch"}); got != (way{}) {
		t.Errorf("topstitching: %+v", got)
	}
}

// boxPiece is a piece of w by h mm with its edges named after its sides.
func boxPiece(name string, w, h float64) piece.Piece {
	c := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	p := piece.Piece{Name: name, Title: name}
	for i, e := range []string{"bottom", "right", "top", "left"} {
		p.Edges = append(p.Edges, piece.Edge{Name: e, Curve: geom.Polyline(c[i], c[(i+1)%4])})
	}
	return p
}

// Two panels sewn along a side, 60 and 40 wide: spread they are 100 wide and
// both right side up; right sides together they are 60 wide, the narrow one on
// top and wrong side up; wrong sides together the same seen from behind.
func TestPanelsLieAsSewn(t *testing.T) {
	wide, narrow := boxPiece("wide", 60, 200), boxPiece("narrow", 40, 200)
	g := pattern.Garment{Pieces: map[string]piece.Piece{"wide": wide, "narrow": narrow}}
	right, _ := wide.Edge("right")
	left, _ := narrow.Edge("left")
	sides := [][]construct.Stretch{
		{{Piece: "wide", Copy: piece.Single, Edge: "right", To: 200, Forward: true, Curve: right.Curve}},
		{{Piece: "narrow", Copy: piece.Single, Edge: "left", To: 200, Curve: left.Curve.Reverse()}},
	}
	for do, want := range map[string]struct {
		width float64
		wrong [2]bool
	}{
		"topstitch the seam from the right side": {100, [2]bool{}},
		"press the seam from the wrong side":     {100, [2]bool{true, true}},
		"sew the seam, right sides together":     {60, [2]bool{false, true}},
		"sew the seam, wrong sides together":     {60, [2]bool{true, false}},
	} {
		out := layOut(g, construct.Operation{Do: do, Machine: machine.Lockstitch, Stitch: "301", On: "seam", Sides: sides})
		if len(out.pieces) != 2 || out.pieces[0].name != "wide" {
			t.Fatalf("%s: %+v", do, out.pieces)
		}
		var all []geom.Pt
		for i, p := range out.pieces {
			for _, q := range g.Pieces[p.name].Outline(0.1) {
				all = append(all, p.to.Apply(q))
			}
			if p.wrongUp() != want.wrong[i] {
				t.Errorf("%s: %s wrong side up %v", do, p.name, p.wrongUp())
			}
		}
		if lo, hi := geom.BoundsOf(all); math.Abs(hi.X-lo.X-want.width) > 1e-6 || math.Abs(hi.Y-lo.Y-200) > 1e-6 {
			t.Errorf("%s: %.1f by %.1f", do, hi.X-lo.X, hi.Y-lo.Y)
		}
	}
}

// A short line on a long piece is shown with what is about it, a long one whole.
func TestWindow(t *testing.T) {
	box := draw.Box(0, 0, pictured, picturedH)
	leg := []geom.Pt{{}, {X: 300}, {X: 300, Y: 1000}, {Y: 1000}}
	if w := window(leg, []geom.Pt{{X: 100, Y: 700}, {X: 200, Y: 800}}, box); w.H() > 400 || !w.Contains(geom.Pt{X: 150, Y: 750}) {
		t.Errorf("a pocket: %v", w)
	}
	if w := window(leg, []geom.Pt{{X: 300}, {X: 300, Y: 1000}}, box); w.H() != 1000 {
		t.Errorf("a side seam: %v", w)
	}
}

// Whatever a child is to wear, the card names the rules.
func TestChildsCard(t *testing.T) {
	for _, words := range []string{"F1816", "16 CFR 1120.3", "16 CFR 1501", "16 CFR 1615", "EN 14878", "Check your local code"} {
		if !strings.Contains(childWords, words) {
			t.Errorf("no %s", words)
		}
	}
	steps := stepsOf(testOps())
	card := func(child bool) string {
		return strings.Join(printed(t, "childs-card", func() (draw.Doc, error) {
			return WorkCard(testHeading(), Work{Steps: steps, Child: child}, draw.A4)
		}), "\n")
	}
	if !strings.Contains(card(true), "For a child. Cords") || strings.Contains(card(false), "For a child. Cords") {
		t.Error("the rules stand on the card of a child, and only there")
	}
}

// Names lie in the picture, on no line of work and on no other name: on their
// piece where it is large enough, beside it where it is a narrow strip, and a
// piece that lies wholly under another is told to be beneath.
func TestNamesKeepClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		box := draw.Box(0, 0, pictured, picturedH)
		plateOf := func(x, y, w, h float64) plate {
			c := []geom.Pt{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
			return plate{c, densely(append(c[:4:4], c[0]))}
		}
		length := func(what string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
		n := naming{box: box}
		for range rapid.IntRange(1, 3).Draw(t, "pieces") {
			w, h := length("w", 2, 40), length("h", 2, 24)
			n.plates = append(n.plates, plateOf(length("x", 0, pictured-w), length("y", 0, picturedH-h), w, h))
		}
		last := n.plates[len(n.plates)-1].cut
		n.line = densely([]geom.Pt{last[0], last[1]})
		for i := range n.plates {
			ways := captions("Back patch pocket, left")
			b, at, ok := n.onPiece(i, ways)
			if ok && !n.wholly(b.box(at), i) {
				t.Fatalf("the name of piece %d lies across an edge", i)
			}
			if !ok {
				tips := n.tips(i)
				if len(tips) == 0 {
					tips = n.hidden(i)
				}
				var tip geom.Pt
				if b, at, tip, ok = n.beside(tips, ways); ok && !geom.Inside(n.plates[i].cut, tip) {
					t.Fatalf("the leader of piece %d points off it", i)
				}
			}
			if !ok {
				continue
			}
			r := b.box(at)
			if !inBox(r, box) || covers(r, n.line) || meetsAny(r, n.taken) {
				t.Fatalf("the name of piece %d at %v is not clear", i, r)
			}
			n.taken = append(n.taken, r)
		}
	})
}

// Where the pieces fill the picture, the name of one that lies under another, seen
// only as a strip, stands on the other with a leader, and not across a cut line.
func TestNamesCrossNoCutLine(t *testing.T) {
	box := draw.Box(0, 0, pictured, picturedH)
	ring := func(inset float64) plate {
		r := box.Inset(inset)
		c := []geom.Pt{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
		return plate{c, densely(append(c[:4:4], c[0]))}
	}
	n := naming{box: box, plates: []plate{ring(0.5), ring(1.5)}}
	n.line = densely([]geom.Pt{{X: 2, Y: picturedH / 2}, {X: pictured - 2, Y: picturedH / 2}})
	b, at, tip, ok := n.beside(n.tips(0), captions("Front, left"))
	if !ok || n.meetsRim(b.box(at)) || !geom.Inside(n.plates[0].cut, tip) || geom.Inside(n.plates[1].cut, tip) {
		t.Errorf("the name lies at %v, its leader points to %v", b.box(at), tip)
	}
}

// A step at one end of its line is marked there alone: the end that lies higher
// on the piece is its top, whichever way the line runs.
func TestMarkedAtOneEnd(t *testing.T) {
	down := construct.Stretch{Curve: geom.Polyline(geom.Pt{Y: 200}, geom.Pt{})}
	up := construct.Stretch{Curve: geom.Polyline(geom.Pt{}, geom.Pt{Y: 200})}
	for _, c := range []struct {
		at         string
		line       construct.Stretch
		start, end bool
	}{{"", down, true, true}, {"top", down, true, false}, {"foot", down, false, true}, {"top", up, false, true}, {"foot", up, true, false}} {
		op := construct.Operation{On: "none", At: c.at, Sides: [][]construct.Stretch{{c.line}}}
		if atStart(op) != c.start || atEnd(op) != c.end {
			t.Errorf("at the %s: start %v, end %v", c.at, atStart(op), atEnd(op))
		}
	}
}

// A name is broken at its commas, and then in the middle of its longest part.
func TestCaptions(t *testing.T) {
	var got []string
	for _, c := range captions("Back patch pocket, left")[:3] {
		got = append(got, strings.Join(c.lines, "/"))
	}
	if want := "Back patch pocket, left|Back patch pocket/left|Back patch/pocket/left"; strings.Join(got, "|") != want {
		t.Errorf("%s, want %s", strings.Join(got, "|"), want)
	}
	if c := captions("Band"); len(c) != 2 || len(c[1].lines) != 1 {
		t.Errorf("%+v", c)
	}
}
