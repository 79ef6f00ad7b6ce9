package sheet

import (
	"math"

	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/machine"
	"gusset/internal/piece"
)

// sketchbook draws the small pictures of the work card.
type sketchbook struct {
	plan construct.Plan
	cuts map[pieceAt]finish.Cut
}

func newSketchbook(plan construct.Plan, cuts []finish.Cut) sketchbook {
	b := sketchbook{plan: plan, cuts: map[pieceAt]finish.Cut{}}
	for _, c := range cuts {
		key := pieceAt{name: c.Piece, copy: c.Copy}
		if _, there := b.cuts[key]; !there {
			b.cuts[key] = c
		}
	}
	return b
}

// Pens of the pictures.
var (
	rightSide = draw.Gray(255)
	wrongSide = draw.Gray(205)
	// beneath lets what lies below show through.
	beneath    = uint8(215)
	penEdge    = draw.Pen(draw.Gray(40), 0.18)
	penSewing  = draw.DashPen(draw.Gray(120), 0.12, 0.8, 0.6)
	penFramed  = draw.Pen(draw.Gray(170), 0.1)
	penNeedle  = draw.DashPen(draw.Black, 0.75, 2, 1.3)
	penPress   = draw.Pen(draw.Gray(110), 1.5)
	penByHand  = draw.DashPen(draw.Black, 0.75, 0.01, 1.5)
	penTackEnd = draw.Pen(draw.Black, 1.1)
)

// shape is a piece as it comes out on the picture.
type sketched struct {
	title string
	wrong bool
	cut   []geom.Pt
	sewn  draw.Path
}

// draw pictures a step in a box; nothing when the step has no pieces.
func (b sketchbook) draw(l *draw.List, op construct.Operation, box draw.Rect) {
	laid := layOut(b.plan.Garment(), op)
	if len(laid.pieces) == 0 {
		return
	}
	shown, onto := b.view(laid, box)
	l.Clip(box, func(l *draw.List) {
		for i, s := range shown {
			fill := rightSide
			if s.wrong {
				fill = wrongSide
			}
			if i > 0 {
				fill.A = beneath
			}
			style := penEdge
			style.Fill = fill
			l.Path(style, draw.Polygon(s.cut...))
			l.Path(penSewing, s.sewn)
		}
		mark(l, op, laid.line, onto)
		names(l, shown, box)
	})
	l.Rect(penFramed, box)
}

// view brings what is laid out into a box: all of it, or where the line is
// short against the pieces, the line and what is about it.
func (b sketchbook) view(laid laidOut, box draw.Rect) ([]sketched, geom.Affine) {
	g := b.plan.Garment()
	var shown []sketched
	var all, line []geom.Pt
	for _, p := range laid.pieces {
		shape, ok := g.Copy(p.name, p.copy)
		if !ok {
			continue
		}
		s := sketched{title: handed(shape.Title, p.copy), wrong: p.wrongUp()}
		for _, q := range b.outline(p, shape) {
			s.cut = append(s.cut, p.to.Apply(q))
		}
		s.sewn = sewnPath(shape).Transform(p.to)
		all = append(all, s.cut...)
		shown = append(shown, s)
	}
	for _, c := range laid.line {
		line = append(line, c.Flatten(0.5)...)
	}
	onto := into(box.Inset(1), window(all, line))
	for i := range shown {
		for k, q := range shown[i].cut {
			shown[i].cut[k] = onto.Apply(q)
		}
		shown[i].sewn = shown[i].sewn.Transform(onto)
	}
	return shown, onto
}

// outline is a piece's cut line, or its stitching line where it is not cut for
// itself.
func (b sketchbook) outline(p pieceAt, shape piece.Piece) []geom.Pt {
	if c, ok := b.cuts[pieceAt{name: p.name, copy: p.copy}]; ok && !c.OnFold {
		return c.Exact
	}
	return shape.Outline(0.5)
}

func handed(title string, c piece.Copy) string {
	if c == piece.Left || c == piece.Right {
		return title + ", " + string(c)
	}
	return title
}

const (
	roomAbout = 0.5   // of the line's longer side, kept on each side of it
	roomLeast = 110.0 // mm
	worthCrop = 1.7   // crop only where the picture grows by so much
)

// window is the part of the work that is shown.
func window(all, line []geom.Pt) draw.Rect {
	lo, hi := geom.BoundsOf(all)
	whole := draw.Rect{Min: lo, Max: hi}
	if len(line) == 0 {
		return whole
	}
	lo, hi = geom.BoundsOf(line)
	about := max(roomLeast, roomAbout*max(hi.X-lo.X, hi.Y-lo.Y))
	near := draw.Rect{Min: lo, Max: hi}.Inset(-about).Intersect(whole)
	if max(whole.W(), whole.H()) < worthCrop*max(near.W(), near.H()) {
		return whole
	}
	return near
}

