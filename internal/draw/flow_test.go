package draw

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestBlockLines(t *testing.T) {
	b := Block{Size: 4, Width: TextWidth("press the seam open", 4, false)}
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", nil},
		{"press", []string{"press"}},
		{"press the seam open", []string{"press the seam open"}},
		{"press the seam open and", []string{"press the seam open", "and"}},
		{"one\n\ntwo", []string{"one", "", "two"}},
	} {
		if got := b.Lines(c.text); !slices.Equal(got, c.want) {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}

// No line is wider than its column, no letter is lost, and a line takes as many
// words as fit.
func TestBlockKeepsWidthAndLetters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Block{Size: 4, Width: rapid.Float64Range(8, 60).Draw(t, "width"), Bold: rapid.Bool().Draw(t, "bold")}
		text := strings.Join(rapid.SliceOfN(rapid.StringMatching(`[a-zé½]{1,25}`), 0, 12).Draw(t, "words"), " ")
		lines := b.Lines(text)
		strip := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		if strip(strings.Join(lines, "")) != strip(text) {
			t.Fatalf("%q became %q", text, lines)
		}
		words := wordsAt(text)
		at := 0
		for i, line := range lines {
			if w := TextWidth(line, b.Size, b.Bold); w > b.Width+1e-9 {
				t.Fatalf("%q is %.2f mm wide in a column of %.2f mm", line, w, b.Width)
			}
			if word, begins := words[at]; begins && i > 0 && TextWidth(lines[i-1]+" "+word, b.Size, b.Bold) <= b.Width-1e-9 {
				t.Fatalf("%q has room for %q", lines[i-1], word)
			} else if first := string([]rune(line)[:1]); !begins && TextWidth(lines[i-1]+first, b.Size, b.Bold) <= b.Width-1e-9 {
				t.Fatalf("%q, broken, has room for %q", lines[i-1], first)
			}
			at += len(strip(line))
		}
	})
}

// wordsAt returns a text's words by where they begin when the blanks are left out.
func wordsAt(text string) map[int]string {
	words := map[int]string{}
	at := 0
	for _, word := range strings.Fields(text) {
		words[at] = word
		at += len(word)
	}
	return words
}

func steps(n int) Table {
	t := Table{Size: 3.6, Columns: []Column{{Head: "step", Width: 80}, {Head: "stitch", Width: 40}, {Head: "mm", Width: 20, Anchor: End}}}
	for i := range n {
		if i%7 == 0 {
			t.Rows = append(t.Rows, Row{Heading: true, Cells: []string{fmt.Sprintf("set-up %d: straight stitch, needle 80", i/7+1)}})
		}
		t.Rows = append(t.Rows, Row{Tick: true, Cells: []string{
			fmt.Sprintf("step %d: join the side seam from the hem to the notch, then press it open", i+1), "straight", "2.5"}})
	}
	return t
}

func TestTableBreaks(t *testing.T) {
	table := steps(20)
	total := len(table.Rows)
	seen := 0
	for page := 0; len(table.Rows) > 0; page++ {
		var l List
		used, left := table.Draw(&l, pt2(10, 200), 60)
		if used > 60 || len(left) >= len(table.Rows) {
			t.Fatalf("page %d: %.1f mm used, %d rows left of %d", page, used, len(left), len(table.Rows))
		}
		if lo, hi := l.Bounds(); hi.Y > 200.3 || lo.Y < 200-used-0.3 || lo.X < 9.7 || hi.X > 150.3 {
			t.Errorf("page %d draws %v to %v with %.1f mm used", page, lo, hi, used)
		}
		drawn := table.Rows[:len(table.Rows)-len(left)]
		if len(left) > 0 && drawn[len(drawn)-1].Heading {
			t.Errorf("page %d ends with a heading", page)
		}
		seen += len(drawn)
		table.Rows = left
	}
	if seen != total {
		t.Errorf("%d rows drawn of %d", seen, total)
	}
	var l List
	if used, left := steps(3).Draw(&l, pt2(0, 0), 5); used != 0 || len(left) != 4 || !l.Empty() {
		t.Errorf("without room: %g mm used, %d rows left", used, len(left))
	}
}

func TestFlow(t *testing.T) {
	f := NewFlow(A4, "Work card", "the docket, digest 1a2b")
	f.Text(strings.Repeat("Press as you sew. ", 30))
	f.Heading("Order of work", 20)
	if err := f.Table(steps(40)); err != nil {
		t.Fatal(err)
	}
	f.Picture(60, func(l *List, box Rect) { l.Rect(Pen(Black, 0.3), box) })
	pages := f.Pages()
	file := pdfFile(t, Doc{Title: f.Title, Pages: pages})
	text := string(runTool(t, "pdftotext", "-layout", file, "-"))
	for i := range pages {
		if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
		lo, hi := pages[i].List.Bounds()
		if lo.X < A4.Margin || lo.Y < A4.Margin || hi.X > 210-A4.Margin || hi.Y > 297-A4.Margin {
			t.Errorf("page %d is drawn on from %v to %v", i+1, lo, hi)
		}
	}
	for i := range 40 {
		if n := strings.Count(text, fmt.Sprintf("step %d:", i+1)); n != 1 {
			t.Errorf("step %d is printed %d times", i+1, n)
		}
	}
	var b bytes.Buffer
	if err := PNG(&b, pages[0], 75); err != nil {
		t.Fatal(err)
	}
	look(t, "flow.png", b.Bytes())
}

func TestFlowRefusesAnEndlessRow(t *testing.T) {
	f := NewFlow(A4, "Card", "")
	long := Table{Size: 4, Columns: []Column{{Width: 20}}, Rows: []Row{{Cells: []string{strings.Repeat("word ", 900)}}}}
	if err := f.Table(long); err == nil {
		t.Error("no error")
	}
}

func TestFootLineIsCutToFit(t *testing.T) {
	l := &List{}
	FootLine(l, Box(10, 10, 80, 6), strings.Repeat("long ", 40), "page 1 of 1")
	if lo, hi := l.Bounds(); lo.X < 9.9 || hi.X > 90.1 {
		t.Errorf("foot line from %v to %v", lo, hi)
	}
}
