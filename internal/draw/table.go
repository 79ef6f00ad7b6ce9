package draw

import "gusset/internal/geom"

// Column is one column of a table.
type Column struct {
	Head   string
	Width  float64 // in mm
	Anchor Anchor
}

// Row is one row of a table: a cell for each column, in its order. A Heading
// row has one cell, printed bold across all columns. Tick is a box at the
// left of the first cell, to be ticked by hand.
type Row struct {
	Cells   []string
	Heading bool
	Tick    bool
}

// Table is a ruled table whose cells are wrapped.
type Table struct {
	Columns []Column
	Size    float64 // of the text in mm
	Rows    []Row
}

const (
	cellPad  = 1.0 // mm between text and the cell's sides
	tableRow = 0.15
)

// Width returns the width of the table.
func (t Table) Width() float64 {
	var sum float64
	for _, c := range t.Columns {
		sum += c.Width
	}
	return sum
}

// Draw prints the table from its top left corner, with column heads when any
// column has one, and as many rows as the room in mm allows. It returns the
// height used and the rows left for the next page. A heading row is not left
// alone at the foot. Nothing is drawn when not even one row has room.
func (t Table) Draw(l *List, top geom.Pt, room float64) (height float64, left []Row) {
	n := t.fitting(room)
	if n == 0 {
		return 0, t.Rows
	}
	y := top.Y
	if head, ok := t.head(); ok {
		y -= t.row(l, geom.Pt{X: top.X, Y: y}, head, true)
		t.rule(l, top.X, y, 3*tableRow)
	} else {
		t.rule(l, top.X, y, tableRow)
	}
	for _, r := range t.Rows[:n] {
		y -= t.row(l, geom.Pt{X: top.X, Y: y}, r, r.Heading)
		t.rule(l, top.X, y, tableRow)
	}
	return top.Y - y, t.Rows[n:]
}

// fitting returns how many rows have room.
func (t Table) fitting(room float64) int {
	if head, ok := t.head(); ok {
		room -= t.rowHeight(head, true)
	}
	n := 0
	for n < len(t.Rows) {
		room -= t.rowHeight(t.Rows[n], t.Rows[n].Heading)
		if room < -1e-9 {
			break
		}
		n++
	}
	if n < len(t.Rows) {
		for n > 0 && t.Rows[n-1].Heading {
			n--
		}
	}
	return n
}

// head returns the row of column heads, if there are any.
func (t Table) head() (Row, bool) {
	var r Row
	found := false
	for _, c := range t.Columns {
		r.Cells = append(r.Cells, c.Head)
		found = found || c.Head != ""
	}
	return r, found
}

// cell returns the block of one cell, and where its column begins.
func (t Table) cell(r Row, i int, isBold bool) (b Block, x float64) {
	for _, c := range t.Columns[:i] {
		x += c.Width
	}
	b = Block{Width: t.Columns[i].Width - 2*cellPad, Size: t.Size, Bold: isBold, Anchor: t.Columns[i].Anchor}
	if r.Heading {
		b.Width = t.Width() - 2*cellPad
	}
	if r.Tick && i == 0 {
		x += t.tickRoom()
		b.Width -= t.tickRoom()
	}
	return b, x + cellPad
}

// cells returns how many of a row's cells are printed.
func (t Table) cells(r Row) int {
	if r.Heading {
		return min(1, len(r.Cells))
	}
	return min(len(r.Cells), len(t.Columns))
}

func (t Table) tickRoom() float64 { return 1.3 * t.Size }

func (t Table) rowHeight(r Row, isBold bool) float64 {
	high := Block{Size: t.Size}.leading()
	for i := range t.cells(r) {
		b, _ := t.cell(r, i, isBold)
		high = max(high, b.Height(r.Cells[i]))
	}
	return high + 2*cellPad
}

// row prints one row and returns its height.
func (t Table) row(l *List, top geom.Pt, r Row, isBold bool) float64 {
	high := t.rowHeight(r, isBold)
	if r.Heading {
		l.Rect(Fill(Gray(235)), Box(top.X, top.Y-high, t.Width(), high))
	}
	for i := range t.cells(r) {
		b, x := t.cell(r, i, isBold)
		b.Draw(l, geom.Pt{X: top.X + x, Y: top.Y - cellPad}, r.Cells[i])
	}
	if r.Tick {
		line := Block{Size: t.Size}.leading()
		side := 0.9 * t.Size
		l.Rect(Pen(Black, 0.2), Box(top.X+cellPad, top.Y-cellPad-(line+side)/2, side, side))
	}
	return high
}

// rule draws a line across the table.
func (t Table) rule(l *List, x, y, width float64) {
	l.Line(Style{Stroke: Gray(90), Width: width, Cap: CapButt}, geom.Pt{X: x, Y: y}, geom.Pt{X: x + t.Width(), Y: y})
}
