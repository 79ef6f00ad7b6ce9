package draw

import (
	"fmt"

	"gusset/internal/geom"
)

// Flow fills pages from the top, beginning a new page when one is full. Every
// page has a title line above and a foot line with the page's number below.
type Flow struct {
	Title string // printed above, and the document's name for screen readers
	Foot  string // printed below on the left
	More  int    // pages of another kind that follow: the foot line counts them
	paper Paper
	pages []*List
	leads []string // what each page is about
	lead  string
	y     float64 // how far down the latest page is filled
}

const (
	flowHead = 10.0 // mm for the title line
	flowFoot = 8.0  // mm for the foot line
	bodySize = 3.6

	titleSize = 5.0
)

// NewFlow returns a flow of pages with one page open.
func NewFlow(paper Paper, title, foot string) *Flow {
	f := &Flow{Title: title, Foot: foot, paper: paper}
	f.Break()
	return f
}

// Break begins a new page.
func (f *Flow) Break() {
	f.pages = append(f.pages, &List{})
	f.leads = append(f.leads, f.lead)
	f.y = f.body().Max.Y
}

// Lead says what the pages are about from here on, a page that is still empty
// among them: it is printed at the right of the title line, so that a page that
// continues another still says what it belongs to.
func (f *Flow) Lead(text string) {
	f.lead = text
	if f.y == f.body().Max.Y {
		f.leads[len(f.leads)-1] = text
	}
}

// body is the part of a page that is filled.
func (f *Flow) body() Rect {
	r := Box(0, 0, f.paper.Width, f.paper.Height).Inset(f.side())
	r.Max.Y -= flowHead
	r.Min.Y += flowFoot
	return r
}

// side is the blank border: a hand's hold more than the printer needs.
func (f *Flow) side() float64 { return f.paper.Margin + 5 }

// Width returns the width of the pages' text.
func (f *Flow) Width() float64 { return f.body().W() }

// Room returns the height left on the page.
func (f *Flow) Room() float64 { return f.y - f.body().Min.Y }

// Space leaves a gap, unless at the top of a page.
func (f *Flow) Space(height float64) {
	if f.y < f.body().Max.Y {
		f.y -= height
	}
}

// Picture calls draw with a box of the page's width and the given height, on a
// new page when this one has not the room. A height above that of a page is
// cut down to it.
func (f *Flow) Picture(height float64, draw func(l *List, box Rect)) {
	body := f.body()
	height = min(height, body.H())
	if f.Room() < height {
		f.Break()
	}
	draw(f.page(), Box(body.Min.X, f.y-height, body.W(), height))
	f.y -= height
}

// Heading prints a heading and keeps the given height of what follows with it.
func (f *Flow) Heading(text string, keep float64) {
	b := Block{Width: f.Width(), Size: 1.25 * bodySize, Bold: true}
	f.Space(3)
	if f.Room() < b.Height(text)+1+keep {
		f.Break()
	}
	f.y -= b.Draw(f.page(), f.at(), text) + 1
}

// Text prints a paragraph, line by line over the end of a page.
func (f *Flow) Text(text string) {
	b := Block{Width: f.Width(), Size: bodySize}
	for _, line := range b.Lines(text) {
		if f.Room() < b.leading() {
			f.Break()
		}
		b.Draw(f.page(), f.at(), line)
		f.y -= b.leading()
	}
}

// Table prints a table with text of the page's size, repeating its heads on
// each further page. A row higher than a page is an error.
func (f *Flow) Table(t Table) error {
	if t.Size == 0 {
		t.Size = bodySize
	}
	for fresh := false; len(t.Rows) > 0; {
		used, left := t.Draw(f.page(), f.at(), f.Room())
		f.y -= used
		if len(left) == len(t.Rows) && (fresh || f.y >= f.body().Max.Y) {
			return fmt.Errorf("%s: a row of the table is higher than a page", f.Title)
		}
		if t.Rows = left; len(left) > 0 {
			f.Break()
			fresh = used == 0
		}
	}
	return nil
}

// page returns the page being filled, and at where its next line begins.
func (f *Flow) page() *List { return f.pages[len(f.pages)-1] }
func (f *Flow) at() geom.Pt { return geom.Pt{X: f.body().Min.X, Y: f.y} }

// Pages returns the finished pages with their title and foot lines.
func (f *Flow) Pages() []Page {
	out := make([]Page, 0, len(f.pages))
	for i, body := range f.pages {
		l := &List{Title: f.Title}
		top := geom.Pt{X: f.side(), Y: f.paper.Height - f.side()}
		Block{Width: f.Width(), Size: titleSize, Bold: true}.Draw(l, top, f.Title)
		f.printLead(l, top, f.leads[i])
		FootLine(l, Box(f.side(), f.side()-2, f.Width(), footHeight), f.Foot, fmt.Sprintf("page %d of %d", i+1, len(f.pages)+f.More))
		l.Append(body)
		out = append(out, Page{f.paper.Width, f.paper.Height, l})
	}
	return out
}

// printLead prints what a page is about, beside the title; the end of what is too
// long for that is left out.
func (f *Flow) printLead(l *List, top geom.Pt, text string) {
	room := f.Width() - TextWidth(f.Title, titleSize, true) - 6
	text = shortened(text, bodySize, room)
	if text == "" {
		return
	}
	base := top.Y - 0.65*titleSize - CapHeight*titleSize/2
	l.Text(Text{At: geom.Pt{X: top.X + f.Width(), Y: base}, Size: bodySize, Anchor: End, Body: text})
}

// shortened cuts off what is too long for a line, with "..."; nothing is left
// where not even a letter fits.
func shortened(text string, size, room float64) string {
	whole := text
	for letters := []rune(whole); TextWidth(text, size, false) > room; {
		if len(letters) == 0 {
			return ""
		}
		letters = letters[:len(letters)-1]
		text = string(letters) + "..."
	}
	return text
}

// FootLine prints a line of small text at both ends of a box, with a rule
// above. What is too long for the left end is cut off with "...".
func FootLine(l *List, box Rect, left, right string) {
	const size = 2.6
	y := box.Min.Y + 1
	l.Line(Style{Stroke: Gray(90), Width: 0.15, Cap: CapButt}, geom.Pt{X: box.Min.X, Y: y + 1.3*size}, geom.Pt{X: box.Max.X, Y: y + 1.3*size})
	room := box.W() - TextWidth(right, size, false) - 4
	left = shortened(left, size, room)
	l.Text(Text{At: geom.Pt{X: box.Min.X, Y: y}, Size: size, Body: left})
	l.Text(Text{At: geom.Pt{X: box.Max.X, Y: y}, Size: size, Anchor: End, Body: right})
}
