package draw

import (
	"fmt"
	"math"
	"strconv"

	"gusset/internal/geom"
)

// Paper is a sheet that a home printer takes.
type Paper struct {
	Name          string
	Width, Height float64 // mm, upright
	Margin        float64 // mm on each side that is left blank
}

// The two papers of home printers: A4 (ISO 216) and Letter, 8½ × 11 in
// (ANSI/ASME Y14.1 size A). Printers leave about a quarter of an inch (6.35 mm)
// blank along the sides (common practice); 7 mm keeps clear of it.
var (
	A4     = Paper{"A4", 210, 297, 7}
	Letter = Paper{"Letter", 215.9, 279.4, 7}
)

// Window returns the size of the part of a drawing that one upright sheet
// answers for when a large drawing is cut into sheets.
func (p Paper) Window() (w, h float64) {
	return p.Width - 2*p.Margin - glueStrip, p.Height - 2*p.Margin - glueStrip - footHeight
}

// Turned returns the paper on its side.
func (p Paper) Turned() Paper {
	p.Width, p.Height = p.Height, p.Width
	return p
}

const (
	// glueStrip is how far a sheet goes on below the one glued on it, in mm.
	glueStrip = 10.0
	// footHeight is the room below the drawing for a line of text, in mm.
	footHeight = 6.0
)

// Tile is one sheet of a drawing that is larger than the paper.
type Tile struct {
	Column, Row int    // counted from 0, at the top left
	Name        string // column letter and row number from 1: "B3"
	Live        Rect   // the part of the drawing this sheet answers for
	Page        Page
	Foot        Rect // room on the page for a line of text
}

// Tiles is a drawing cut into sheets. The live windows split the drawn area
// between them. Every sheet repeats a strip of its neighbours' windows along
// its right and its bottom side, to be glued below the neighbour.
type Tiles struct {
	Paper         Paper // as it is turned
	Columns, Rows int
	Sheets        []Tile // row by row, those with nothing to show left out
	grid          grid
}

// Tile cuts what l has in the area into sheets of paper at true scale, upright
// or on its side, whichever takes fewer sheets. A sheet is left out when its
// window shows nothing: no line and no text in it, nor lying inside any closed
// line, such as a sheet in the middle of a large piece.
func (l *List) Tile(area Rect, paper Paper) (Tiles, error) {
	if area.Empty() {
		return Tiles{}, fmt.Errorf("tiling %q: the area is empty", l.Title)
	}
	var best Tiles
	for _, p := range []Paper{paper, paper.Turned()} {
		g, err := gridFor(area, p)
		if err != nil {
			return Tiles{}, fmt.Errorf("tiling %q: %w", l.Title, err)
		}
		g.mark(l)
		if best.grid.shown == nil || g.count() < best.grid.count() {
			best = Tiles{Paper: p, Columns: g.columns, Rows: g.rows, grid: g}
		}
	}
	for row := range best.Rows {
		for column := range best.Columns {
			if best.grid.has(column, row) {
				best.Sheets = append(best.Sheets, best.sheet(l, column, row))
			}
		}
	}
	return best, nil
}

// grid is the division of an area into live windows of w × h mm, from its top
// left corner.
type grid struct {
	corner        geom.Pt
	w, h          float64
	columns, rows int
	shown         []bool // row by row
}

func gridFor(area Rect, p Paper) (grid, error) {
	g := grid{corner: area.TopLeft()}
	g.w, g.h = p.Window()
	if p.Margin < 0 || g.w < 2*glueStrip || g.h < 2*glueStrip {
		return grid{}, fmt.Errorf("paper %s of %g × %g mm with margins of %g mm leaves no room", p.Name, p.Width, p.Height, p.Margin)
	}
	const slack = 1e-6 // mm; a sheet more for less than this would show nothing
	g.columns = max(1, int(math.Ceil((area.W()-slack)/g.w)))
	g.rows = max(1, int(math.Ceil((area.H()-slack)/g.h)))
	const most = 10000
	if g.columns > most || g.rows > most || g.columns*g.rows > most {
		return grid{}, fmt.Errorf("an area of %.0f × %.0f mm takes more than %d sheets", area.W(), area.H(), most)
	}
	return g, nil
}

// live returns the window of a tile.
func (g grid) live(column, row int) Rect {
	at := func(c, r int) geom.Pt {
		return geom.Pt{X: g.corner.X + float64(float64(c)*g.w), Y: g.corner.Y - float64(float64(r)*g.h)}
	}
	lo, hi := at(column, row+1), at(column+1, row)
	return Rect{lo, hi}
}

// mark notes which windows show something.
func (g *grid) mark(l *List) {
	cover := coverOf(l)
	g.shown = make([]bool, g.columns*g.rows)
	for i := range g.shown {
		g.shown[i] = cover.shows(g.live(i%g.columns, i/g.columns))
	}
}

// has reports whether a sheet is made for the place.
func (g grid) has(column, row int) bool {
	return column >= 0 && row >= 0 && column < g.columns && row < g.rows && g.shown[row*g.columns+column]
}

func (g grid) count() int {
	n := 0
	for _, s := range g.shown {
		if s {
			n++
		}
	}
	return n
}

// tileName returns column letters and row number: A1, B1, ... Z1, AA1.
func tileName(column, row int) string {
	letters := ""
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters + strconv.Itoa(row+1)
}

// sheet draws one tile's page.
func (t Tiles) sheet(l *List, column, row int) Tile {
	p := t.Paper
	tile := Tile{
		Column: column, Row: row, Name: tileName(column, row), Live: t.grid.live(column, row),
		Foot: Box(p.Margin, p.Margin, p.Width-2*p.Margin, footHeight-1),
	}
	window := tile.Live
	if t.grid.has(column+1, row) {
		window.Max.X += glueStrip
	}
	if t.grid.has(column, row+1) {
		window.Min.Y -= glueStrip
	}
	place := geom.Shift(geom.Pt{X: p.Margin, Y: p.Height - p.Margin}.Sub(tile.Live.TopLeft()))
	page := &List{Title: l.Title + ", sheet " + tile.Name}
	page.Transform(place, func(page *List) {
		page.Clip(window, func(page *List) {
			t.joints(page, tile) // below the drawing, whose lines matter more
			page.Append(l.within(window))
		})
	})
	tile.Page = Page{p.Width, p.Height, page}
	return tile
}
