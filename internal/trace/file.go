package trace

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// File writes pieces, one for each size, as one drawing in the form that
// patterns are read in: millimetres, a group for each size, an id for each edge,
// line and mark. All sizes share one frame.
func File(sizes []string, pieces []piece.Piece) []byte {
	var hi geom.Pt
	for _, p := range pieces {
		_, h := geom.BoundsOf(p.Outline(0.05))
		hi.X, hi.Y = max(hi.X, h.X), max(hi.Y, h.Y)
	}
	w, h := math.Ceil(hi.X+margin), math.Ceil(hi.Y+margin)
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%gmm\" height=\"%gmm\" viewBox=\"0 0 %g %g\">\n", w, h, w, h)
	for i, p := range pieces {
		writeSize(&b, sizes[i], p, h)
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

func writeSize(b *strings.Builder, size string, p piece.Piece, height float64) {
	group := html.EscapeString("S" + size)
	fmt.Fprintf(b, "<g id=\"%s\" fill=\"none\" stroke=\"black\" stroke-width=\"0.4\">\n", group)
	for _, e := range p.Edges {
		fmt.Fprintf(b, "<path id=\"%s.%s\" d=\"%s\"/>\n", group, e.Name, pathData(e.Curve, height))
	}
	for _, l := range p.Lines {
		fmt.Fprintf(b, "<path id=\"%s.%s.%s\" d=\"%s\"/>\n", group, l.Kind, l.Name, pathData(l.Curve, height))
	}
	for _, m := range p.Marks {
		fmt.Fprintf(b, "<circle id=\"%s.%s.%s.%s\" cx=\"%s\" cy=\"%s\" r=\"1.5\"/>\n", group, m.Kind, m.Edge, m.Name, number(m.P.X), number(height-m.P.Y))
	}
	b.WriteString("</g>\n")
}

// pathData is a curve with y going down.
func pathData(c geom.Curve, height float64) string {
	xy := func(p geom.Pt) string { return number(p.X) + " " + number(height-p.Y) }
	parts := []string{"M " + xy(c.Start())}
	for _, s := range c {
		if s.Straight {
			parts = append(parts, "L "+xy(s.P[3]))
		} else {
			parts = append(parts, "C "+xy(s.P[1])+" "+xy(s.P[2])+" "+xy(s.P[3]))
		}
	}
	return strings.Join(parts, " ")
}

// number writes mm to a tenth of a micrometre.
func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
