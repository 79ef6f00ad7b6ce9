package sheet

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/draw"
	"gusset/internal/geom"
)

// cardPages prints all cards and rasterises the pages with poppler.
func cardPages(t *testing.T, paper draw.Paper, dpi string) (dir string, pages []image.Image) {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("pdftoppm is not installed: the printed cards are not looked at")
	}
	doc, err := Cards(cards.Count, paper)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := draw.PDF(&b, doc); err != nil {
		t.Fatal(err)
	}
	dir = t.TempDir()
	file := filepath.Join(dir, "cards.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", dpi, "-f", "2", "-png", file, filepath.Join(dir, "p")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v\n%s", err, out)
	}
	names, _ := filepath.Glob(filepath.Join(dir, "p-*.png"))
	for _, name := range names {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, img)
	}
	return dir, pages
}

// Every corner mark is where package cards says it is, to a tenth of a
// millimetre, on both papers: of each pair of squares the upper right and the
// lower left are black, and no other part. The card lies as it is printed, its
// middle found from the page's own layout.
func TestPrintedCorners(t *testing.T) {
	const dpi = 254.0 // ten pixels a millimetre
	for _, paper := range []draw.Paper{draw.A4, draw.Letter} {
		_, pages := cardPages(t, paper, "254")
		if len(pages) != cards.Count/2 {
			t.Fatalf("%s: %d pages of cards", paper.Name, len(pages))
		}
		for id := cards.ID(0); id < cards.Count; id++ {
			img := pages[id/2]
			gap := (paper.Height - 2*paper.Margin - 2*cards.Cut) / 3
			middle := geom.Pt{X: paper.Margin + cards.Cut/2, Y: paper.Margin + gap + cards.Cut/2 + float64(id%2)*(cards.Cut+gap)}
			dark := func(p geom.Pt) bool { // p in mm of the card
				if id.Turned() {
					p = p.Left()
				}
				r, _, _, _ := img.At(int(math.Floor((middle.X+p.X)*dpi/25.4)), int(math.Floor((middle.Y-p.Y)*dpi/25.4))).RGBA()
				return r < 0x8000
			}
			for _, c := range cards.Corners() {
				for _, far := range []float64{0.15, 3, cards.Square - 0.15} {
					for _, near := range []float64{0.15, 3, cards.Square - 0.15} {
						for _, s := range [][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
							p := c.Add(geom.Pt{X: s[0] * far, Y: s[1] * near})
							if want := s[0] == s[1]; dark(p) != want {
								t.Errorf("%s, card %s: dark is %v at %v", paper.Name, id, !want, p)
							}
						}
					}
				}
			}
		}
	}
}

// ZBar, a reader that shares no code with what printed them, reads every card.
func TestCardsReadByZBar(t *testing.T) {
	if _, err := exec.LookPath("zbarimg"); err != nil {
		t.Skip("zbarimg (Debian's zbar-tools) is not installed: cards are not read by it")
	}
	dir, _ := cardPages(t, draw.A4, "100")
	names, _ := filepath.Glob(filepath.Join(dir, "p-*.png"))
	out, err := exec.Command("zbarimg", append([]string{"-q", "--raw"}, names...)...).Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	got := strings.Fields(string(out))
	for id := cards.ID(0); id < cards.Count; id++ {
		if !slices.Contains(got, id.Payload()) {
			t.Errorf("card %s is not among %q", id, got)
		}
	}
	if len(got) != cards.Count {
		t.Errorf("%d symbols read, not %d", len(got), cards.Count)
	}
}

func TestCardsCount(t *testing.T) {
	for _, n := range []int{0, cards.Count + 1} {
		if _, err := Cards(n, draw.A4); err == nil {
			t.Errorf("%d cards are printed", n)
		}
	}
	doc, err := Cards(5, draw.A4)
	if err != nil || len(doc.Pages) != 4 {
		t.Errorf("5 cards take %d pages, %v", len(doc.Pages), err)
	}
}
