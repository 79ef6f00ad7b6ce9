package sheet

import (
	"math"

	"gusset/internal/draw"
	"gusset/internal/finish"
	"gusset/internal/geom"
)

// nameplate is a block of text with its place on a piece.
type nameplate struct {
	lines  []string
	size   float64
	center geom.Pt
	turned bool // reading upwards
}

// placeName finds the largest size and the freest place for words inside a
// space: the first way of setting them that has room, level before turned. It
// reports false when even the smallest size has no place.
func placeName(inside space, ways [][]string, largest, smallest float64) (nameplate, bool) {
	for size := largest; size >= smallest; size *= 0.85 {
		for _, text := range ways {
			for _, turned := range []bool{false, true} {
				n := nameplate{lines: text, size: size, turned: turned}
				if at, room := inside.roomiest(n.frame()); room > 0 {
					n.center = at
					return n, true
				}
			}
		}
	}
	return nameplate{}, false
}

// lineSize returns the text size of each line: the first is the name.
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

// within returns the space inside a closed line.
func within(ring []geom.Pt) space {
	s := space{ring: ring}
	for i, p := range ring {
		s.lines = append(s.lines, barrier{p, ring[(i+1)%len(ring)], 0})
	}
	return s
}

// freeSpace returns the inside of the stitching line.
func freeSpace(c finish.Cut) space {
	s := within(c.Sewn.Outline(0.5))
	if len(s.ring) == 0 {
		s = within(c.Exact)
	}
	add := func(room float64, pts []geom.Pt) {
		for i := 1; i < len(pts); i++ {
			s.lines = append(s.lines, barrier{pts[i-1], pts[i], room})
		}
	}
	for _, line := range linesIn(c) {
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
			room := min(plenty, s.room(draw.Box(p.X-w/2, p.Y-h/2, w, h), max(enough, bestRoom)))
			if off := p.Dist(mid); room >= enough && (room > bestRoom || room == bestRoom && off < bestOff) {
				best, bestRoom, bestOff = p, room, off
			}
		}
	}
	return best, bestRoom
}

// room returns how far a box is from every line; 0 when it crosses one, is not
// inside, or has less than worth, in mm.
func (s space) room(box draw.Rect, worth float64) float64 {
	if !geom.Inside(s.ring, box.Center()) {
		return 0
	}
	least := math.Inf(1)
	for _, line := range s.lines {
		if least = line.from(box, least); least <= 0 || least < worth {
			return 0
		}
	}
	return least
}

// from returns how far a box is from a barrier, less the room that the barrier
// wants about it, or least if that is less: to about a fifth of a mm, by probing
// points along the line.
func (b barrier) from(box draw.Rect, least float64) float64 {
	n := int(b.b.Sub(b.a).Len()/2) + 1
	for i := range n + 1 {
		p := b.a.Lerp(b.b, float64(i)/float64(n))
		dx := max(box.Min.X-p.X, 0, p.X-box.Max.X)
		dy := max(box.Min.Y-p.Y, 0, p.Y-box.Max.Y)
		if max(dx, dy)-b.room < least { // else it is farther for certain
			least = min(least, math.Hypot(dx, dy)-b.room)
		}
	}
	return least
}
