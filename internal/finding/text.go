package finding

import (
	"fmt"
	"io"
	"strings"
	"unicode"
)

// WriteText writes the findings for a terminal, in the order of the list:
//
//	patterns/quay/pattern.yaml:88: warn order.reach: topstitch the fly first
//	  88 |   method: fly-basted
//	     |           ^
//	  note: printed step 12 sews it with the opening basted shut
//	  mend: unpick before step 12
//
// Nothing in a source line or an argument can steer the terminal: control
// characters are shown as a middle dot. The error is that of the writer.
func WriteText(w io.Writer, l List) error {
	var b strings.Builder
	for _, f := range l {
		writeFinding(&b, f)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func writeFinding(b *strings.Builder, f Finding) {
	where, on := f.Place.Source(), f.Place.OnGarment()
	if where == "" {
		where, on = on, ""
	}
	if where != "" {
		where += ": "
	}
	fmt.Fprintf(b, "%s%s %s: %s\n", plain(where), f.Severity(), plain(f.Code()), plain(f.Text()))
	writeSource(b, f.Place)
	if on != "" {
		fmt.Fprintf(b, "  on %s\n", plain(on))
	}
	for _, n := range f.Notes {
		where := n.Place.String()
		if where != "" {
			where += ": "
		}
		fmt.Fprintf(b, "  note: %s%s\n", plain(where), plain(n.Text))
	}
	if mend := f.Mend(); mend != "" {
		fmt.Fprintf(b, "  mend: %s\n", plain(mend))
	}
}

// window is how many characters of a long source line are shown.
const window = 100

// writeSource shows the source line with a caret below the column.
func writeSource(b *strings.Builder, p Place) {
	if p.Line <= 0 || strings.TrimSpace(p.Text) == "" {
		return
	}
	line, col := cropped([]rune(strings.ReplaceAll(p.Text, "\t", " ")), p.Col)
	number := fmt.Sprint(p.Line)
	fmt.Fprintf(b, "  %s | %s\n", number, plain(strings.TrimRight(line, " \r\n")))
	if col > 0 {
		fmt.Fprintf(b, "  %s | %s^\n", strings.Repeat(" ", len(number)), strings.Repeat(" ", col-1))
	}
}

// cropped cuts a long line to a window around the column and gives the column
// within what is left; 0 when the column is not on the line.
func cropped(line []rune, col int) (string, int) {
	if col > len(line)+1 {
		col = 0
	}
	if len(line) <= window {
		return string(line), col
	}
	from := min(max(0, col-window/2), len(line)-window)
	cut := string(line[from : from+window])
	if col > 0 {
		col -= from
	}
	return cut, col
}

// plain shows control and other unprintable characters as a middle dot.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) || r == ' ' {
			return r
		}
		return '·'
	}, s)
}
