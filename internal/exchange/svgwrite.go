package exchange

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// sheetWidth is how wide the sheet may be on which pieces go out, in mm.
const sheetWidth = 1500

// WriteSVG writes a style as a plain SVG in millimetres: a group for each size, a
// group in it for each piece, and in that a path for each edge and line and a
// circle for each mark. What each is stands in its id:
//
//	size-12.front.cut.hem           an edge of the boundary
//	size-12.front.sewn.hem          an edge of the stitching line
//	size-12.front.line.level.hip    a line inside: its kind and name
//	size-12.front.notch.side.hip    a notch: its edge and name
//	size-12.front.mark.button.neck  a mark inside: its kind and name
//	size-12.front.mirror            the line of the fold
func WriteSVG(w io.Writer, s Style) error {
	parts, wide, high := shelves(s.Parts, sheetWidth)
	wide, high = math.Ceil(wide), math.Ceil(high)
	b := &svgSheet{turn: geom.Affine{A: 1, D: -1, F: high}}
	fmt.Fprintf(&b.out, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]gmm" height="%[2]gmm" viewBox="0 0 %[1]g %[2]g">`+"\n", wide, high)
	fmt.Fprintf(&b.out, "<title>%s</title>\n", escaped(s.Title))
	for _, size := range s.Sizes {
		group := "size-" + idWord(size)
		fmt.Fprintf(&b.out, "<g id=\"%s\" fill=\"none\" stroke=\"black\" stroke-width=\"0.4\">\n", group)
		for _, p := range parts {
			if p.Size == size {
				b.part(group+"."+idWord(p.Name), p)
			}
		}
		b.out.WriteString("</g>\n")
	}
	b.out.WriteString("</svg>\n")
	_, err := w.Write(b.out.Bytes())
	return err
}

// svgSheet collects an SVG; turn turns y down.
type svgSheet struct {
	out  bytes.Buffer
	turn geom.Affine
}

func (b *svgSheet) part(id string, p Part) {
	fmt.Fprintf(&b.out, "<g id=\"%s\"><title>%s</title>\n", id, escaped(p.Title))
	b.outline(id+".cut", "", p.Cut)
	b.outline(id+".sewn", ` stroke-dasharray="4 2"`, p.Sewn)
	for _, l := range p.Lines {
		b.path(fmt.Sprintf("%s.line.%s.%s", id, l.Kind, l.Name), dashOf(l.Kind), l.Curve)
	}
	for i, m := range p.Marks {
		name := fmt.Sprintf("mark.%s.%s", m.Kind, m.Name)
		if m.Kind == piece.Notch {
			name = "notch." + orNumber(m.Edge, i) + "." + orNumber(m.Name, i)
		}
		at := b.turn.Apply(m.P)
		fmt.Fprintf(&b.out, "<circle id=\"%s.%s\" cx=\"%s\" cy=\"%s\" r=\"1.5\"/>\n", id, name, coord(at.X), coord(at.Y))
	}
	if len(p.Mirror) > 0 {
		b.path(id+".mirror", ` stroke-dasharray="8 2 1.5 2"`, p.Mirror)
	}
	b.out.WriteString("</g>\n")
}

func orNumber(s string, i int) string {
	if s == "" {
		return "n" + strconv.Itoa(i+1)
	}
	return s
}

func (b *svgSheet) outline(id, attr string, edges []Edge) {
	for _, e := range edges {
		if e.Name == "" && len(edges) == 1 {
			b.path(id, attr, e.Curve)
			continue
		}
		b.path(id+"."+e.Name, attr, e.Curve)
	}
}

func (b *svgSheet) path(id, attr string, c geom.Curve) {
	fmt.Fprintf(&b.out, "<path id=\"%s\"%s d=\"%s\"/>\n", id, attr, pathData(c.Transform(b.turn)))
}

// dashes tell the kinds of inside lines apart.
var dashes = map[piece.LineKind]string{
	piece.Fold: "12 4", piece.Level: "2 3", piece.Placement: "6 2", piece.Lengthen: "10 3 2 3", piece.Stitch: "4 2",
}

func dashOf(k piece.LineKind) string {
	if d := dashes[k]; d != "" {
		return fmt.Sprintf(` stroke-dasharray="%s"`, d)
	}
	return ""
}

// pathData is a curve in SVG's own notation.
func pathData(c geom.Curve) string {
	var b strings.Builder
	b.WriteString("M " + point(c.Start()))
	for _, s := range c {
		if s.Straight {
			b.WriteString(" L " + point(s.P[3]))
			continue
		}
		b.WriteString(" C " + point(s.P[1]) + " " + point(s.P[2]) + " " + point(s.P[3]))
	}
	return b.String()
}

func point(p geom.Pt) string { return coord(p.X) + " " + coord(p.Y) }

// coord writes a coordinate to a tenth of a micrometre.
func coord(v float64) string {
	v = math.Round(v*1e4) / 1e4
	if v == 0 {
		v = 0 // no minus zero
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// idWord is a text as a part of an id: letters, digits, hyphens and underscores.
func idWord(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return '_'
	}, s)
}

func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // writing to memory cannot fail
	return b.String()
}
