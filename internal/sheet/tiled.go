package sheet

import (
	"fmt"
	"math"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
)

// Tiled returns the pattern on sheets of paper to be glued together, at true
// scale. The first page shows how they lie and carries the test squares and
// rules.
func Tiled(h Heading, cuts []finish.Cut, paper draw.Paper) (draw.Doc, error) {
	pieces := showEach(cuts)
	if len(pieces) == 0 {
		return draw.Doc{}, fmt.Errorf("tiled pattern of %s: nothing is cut", h.Docket)
	}
	name := "pattern, " + paper.Name
	best, tiles, err := fewestSheets(h, pieces, paper)
	if err != nil {
		return draw.Doc{}, fmt.Errorf("tiled pattern of %s: %w", h.Docket, err)
	}
	pages := coverPages(h, name, pieces, best, tiles, paper)
	front := len(pages)
	for _, s := range tiles.Sheets {
		pages = append(pages, s.Page)
	}
	for i, s := range tiles.Sheets {
		l := pages[front+i].List
		draw.FootLine(l, s.Foot, h.foot(name), "sheet "+s.Name+", "+pageOf(front+i+1, len(pages)))
	}
	return h.doc(name, pages), nil
}

// parts draws every piece.
func parts(h Heading, pieces []shown) []part {
	out := make([]part, len(pieces))
	for i, s := range pieces {
		l := &draw.List{}
		drawPiece(l, h, s)
		out[i] = partOf(s.title(), l)
		out[i].outline = s.cut.Exact
		out[i].piece = i
	}
	return out
}

// fewestSheets tries strips of paper of one sheet's width, of two and so on,
// with the sheets upright and on their side, and keeps what takes the fewest
// sheets.
func fewestSheets(h Heading, pieces []shown, paper draw.Paper) (arrangement, draw.Tiles, error) {
	const widest = 9
	var best arrangement
	var tiles draw.Tiles
	all := append(parts(h, pieces), ruleStrips()...)
	for across := 1; across <= widest; across++ {
		w, tall := paper.Window()
		for _, side := range []float64{w, tall} {
			a, left := arrange(all, float64(across)*side, math.Inf(1))
			if len(left) > 0 {
				continue
			}
			t, err := a.list(h.Docket).Tile(a.area(), paper)
			if err != nil {
				return arrangement{}, draw.Tiles{}, err
			}
			if best.parts == nil || len(t.Sheets) < len(tiles.Sheets) {
				best, tiles = a, t
			}
		}
	}
	if best.parts == nil {
		return arrangement{}, draw.Tiles{}, fmt.Errorf("a piece is wider than %d sheets of %s", widest, paper.Name)
	}
	return best, tiles, nil
}

const printWords = "Print at 100 %, never fitted to the page. Measure the squares and the rules before cutting, " +
	"and the two rules that run over the joints once the sheets are glued. " +
	"Cut each sheet along its left and upper broken line where a sheet is joined there, and glue it on the strip of its " +
	"neighbour so that the rings close: the name in each half of a ring is that of the sheet it is on. " +
	"Blades cut: keep fingers behind the ruler's edge, and put shears and rotary cutters away closed."

// coverPages returns the first page, and more where the list of pieces is
// long.
func coverPages(h Heading, name string, pieces []shown, a arrangement, tiles draw.Tiles, paper draw.Paper) []draw.Page {
	list := pieceTable(pieces, a, tiles)
	var pages []draw.Page
	first := &draw.List{Title: h.Docket + ", " + name}
	left := coverPage(first, h, paper, list, a, tiles)
	pages = append(pages, draw.Page{Width: paper.Width, Height: paper.Height, List: first})
	for len(left) > 0 {
		l := &draw.List{Title: first.Title}
		list.Rows = left
		_, left = list.Draw(l, geom.Pt{X: 20, Y: paper.Height - 20}, paper.Height-50)
		pages = append(pages, draw.Page{Width: paper.Width, Height: paper.Height, List: l})
	}
	for i, p := range pages {
		foot := draw.Box(paper.Margin, paper.Margin, paper.Width-2*paper.Margin, 5)
		draw.FootLine(p.List, foot, h.foot(name), pageOf(i+1, len(pages)+len(tiles.Sheets)))
	}
	return pages
}

