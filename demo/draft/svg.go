package main

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// margin is the white round the drawing, in mm.
const margin = 15

// writeSVG writes one piece in all sizes, nested about their common origin:
// one group for each size, one path for each edge in outline order.
func writeSVG(w *bytes.Buffer, labels []string, in []printedPiece) {
	lo, hi := bounds(in)
	width, height := math.Ceil(hi.X-lo.X+2*margin), math.Ceil(hi.Y-lo.Y+2*margin)
	// SVG's y points down: the top of the garment is drawn at the top.
	place := geom.Affine{A: 1, D: -1, E: math.Round(margin - lo.X), F: math.Round(hi.Y + margin)}
	fmt.Fprintf(w, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]gmm" height="%[2]gmm" viewBox="0 0 %[1]g %[2]g">`+"\n", width+1, height+1)
	for i, p := range in {
		writeSize(w, "S"+labels[i], p, place)
	}
	w.WriteString("</svg>\n")
}

func bounds(in []printedPiece) (lo, hi geom.Pt) {
	var pts []geom.Pt
	for _, p := range in {
		for _, c := range p.cut {
			pts = append(pts, c.Flatten(0.1)...)
		}
		for _, l := range p.Lines {
			pts = append(pts, l.Curve.Flatten(0.1)...)
		}
	}
	return geom.BoundsOf(pts)
}

// dashes tells the kinds of inside lines apart.
var dashes = map[piece.LineKind]string{
	piece.Grain: "", piece.Fold: "12 4", piece.Level: "2 3",
	piece.Placement: "6 2", piece.Lengthen: "10 3 2 3", piece.Stitch: "4 2",
}

func writeSize(w *bytes.Buffer, id string, p printedPiece, place geom.Affine) {
	fmt.Fprintf(w, `<g id="%s" fill="none" stroke="black" stroke-width="0.4">`+"\n", id)
	for i, e := range p.Edges {
		fmt.Fprintf(w, `<path id="%s.%s" d="%s"/>`+"\n", id, e.Name, pathData(p.cut[i].Transform(place)))
	}
	for _, l := range p.Lines {
		dash := ""
		if d := dashes[l.Kind]; d != "" {
			dash = fmt.Sprintf(` stroke-dasharray="%s"`, d)
		}
		fmt.Fprintf(w, `<path id="%s.%s.%s"%s d="%s"/>`+"\n", id, l.Kind, l.Name, dash, pathData(l.Curve.Transform(place)))
	}
	for i, m := range p.Marks {
		name := m.Name
		if m.Kind == piece.Notch {
			name = m.Edge + "." + m.Name
		}
		at := place.Apply(p.around[i])
		fmt.Fprintf(w, `<circle id="%s.%s.%s" cx="%s" cy="%s" r="1.5"/>`+"\n", id, m.Kind, name, number(at.X), number(at.Y))
	}
	w.WriteString("</g>\n")
}

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

func point(p geom.Pt) string { return number(p.X) + " " + number(p.Y) }

// number writes a coordinate to a tenth of a micrometre.
func number(v float64) string {
	v = math.Round(v*1e4) / 1e4
	if v == 0 {
		v = 0 // no minus zero
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
