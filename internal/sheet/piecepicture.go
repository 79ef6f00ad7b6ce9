package sheet

import (
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Piece is one piece as it is cut, drawn by itself, and its edges.
type Piece struct {
	Piece, Title, Copies string
	Page                 draw.Page
	Edges                []PieceEdge
}

// PieceEdge is one edge of a piece: Layer is the layer of the picture that has
// its stitching line.
type PieceEdge struct {
	Name, Layer string
	Length      float64 // on the stitching line, mm
	Allowance   float64 // cut beyond it, mm; the widest where it varies
	Note        string  // how it is made: "double hem 2 × 20 mm"
	Steps       []string
}

const pieceAir = 6.0 // mm round a piece drawn by itself

// Pieces draws each piece of a cut set once, as the pattern sheets show it, at
// true scale on a page of its own size. Every edge's stitching line is a layer,
// and so is every spot.
func Pieces(cuts []finish.Cut, u unit.Unit, spots []Spot) []Piece {
	var out []Piece
	for _, s := range showEach(cuts) {
		out = append(out, pieceOfCut(s, u, ofDrawn(spots, s.cut.Piece, s.cut.Pair != "", s.cut.Copy)))
	}
	return out
}

// Drafts draws each piece of a garment that could not be finished: stitching
// lines and what is marked inside, without allowances.
func Drafts(g pattern.Garment, spots []Spot) []Piece {
	var out []Piece
	for _, name := range g.Order {
		base, hand, one := strings.Cut(name, "@")
		drawn := piece.Left
		if one {
			drawn = piece.Copy(hand)
		}
		d := draftOf(g.Pieces[name], drawn, ofDrawn(spots, base, !one, drawn))
		d.Piece = base
		out = append(out, d)
	}
	return out
}

func draftOf(c piece.Piece, drawn piece.Copy, spots []Spot) Piece {
	p := Piece{Piece: c.Name, Title: c.Title}
	lo, hi := geom.BoundsOf(c.Outline(0.1))
	l := &draw.List{Title: p.Title}
	l.Transform(geom.Shift(geom.Pt{X: pieceAir - lo.X, Y: pieceAir - lo.Y}), func(l *draw.List) {
		for _, line := range c.Lines {
			insideLine(l, line)
		}
		for _, e := range c.Edges {
			pe := PieceEdge{Name: e.Name, Layer: "edge:" + e.Name, Length: e.Curve.Length(), Steps: e.Steps}
			l.Layer(pe.Layer, func(l *draw.List) { l.Curve(penSewn, e.Curve) })
			p.Edges = append(p.Edges, pe)
		}
		for _, m := range c.Marks {
			insideMark(l, m)
		}
		spotsOn(l, c, drawn, spots, lo, hi)
	})
	p.Page = draw.Page{Width: hi.X - lo.X + 2*pieceAir, Height: hi.Y - lo.Y + 2*pieceAir, List: l}
	return p
}

func pieceOfCut(s shown, u unit.Unit, spots []Spot) Piece {
	c := s.cut
	p := Piece{Piece: c.Piece, Title: s.title(), Copies: s.copies() + ", " + string(c.Cloth)}
	lo, hi := geom.BoundsOf(c.Exact)
	l := &draw.List{Title: p.Title}
	l.Transform(geom.Shift(geom.Pt{X: pieceAir - lo.X, Y: pieceAir - lo.Y}), func(l *draw.List) {
		l.Path(draw.Fill(draw.Gray(244)), draw.Polygon(c.Exact...))
		l.Layer(layerCut, func(l *draw.List) { cutLine(l, c) })
		l.Layer(layerInside, func(l *draw.List) {
			for _, t := range c.Turns {
				l.Curve(penTurn, t)
			}
			for _, line := range linesIn(c) {
				insideLine(l, line)
			}
		})
		for _, e := range c.Sewn.Edges {
			pe := PieceEdge{Name: e.Name, Layer: "edge:" + e.Name, Length: e.Curve.Length(), Steps: e.Steps}
			for _, a := range c.Allowances {
				if a.Edge == e.Name && a.Width >= pe.Allowance {
					pe.Allowance, pe.Note = a.Width, a.Note
				}
			}
			l.Layer(pe.Layer, func(l *draw.List) { l.Curve(penSewn, e.Curve) })
			p.Edges = append(p.Edges, pe)
		}
		l.Layer(layerMarks, func(l *draw.List) {
			for _, n := range c.Notches {
				l.Line(penNotch, n[0], n[1])
			}
			for _, m := range c.Sewn.Marks {
				insideMark(l, m)
			}
		})
		l.Layer(layerLabels, func(l *draw.List) {
			for _, a := range c.Allowances {
				allowance(l, u, c, a)
			}
		})
		spotsOn(l, c.Sewn, c.Copy, spots, lo, hi)
	})
	p.Page = draw.Page{Width: hi.X - lo.X + 2*pieceAir, Height: hi.Y - lo.Y + 2*pieceAir, List: l}
	return p
}

// StepPictures draws the pieces that each step of the work is done to, as on the
// work card but larger: nil where a step has none.
func StepPictures(w Work) []*draw.Page {
	book := newSketchbook(w.Plan, w.Cuts)
	out := make([]*draw.Page, len(w.Steps))
	for i := range w.Steps {
		if p, ok := book.page(w, i); ok {
			out[i] = &p
		}
	}
	return out
}

func (b sketchbook) page(w Work, step int) (draw.Page, bool) {
	if step < 0 || step >= len(w.Steps) || len(layOut(b.plan.Garment(), w.Steps[step].Op).pieces) == 0 {
		return draw.Page{}, false
	}
	op := w.Steps[step].Op
	page := draw.Page{Width: 1.6 * pictured, Height: 1.6 * picturedH, List: &draw.List{Title: op.Do}}
	b.draw(page.List, op, draw.Box(0.2, 0.2, page.Width-0.4, page.Height-0.4))
	return page, true
}

// StepSettings says line by line how the machine is set for a step; nothing where
// nothing is stitched.
func StepSettings(w Work, step int, u unit.Unit) []construct.Told {
	return settings(u, w.Steps[step].Op, w.Colours)
}

// StepDoing says what to do in a step, with the allowances of its seam and its
// caution.
func StepDoing(w Work, step int, u unit.Unit) Doing {
	return doing(u, w.Steps[step].Op, allowances{w.Plan, map[string]bool{}}, "")
}

// Cautions are the words that go before all work, and those for a child's
// garment where it is one.
func (w Work) Cautions() []string {
	if w.Child {
		return []string{workWords, childWords}
	}
	return []string{workWords}
}

// Outline is a piece as the shears and the needle follow it, in its own
// coordinates.
type Outline struct {
	Cut  []geom.Pt
	Sewn draw.Path
	Main bool // cut from the main cloth
}

// Outlines gives each piece of a cut set once.
func Outlines(cuts []finish.Cut) []Outline {
	var out []Outline
	for _, s := range showEach(cuts) {
		out = append(out, Outline{Cut: s.cut.Exact, Sewn: sewnPath(s.cut.Sewn), Main: s.cut.Cloth == cloth.Main})
	}
	return out
}
