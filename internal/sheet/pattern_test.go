package sheet

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"gusset/internal/draw"
)

func TestEachPieceIsShownOnce(t *testing.T) {
	var got []string
	for _, s := range showEach(testCuts()) {
		got = append(got, s.title()+": "+s.copies())
	}
	want := []string{
		"Panel: cut 2, one of them mirrored", "Patch pocket: cut 2, one of them mirrored",
		"Band: cut 1 on the fold", "Loop strip: cut 6, paper face up",
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got %q", got)
	}
}

func TestTiled(t *testing.T) {
	for _, paper := range []draw.Paper{draw.A4, draw.Letter} {
		d, err := Tiled(testHeading(), testCuts(), paper)
		if err != nil {
			t.Fatal(err)
		}
		file := pdfOf(t, "pattern-"+paper.Name, d)
		pages := strings.Split(string(poppler(t, "pdftotext", "-layout", file, "-")), "\f")
		pages = pages[:len(pages)-1]
		if len(pages) != len(d.Pages) || len(pages) < 5 {
			t.Fatalf("%d pages printed of %d", len(pages), len(d.Pages))
		}
		for i, text := range pages {
			for _, want := range []string{"Wardrobe skirt for Wren", "digest 5e1f09ab", fmt.Sprintf("page %d of %d", i+1, len(pages))} {
				if !strings.Contains(text, want) {
					t.Errorf("%s page %d lacks %q", paper.Name, i+1, want)
				}
			}
		}
		all := strings.Join(pages[1:], "\n")
		for _, want := range []string{"Panel", "Patch pocket", "Band", "Loop strip", "on the fold of the cloth", "hem 15 mm", "lengthen or shorten here"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: no %q on the sheets", paper.Name, want)
			}
		}
		var a, b bytes.Buffer
		again, _ := Tiled(testHeading(), testCuts(), paper)
		if draw.PDF(&a, d) != nil || draw.PDF(&b, again) != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two runs differ", paper.Name)
		}
	}
}

func TestRoll(t *testing.T) {
	d, told := Roll(testHeading(), testCuts(), 900)
	if len(told) > 0 || len(d.Pages) != 1 {
		t.Fatalf("%d pages, %v", len(d.Pages), told)
	}
	text := string(poppler(t, "pdftotext", "-layout", pdfOf(t, "pattern-roll", d), "-"))
	for _, want := range []string{"Panel", "Band", "100 mm square", "4 in square", "Do not fit to page", "digest 5e1f09ab", "page 1 of 1"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
	d, told = Roll(testHeading(), testCuts(), 300)
	if !told.Has("sheet.roll-narrow") || len(d.Pages) > 0 {
		t.Errorf("a roll too narrow: %d pages, %v", len(d.Pages), told.Codes())
	}
	for _, k := range []struct{ err error }{{rollNarrow.Validate()}, {rollLong.Validate()}} {
		if k.err != nil {
			t.Error(k.err)
		}
	}
}
