package scene

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"

	"gusset/internal/cards"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/sheet"
)

// print is a card as printed: how light it is at each place.
type print struct {
	grey []uint8
	side int     // in pixels
	k    float64 // pixels a mm
}

// at returns the lightness at a point of the card, 0..1; false beside it.
func (p *print) at(q geom.Pt) (float64, bool) {
	if p == nil || math.Abs(q.X) > cards.Cut/2 || math.Abs(q.Y) > cards.Cut/2 {
		return 0, false
	}
	x, y := (q.X+cards.Cut/2)*p.k-0.5, (cards.Cut/2-q.Y)*p.k-0.5
	return p.between(x, y) / 255, true
}

// between is the value between four pixels, 0..255.
func (p *print) between(x, y float64) float64 {
	i, j := min(max(int(x), 0), p.side-2), min(max(int(y), 0), len(p.grey)/p.side-2)
	fx, fy := min(max(x-float64(i), 0), 1), min(max(y-float64(j), 0), 1)
	r := p.grey[j*p.side+i:]
	a := float64(r[0]) + fx*(float64(r[1])-float64(r[0]))
	b := float64(r[p.side]) + fx*(float64(r[p.side+1])-float64(r[p.side]))
	return a + fy*(b-a)
}

// dpi of the rasterised cards: 11.8 pixels a mm.
const dpi = 300

// Printing is a set of printed cards.
type Printing map[cards.ID]*print

// Prints rasterises the first count cards from the PDF that is printed, with
// poppler where it is installed and with our own rasteriser where it is not.
func Prints(count int, dir string) (Printing, error) {
	doc, err := sheet.Cards(count, draw.A4)
	if err != nil {
		return nil, err
	}
	out := Printing{}
	for i, page := range doc.Pages[len(doc.Pages)-(count+1)/2:] {
		img, err := rasterised(doc, len(doc.Pages)-(count+1)/2+i, page, dir)
		if err != nil {
			return nil, err
		}
		whole := &print{grey: grey(img), side: img.Bounds().Dx(), k: dpi / 25.4}
		for id := cards.ID(2 * i); id < cards.ID(min(2*i+2, count)); id++ {
			out[id] = cut(whole, id, draw.A4)
		}
	}
	return out, nil
}

// rasterised makes a picture of one page.
func rasterised(doc draw.Doc, n int, page draw.Page, dir string) (image.Image, error) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		return draw.Raster(page, dpi)
	}
	file := filepath.Join(dir, "cards.pdf")
	f, err := os.Create(file)
	if err != nil {
		return nil, err
	}
	if err := draw.PDF(f, doc); err != nil {
		return nil, err
	}
	if err := f.Close(); err != nil {
		return nil, err
	}
	at := fmt.Sprint(n + 1)
	to := filepath.Join(dir, "page"+at)
	if text, err := exec.Command("pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-png", "-f", at, "-l", at, "-singlefile", file, to).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, text)
	}
	p, err := os.Open(to + ".png")
	if err != nil {
		return nil, err
	}
	defer p.Close()
	return png.Decode(p)
}

// cut takes a card out of its page, turned upright. The middles of the cards
// are where sheet.Cards puts them: two squares with three equal gaps.
func cut(page *print, id cards.ID, paper draw.Paper) *print {
	gap := (paper.Height - 2*paper.Margin - 2*cards.Cut) / 3
	k := dpi / 25.4
	midX := (paper.Margin + cards.Cut/2) * k
	midY := (paper.Margin + gap + cards.Cut/2 + float64(id%2)*(cards.Cut+gap)) * k
	width := cards.Cut * k
	p := &print{side: int(width) + 1, k: k}
	p.grey = make([]uint8, p.side*p.side)
	for y := range p.side {
		for x := range p.side {
			dx, dy := float64(x)+0.5-width/2, float64(y)+0.5-width/2
			if id.Turned() { // printed a quarter counter-clockwise: what was right lies up
				dx, dy = dy, -dx
			}
			p.grey[y*p.side+x] = uint8(page.between(midX+dx-0.5, midY+dy-0.5) + 0.5)
		}
	}
	return p
}

// grey is the lightness of a picture, row by row.
func grey(img image.Image) []uint8 {
	b := img.Bounds()
	out := make([]uint8, 0, b.Dx()*b.Dy())
	if g, ok := img.(*image.Gray); ok { // what pdftoppm gives
		for y := range b.Dy() {
			out = append(out, g.Pix[y*g.Stride:y*g.Stride+b.Dx()]...)
		}
		return out
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			out = append(out, color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y)
		}
	}
	return out
}

// Printed gives a scene the cards to show, as Prints made them.
func (s *Scene) Printed(prints Printing) { s.prints = prints }

// Without takes cards off the table.
func (s *Scene) Without(ids ...cards.ID) {
	s.Cards = slices.DeleteFunc(slices.Clone(s.Cards), func(c Card) bool { return slices.Contains(ids, c.ID) })
}
