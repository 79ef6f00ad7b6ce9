package sheet

import (
	"math"
	"slices"
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
	for _, line := range s.cut.Sewn.Lines {
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
	place := placeName(s.cut, lines)
	place.print(l)
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
	if len(line.Curve) == 0 {
		return
	}
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

// nameplate is a block of text with its place on a piece.
type nameplate struct {
	lines  []string
	size   float64
	center geom.Pt
	turned bool // reading upwards
}

// placeName finds the largest size and the freest place for the name of a
// piece: the lines one below the other where there is room, in fewer, longer
// lines on a narrow piece.
func placeName(c finish.Cut, lines []string) nameplate {
	inside := freeSpace(c)
	joined := [][]string{lines, {lines[0] + ", " + lines[1], lines[2] + ", " + lines[3]}, {strings.Join(lines, ", ")}}
	var best nameplate
	for size := labelSize; size >= labelLeast; size *= 0.85 {
		bestRoom := 0.0
		for _, text := range joined {
			for _, turned := range []bool{false, true} {
				n := nameplate{lines: text, size: size, turned: turned}
				at, room := inside.roomiest(n.frame())
				if n.center = at; room > bestRoom {
					best, bestRoom = n, room
				}
			}
			if bestRoom > 0 {
				return best
			}
		}
	}
	// Nowhere free: over the middle, as small as can be read.
	lo, hi := geom.BoundsOf(c.Exact)
	return nameplate{lines: lines[:2], size: labelLeast, center: lo.Lerp(hi, 0.5), turned: hi.Y-lo.Y > hi.X-lo.X}
}

// sizes returns the text size of each line: the first is the name.
func (n nameplate) lineSize(i int) float64 {
	if i == 0 || len(n.lines) < 4 {
		return n.size
	}
	return max(labelLeast, 0.62*n.size)
}

// frame returns the width and the height of the block as it stands.
func (n nameplate) frame() (w, h float64) {
	for i, line := range n.lines {
		w = max(w, draw.TextWidth(line, n.lineSize(i), i == 0))
		h += 1.35 * n.lineSize(i)
	}
	if n.turned {
		return h, w
	}
	return w, h
}

func (n nameplate) print(l *draw.List) {
	_, h := n.frame()
	down, angle := geom.Pt{Y: -1}, 0.0
	if n.turned {
		h, _ = n.frame()
		down, angle = geom.Pt{X: 1}, 90
	}
	at := n.center.Sub(down.Mul(h / 2))
	for i, line := range n.lines {
		size := n.lineSize(i)
		base := at.Add(down.Mul((1.35*size + draw.CapHeight*size) / 2))
		l.Text(draw.Text{At: base, Size: size, Angle: angle, Anchor: draw.Middle, Bold: i == 0, Body: line})
		at = at.Add(down.Mul(1.35 * size))
	}
}

// space is the inside of a piece with the lines that words should not cross.
type space struct {
	ring  []geom.Pt
	lines []barrier
}

// barrier is a straight line with the room that the words along it take.
type barrier struct {
	a, b geom.Pt
	room float64
}

// freeSpace returns the inside of the stitching line.
func freeSpace(c finish.Cut) space {
	s := space{ring: c.Sewn.Outline(0.5)}
	if len(s.ring) == 0 {
		s.ring = c.Exact
	}
	add := func(room float64, pts []geom.Pt) {
		for i := 1; i < len(pts); i++ {
			s.lines = append(s.lines, barrier{pts[i-1], pts[i], room})
		}
	}
	add(0, append(slices.Clone(s.ring), s.ring[0]))
	for _, line := range c.Sewn.Lines {
		add(smallSize, line.Curve.Flatten(0.5))
	}
	for _, t := range c.Turns {
		add(0, t.Flatten(0.5))
	}
	for _, n := range c.Notches {
		add(0, n[:])
	}
	for _, m := range c.Sewn.Marks {
		add(4, []geom.Pt{m.P, m.P})
	}
	return s
}

// roomiest returns the place in the piece where a box keeps the most distance
// from every line, up to what is plenty, and that distance; 0 when no place
// has enough. Among equals the one nearest the middle wins.
func (s space) roomiest(w, h float64) (geom.Pt, float64) {
	const plenty, enough = 6.0, 1.0
	lo, hi := geom.BoundsOf(s.ring)
	mid := lo.Lerp(hi, 0.5)
	steps := func(span float64) int { return int(min(40, max(1, span/4))) }
	nx, ny := steps(hi.X-lo.X-w), steps(hi.Y-lo.Y-h)
	var best geom.Pt
	bestRoom, bestOff := 0.0, math.Inf(1)
	for i := range nx + 1 {
		for k := range ny + 1 {
			p := geom.Pt{
				X: lo.X + w/2 + (hi.X-lo.X-w)*float64(i)/float64(nx),
				Y: lo.Y + h/2 + (hi.Y-lo.Y-h)*float64(k)/float64(ny),
			}
			room := min(plenty, s.room(draw.Box(p.X-w/2, p.Y-h/2, w, h)))
			if off := p.Dist(mid); room >= enough && (room > bestRoom || room == bestRoom && off < bestOff) {
				best, bestRoom, bestOff = p, room, off
			}
		}
	}
	return best, bestRoom
}

// room returns how far a box is from every line; 0 when it crosses one or is
// not inside.
func (s space) room(box draw.Rect) float64 {
	if !geom.Inside(s.ring, box.Center()) {
		return 0
	}
	least := math.Inf(1)
	for _, line := range s.lines {
		least = min(least, boxDist(box, line.a, line.b)-line.room)
		if least <= 0 {
			return 0
		}
	}
	return least
}

// boxDist returns the distance between a box and a straight line, to about a
// fifth of a mm, by probing points along the line and corners of the box.
func boxDist(box draw.Rect, a, b geom.Pt) float64 {
	d := b.Sub(a)
	n := int(d.Len()/2) + 1
	least := math.Inf(1)
	for i := range n + 1 {
		p := a.Lerp(b, float64(i)/float64(n))
		dx := max(box.Min.X-p.X, 0, p.X-box.Max.X)
		dy := max(box.Min.Y-p.Y, 0, p.Y-box.Max.Y)
		least = min(least, math.Hypot(dx, dy))
	}
	return least
}