// into is the map that fits a part of the work into a box, on its side where it
// comes out a good deal larger.
func into(box, w draw.Rect) geom.Affine {
	const worthTurn = 1.5
	up, aside := min(box.W()/w.W(), box.H()/w.H()), min(box.W()/w.H(), box.H()/w.W())
	m, k := geom.Shift(w.Center().Mul(-1)), up
	if aside > worthTurn*up {
		m, k = m.Then(geom.Affine{B: 1, C: -1}), aside
	}
	return m.Then(geom.Affine{A: k, D: k}).Then(geom.Shift(box.Center()))
}

// mark draws the line of work: dashes for stitches, a grey band for the iron,
// dots for what the hands do, and bars at the ends where only those are
// tacked.
func mark(l *draw.List, op construct.Operation, line []geom.Curve, onto geom.Affine) {
	pen := map[machine.Kind]draw.Style{
		machine.Lockstitch: penNeedle, machine.Overlocker: penNeedle, machine.Hand: penNeedle, machine.Iron: penPress,
	}[op.Machine]
	switch {
	case op.On == "none" && op.Stitch != "":
		if n := len(line); n > 0 {
			tackAt(l, line[0].Start(), line[0].StartTangent(), onto)
			tackAt(l, line[n-1].End(), line[n-1].EndTangent(), onto)
		}
		return
	case op.Stitch == "" && op.Machine != machine.Iron:
		pen = penByHand
	}
	for _, c := range line {
		l.Curve(pen, c.Transform(onto))
	}
}

func tackAt(l *draw.List, p, dir geom.Pt, onto geom.Affine) {
	at := onto.Apply(p)
	side := onto.Apply(p.Add(dir.Left())).Sub(at).Unit().Mul(1.4)
	l.Line(penTackEnd, at.Sub(side), at.Add(side))
}

// nameGround lets a name be read across lines.
var nameGround = draw.Color{R: 255, G: 255, B: 255, A: 190}

const (
	nameSize  = 2.1
	nameTight = 1.7
)

// names prints the pieces' names where each shows most of itself.
func names(l *draw.List, shown []sketched, box draw.Rect) {
	var taken []draw.Rect
	for i, s := range shown {
		for _, size := range []float64{nameSize, nameTight} {
			w := draw.TextWidth(s.title, size, false)
			at, ok := clearing(s.cut, shown[i+1:], taken, box, w, size)
			if !ok {
				continue
			}
			l.Rect(draw.Fill(nameGround), nameBox(at, w, size))
			l.Text(draw.Text{At: at.Sub(geom.Pt{Y: size * draw.CapHeight / 2}), Size: size, Anchor: draw.Middle, Body: s.title})
			taken = append(taken, nameBox(at, w, size))
			break
		}
	}
}

func nameBox(at geom.Pt, w, size float64) draw.Rect {
	return draw.Box(at.X-w/2-0.4, at.Y-size/2-0.2, w+0.8, size+0.4)
}

// clearing finds a place for a name on a piece: on it, in the box, clear of
// other names, as little as can be under other pieces and as far as can be from
// its edge.
func clearing(cut []geom.Pt, above []sketched, taken []draw.Rect, box draw.Rect, w, size float64) (geom.Pt, bool) {
	lo, hi := geom.BoundsOf(cut)
	seen := draw.Rect{Min: lo, Max: hi}.Intersect(box.Inset(0.8))
	best, most := geom.Pt{}, math.Inf(-1)
	const grid = 12
	for i := range grid {
		for k := range grid {
			p := geom.Pt{X: seen.Min.X + seen.W()*(float64(i)+0.5)/grid, Y: seen.Min.Y + seen.H()*(float64(k)+0.5)/grid}
			name := nameBox(p, w, size)
			if !geom.Inside(cut, p) || !inBox(name, box) || meetsAny(name, taken) {
				continue
			}
			if worth := worthOf(p, cut, above, w); worth > most {
				best, most = p, worth
			}
		}
	}
	return best, !math.IsInf(most, -1)
}

// worthOf prefers places whose name lies wholly on the piece, and not under
// another.
func worthOf(p geom.Pt, cut []geom.Pt, above []sketched, w float64) float64 {
	worth := 0.0
	for _, end := range []geom.Pt{{X: p.X - w/2, Y: p.Y}, p, {X: p.X + w/2, Y: p.Y}} {
		if !geom.Inside(cut, end) {
			worth -= 10
		}
		for _, a := range above {
			if geom.Inside(a.cut, end) {
				worth -= 5
			}
		}
	}
	near := math.Inf(1)
	for _, q := range cut {
		near = min(near, q.Dist(p))
	}
	return worth + min(near, 8)
}

func inBox(r, box draw.Rect) bool {
	return r.Min.X >= box.Min.X && r.Max.X <= box.Max.X && r.Min.Y >= box.Min.Y && r.Max.Y <= box.Max.Y
}

func meetsAny(r draw.Rect, taken []draw.Rect) bool {
	for _, t := range taken {
		if t.Meets(r) {
			return true
		}
	}
	return false
}