// coverPage draws the first page: rules along the left and below, squares,
// words, the map of the sheets and the list of pieces. It returns the rows of
// the list that have no room.
func coverPage(l *draw.List, h Heading, paper draw.Paper, list draw.Table, a arrangement, tiles draw.Tiles) []draw.Row {
	corner := geom.Pt{X: 17, Y: 18}
	across := float64(int(paper.Width-corner.X-paper.Margin)/10) * 10
	l.Layer(layerScale, func(l *draw.List) {
		rule(l, corner, geom.Pt{Y: 1}, ruleLength)
		rule(l, corner, geom.Pt{X: 1}, across)
		square(l, geom.Pt{X: 26, Y: 30}, squareMM, "100 mm square"+squareWords)
		square(l, geom.Pt{X: 26, Y: 136}, squareInch, "4 in square"+squareWords)
		words := fmt.Sprintf("upright rule 250 mm, level rule %.0f mm", across)
		l.Text(draw.Text{At: geom.Pt{X: 26, Y: 131}, Size: smallSize, Body: words})
	})
	y := paper.Height - 14
	y -= draw.Block{Width: paper.Width - 40, Size: 6, Bold: true}.Draw(l, geom.Pt{X: 26, Y: y}, h.Docket)
	y -= draw.Block{Width: paper.Width - 40, Size: 3.6}.Draw(l, geom.Pt{X: 26, Y: y}, h.View+", size "+h.Size+". Pattern at true scale.")
	right := draw.Box(134, 0, paper.Width-134-paper.Margin-3, y-5)
	at := right.TopLeft()
	at.Y -= draw.Block{Width: right.W(), Size: 2.9}.Draw(l, at, printWords) + 4
	mapHeight := mapBeside(list, at.Y, min(80, 1.3*right.W()))
	l.Append(tiles.Map(a.outlines(), draw.Box(at.X, at.Y-mapHeight, right.W(), mapHeight)))
	at.Y -= mapHeight + mapGap
	_, left := list.Draw(l, at, at.Y-listFoot)
	return left
}

// The list of pieces stands below the map and above the foot of the page, mm.
const mapGap, listFoot = 4, 30

// mapBeside returns how high the map is drawn below y: smaller than usual where
// the list of pieces then fits on the same page.
func mapBeside(list draw.Table, y, usual float64) float64 {
	for h := usual; h > usual/2; h -= 4 {
		if _, left := list.Draw(&draw.List{}, geom.Pt{}, y-h-mapGap-listFoot); len(left) == 0 {
			return h
		}
	}
	return usual
}

// outlines returns the arrangement's cut lines only, thin, for the map.
func (a arrangement) outlines() *draw.List {
	l := &draw.List{}
	for _, p := range a.parts {
		if len(p.outline) == 0 {
			continue
		}
		l.Path(draw.Style{Stroke: draw.Black, Width: 0.2, Fill: draw.White}, draw.Polygon(p.outline...).Transform(p.to))
	}
	return l
}

// pieceTable lists the pieces, how they are cut, and the sheets they lie on.
func pieceTable(pieces []shown, a arrangement, tiles draw.Tiles) draw.Table {
	t := draw.Table{Size: 2.6, Columns: []draw.Column{{Head: "piece", Width: 47}, {Head: "sheets", Width: 18}}}
	for i, s := range pieces {
		t.Rows = append(t.Rows, draw.Row{Cells: []string{
			s.title() + "\n" + s.copies() + ", " + string(s.cut.Cloth), a.sheetsOf(i, tiles)}})
	}
	return t
}

// sheetsOf names the sheets that show some of a piece's box, from corner to
// corner.
func (a arrangement) sheetsOf(piece int, tiles draw.Tiles) string {
	var out []string
	for _, p := range a.parts {
		if p.piece != piece {
			continue
		}
		var pts []geom.Pt
		for _, q := range p.outline {
			pts = append(pts, p.to.Apply(q))
		}
		lo, hi := geom.BoundsOf(pts)
		var met []string
		for _, s := range tiles.Sheets {
			if !s.Live.Intersect(draw.Rect{Min: lo, Max: hi}).Empty() {
				met = append(met, s.Name)
			}
		}
		if len(met) > 2 {
			met = []string{met[0], "to", met[len(met)-1]}
		}
		out = append(out, strings.Join(met, " "))
	}
	return strings.Join(out, ", ")
}
