package sheet

import (
	"math"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const (
	labelSize  = 5.0 // of the piece's name, mm; smaller where the piece is small
	labelLeast = 1.8
	smallSize  = 2.6 // of the words along lines
)

// label prints what a piece is, the allowance of each edge, and the words
// along its lines.
func label(l *draw.List, h Heading, s shown) {
	for _, a := range s.cut.Allowances {
		allowance(l, h.Unit, s.cut, a)
	}
	for _, line := range linesIn(s.cut) {
		lineWords(l, line)
	}
	if s.cut.OnFold {
		a, b := mm(s.cut.Fold[0]), mm(s.cut.Fold[1])
		along(l, a.Lerp(b, 0.5), b.Sub(a), "on the fold of the cloth", smallSize, 1.5)
	}
	lines := []string{
		s.title(),
		s.copies() + ", " + string(s.cut.Cloth) + " cloth",
		h.View + ", size " + h.Size,
		h.Docket + ", digest " + h.Digest,
	}
	ways := [][]string{lines, {lines[0] + ", " + lines[1], lines[2] + ", " + lines[3]}, {strings.Join(lines, ", ")}}
	n, ok := placeName(freeSpace(s.cut), ways, labelSize, labelLeast)
	if !ok { // nowhere free: over the middle, as small as can be read
		lo, hi := geom.BoundsOf(s.cut.Exact)
		n = nameplate{lines: lines[:2], size: labelLeast, center: lo.Lerp(hi, 0.5), turned: hi.Y-lo.Y > hi.X-lo.X}
	}
	n.print(l)
}

// allowance prints an edge's name and the width cut beyond it, between its
// stitching line and its cut line where that is wide enough, otherwise inside.
// A name too long for its edge is left out.
func allowance(l *draw.List, u unit.Unit, c finish.Cut, a finish.Allowance) {
	e, ok := c.Sewn.Edge(a.Edge)
	if !ok || a.Width <= 0 {
		return
	}
	body := a.Edge + " " + unit.Format(a.Width, u)
	if a.Note != "" {
		body += ", " + a.Note
	}
	room := e.Curve.Length() - 6
	if draw.TextWidth(body, smallSize, false) > room {
		body = unit.Format(a.Width, u)
		if draw.TextWidth(body, smallSize, false) > room {
			return
		}
	}
	mid, _ := e.Curve.Nearest(a.At)
	at := clearOfNotches(c, e.Curve, mid, draw.TextWidth(body, smallSize, false)/2+2)
	gap := 1.2 // inside the stitching line
	if a.Width >= smallSize+2 {
		gap = -(a.Width + draw.CapHeight*smallSize) / 2 // the middle of the allowance
	}
	along(l, e.Curve.At(at), e.Curve.TangentAt(at), body, smallSize, gap)
}

// clearOfNotches returns the distance along an edge, as near as can be to the
// one wished for, that keeps half the given room to each side from any notch
// and from the ends. Where there is none, the wish stands.
func clearOfNotches(c finish.Cut, edge geom.Curve, wish, half float64) float64 {
	const step = 4.0
	free := func(at float64) bool {
		if at < half || at > edge.Length()-half {
			return false
		}
		for _, n := range c.Notches {
			if beside, dist := edge.Nearest(n[1]); dist < n[0].Dist(n[1])+40 && math.Abs(beside-at) < half {
				return false
			}
		}
		return true
	}
	for off := 0.0; off < edge.Length(); off += step {
		for _, at := range []float64{wish + off, wish - off} {
			if free(at) {
				return at
			}
		}
	}
	return wish
}

// along prints words along a direction, their base line gap mm to the left of
// the point (their top, where the words have to be turned to be read).
func along(l *draw.List, at, dir geom.Pt, body string, size, gap float64) {
	left := dir.Unit().Left()
	base := at.Add(left.Mul(gap))
	angle := dir.Angle() * 180 / math.Pi
	if angle > 91 || angle <= -89 {
		angle += 180
		base = base.Add(left.Mul(draw.CapHeight * size))
	}
	l.Text(draw.Text{At: base, Size: size, Angle: angle, Anchor: draw.Middle, Body: body})
}

// lineWords prints what an inside line is, near its end, so that the words of
// lines that cross stay apart.
func lineWords(l *draw.List, line piece.Line) {
	body := line.Name
	switch line.Kind {
	case piece.Grain:
		body = "grain"
	case piece.Lengthen:
		body = "lengthen or shorten here"
	case piece.Level:
		body = line.Name + " level"
	}
	length := line.Curve.Length()
	at := length * map[piece.LineKind]float64{piece.Level: 0.2, piece.Lengthen: 0.7, piece.Grain: 0.85}[line.Kind]
	if at == 0 {
		at = length / 2
	}
	if draw.TextWidth(body, smallSize, false) > length-2 {
		return
	}
	along(l, line.Curve.At(at), line.Curve.TangentAt(at), body, smallSize, 0.8)
}
