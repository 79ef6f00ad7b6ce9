package sheet

import (
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
		names(l, shown, onPaper(laid.line, onto), box)
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
	onto := into(box.Inset(1), window(all, line, box))
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
	roomAbout = 0.22  // of the line's longer side, kept across it
	roomLeast = 110.0 // mm
	worthCrop = 1.35  // crop only where the picture grows by so much
)

// window is the part of the work that is shown in a box: all of it, or where
// that comes out a good deal larger the line and what is about it.
func window(all, line []geom.Pt, box draw.Rect) draw.Rect {
	lo, hi := geom.BoundsOf(all)
	whole := draw.Rect{Min: lo, Max: hi}
	if len(line) == 0 {
		return whole
	}
	lo, hi = geom.BoundsOf(line)
	about := max(roomLeast, roomAbout*max(hi.X-lo.X, hi.Y-lo.Y))
	near := draw.Rect{Min: lo, Max: hi}.Inset(-about).Intersect(whole)
	if scaleInto(box, near) < worthCrop*scaleInto(box, whole) {
		return whole
	}
	return near
}

// scaleInto is how large a part of the work comes out in a box, turned on its
// side where that is better.
func scaleInto(box, w draw.Rect) float64 {
	return max(min(box.W()/w.W(), box.H()/w.H()), min(box.W()/w.H(), box.H()/w.W()))
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
	case op.On == "none" && (op.Stitch != "" || op.At != ""):
		if n := len(line); n > 0 {
			if atStart(op) {
				tackAt(l, line[0].Start(), line[0].StartTangent(), onto)
			}
			if atEnd(op) {
				tackAt(l, line[n-1].End(), line[n-1].EndTangent(), onto)
			}
		}
		return
	case op.Stitch == "" && op.Machine != machine.Iron:
		pen = penByHand
	}
	for _, c := range line {
		l.Curve(pen, c.Transform(onto))
	}
}

// atStart and atEnd report whether work that does not run along its line is done
// at that end: at both, unless it says at the top or at the foot.
func atStart(op construct.Operation) bool { return op.At == "" || (op.At == "top") == startsAtTop(op) }
func atEnd(op construct.Operation) bool   { return op.At == "" || (op.At == "top") != startsAtTop(op) }

// startsAtTop reports whether a step's line runs downwards on its piece.
func startsAtTop(op construct.Operation) bool {
	if len(op.Sides) == 0 || len(op.Sides[0]) == 0 {
		return false
	}
	side := op.Sides[0]
	return side[0].Curve.Start().Y > side[len(side)-1].Curve.End().Y
}

func tackAt(l *draw.List, p, dir geom.Pt, onto geom.Affine) {
	at := onto.Apply(p)
	side := onto.Apply(p.Add(dir.Left())).Sub(at).Unit().Mul(1.4)
	l.Line(penTackEnd, at.Sub(side), at.Add(side))
}
