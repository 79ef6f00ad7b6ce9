package sheet

import (
	"math"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/geom"
)

// nameGround lets a name be read across lines.
var nameGround = draw.Color{R: 255, G: 255, B: 255, A: 190}

var penLeader = draw.Pen(draw.Gray(90), 0.12)

const (
	nameSize  = 2.1
	nameTight = 1.7
	nameLead  = 1.15 // from one line of a name to the next, in its size
	dense     = 0.8  // mm between the points that stand for a line
)

// caption is a piece's name as it is printed: in one line or two.
type caption struct {
	lines []string
	size  float64
}

func (b caption) wide() float64 {
	var w float64
	for _, s := range b.lines {
		w = max(w, draw.TextWidth(s, b.size, false))
	}
	return w
}

func (b caption) box(at geom.Pt) draw.Rect {
	w, h := b.wide()+0.8, b.size*(1+nameLead*float64(len(b.lines)-1))+0.4
	return draw.Box(at.X-w/2, at.Y-h/2, w, h)
}

func (b caption) draw(l *draw.List, at geom.Pt) {
	l.Rect(draw.Fill(nameGround), b.box(at))
	y := at.Y + b.size*nameLead*float64(len(b.lines)-1)/2
	for _, s := range b.lines {
		l.Text(draw.Text{At: geom.Pt{X: at.X, Y: y - b.size*draw.CapHeight/2}, Size: b.size, Anchor: draw.Middle, Body: s})
		y -= b.size * nameLead
	}
}

// captions are the ways of printing a name, the best first: in one line, in as
// few more as its words allow, and each smaller.
func captions(title string) []caption {
	ways := [][]string{{title}}
	if parts := strings.Split(title, ", "); len(parts) > 1 {
		ways = append(ways, parts)
	}
	if parts := strings.Split(halved(title), ", "); len(parts) > len(ways[len(ways)-1]) {
		ways = append(ways, parts)
	}
	var out []caption
	for _, size := range []float64{nameSize, nameTight} {
		for _, lines := range ways {
			out = append(out, caption{lines, size})
		}
	}
	return out
}

// halved puts a break into the longest part of a name, at the space nearest to
// its middle.
func halved(title string) string {
	parts := strings.Split(title, ", ")
	longest := 0
	for i, p := range parts {
		if len(p) > len(parts[longest]) {
			longest = i
		}
	}
	p, best := parts[longest], -1
	for i, r := range p {
		if r == ' ' && (best < 0 || abs(2*i-len(p)) < abs(2*best-len(p))) {
			best = i
		}
	}
	if best > 0 {
		parts[longest] = p[:best] + ", " + p[best+1:]
	}
	return strings.Join(parts, ", ")
}

func abs(n int) int { return max(n, -n) }

// plate is a piece of the picture with points along its outline.
type plate struct {
	cut, rim []geom.Pt
}

// naming places names, clear of the line of work and of each other.
type naming struct {
	plates []plate
	line   []geom.Pt
	taken  []draw.Rect
	box    draw.Rect
}

// names prints the pieces' names: each on its piece where it has room, else
// beside it with a leader.
func names(l *draw.List, shown []sketched, line []geom.Pt, box draw.Rect) {
	n := naming{line: line, box: box.Inset(0.4)}
	for _, s := range shown {
		n.plates = append(n.plates, plate{s.cut, densely(append(s.cut[:len(s.cut):len(s.cut)], s.cut[0]))})
	}
	for i, s := range shown {
		if b, at, ok := n.onPiece(i, captions(s.title)); ok {
			n.taken = append(n.taken, b.box(at))
			b.draw(l, at)
			continue
		}
		tips, title := n.tips(i), s.title
		if len(tips) == 0 {
			tips, title = n.hidden(i), "beneath: "+s.title
		}
		if b, at, tip, ok := n.beside(tips, captions(title)); ok {
			n.taken = append(n.taken, b.box(at))
			l.Line(penLeader, towards(b.box(at), tip), tip)
			b.draw(l, at)
		}
	}
}

// grid is a lattice of points over a box.
func grid(box draw.Rect, columns, rows int) []geom.Pt {
	var out []geom.Pt
	for i := range columns {
		for k := range rows {
			out = append(out, geom.Pt{
				X: box.Min.X + box.W()*(float64(i)+0.5)/float64(columns), Y: box.Min.Y + box.H()*(float64(k)+0.5)/float64(rows),
			})
		}
	}
	return out
}

// onPiece finds a place for a name wholly on the part of a piece that is seen.
func (n naming) onPiece(i int, ways []caption) (caption, geom.Pt, bool) {
	p := n.plates[i]
	lo, hi := geom.BoundsOf(p.cut)
	seen := draw.Rect{Min: lo, Max: hi}.Intersect(n.box)
	if seen.W() <= 0 || seen.H() <= 0 {
		return caption{}, geom.Pt{}, false
	}
	for _, b := range ways {
		best, most := geom.Pt{}, 0.0
		for _, at := range grid(seen, 24, 16) {
			if r := b.box(at); n.clear(r) && n.wholly(r, i) {
				if room := near(p.rim, at); room > most {
					best, most = at, room
				}
			}
		}
		if most > 0 {
			return b, best, true
		}
	}
	return caption{}, geom.Pt{}, false
}

// clear reports whether a name there is in the picture, and covers neither
// another name nor the line of work.
func (n naming) clear(r draw.Rect) bool {
	return inBox(r, n.box) && !meetsAny(r, n.taken) && !covers(r.Inset(-0.3), n.line)
}

// wholly reports whether a name lies on a piece, on no edge of it and under no
// other.
func (n naming) wholly(r draw.Rect, i int) bool {
	if covers(r, n.plates[i].rim) || !geom.Inside(n.plates[i].cut, r.Center()) {
		return false
	}
	for _, above := range n.plates[i+1:] {
		if covers(r, above.rim) || geom.Inside(above.cut, r.Center()) {
			return false
		}
	}
	return true
}

// beside finds a place for a name, and the nearest of the places that its leader
// may point to: off all pieces; where the picture is too full for that, on some
// other piece, but across no cut line; and across one if nothing else is left.
func (n naming) beside(tips []geom.Pt, ways []caption) (b caption, at, tip geom.Pt, ok bool) {
	for _, free := range []func(draw.Rect) bool{
		func(r draw.Rect) bool { return !n.meetsPlate(r) },
		func(r draw.Rect) bool { return !n.meetsRim(r) },
		func(draw.Rect) bool { return true },
	} {
		for _, way := range ways {
			short := math.Inf(1)
			for _, q := range grid(n.box, 48, 32) {
				r := way.box(q)
				if !n.clear(r) || !free(r) {
					continue
				}
				for _, t := range tips {
					if d := towards(r, t).Dist(t); d < short {
						b, at, tip, ok, short = way, q, t, true, d
					}
				}
			}
			if ok {
				return b, at, tip, true
			}
		}
	}
	return b, at, tip, false
}

// tips are places on the part of a piece that is seen, clear of the line.
func (n naming) tips(i int) []geom.Pt {
	p := n.plates[i]
	lo, hi := geom.BoundsOf(p.cut)
	var out []geom.Pt
	for _, q := range grid(draw.Rect{Min: lo, Max: hi}.Intersect(n.box), 24, 16) {
		hidden := false
		for _, above := range n.plates[i+1:] {
			hidden = hidden || geom.Inside(above.cut, q)
		}
		if !hidden && geom.Inside(p.cut, q) && near(n.line, q) > 0.8 {
			out = append(out, q)
		}
	}
	return out
}

// hidden are places on a piece that lies wholly under others.
func (n naming) hidden(i int) []geom.Pt {
	lo, hi := geom.BoundsOf(n.plates[i].cut)
	var out []geom.Pt
	for _, q := range grid(draw.Rect{Min: lo, Max: hi}.Intersect(n.box), 24, 16) {
		if geom.Inside(n.plates[i].cut, q) && near(n.line, q) > 0.8 {
			out = append(out, q)
		}
	}
	return out
}

func (n naming) meetsRim(r draw.Rect) bool {
	for _, p := range n.plates {
		if covers(r.Inset(-0.2), p.rim) {
			return true
		}
	}
	return false
}

func (n naming) meetsPlate(r draw.Rect) bool {
	for _, p := range n.plates {
		if covers(r, p.rim) || geom.Inside(p.cut, r.Center()) {
			return true
		}
	}
	return false
}

// onPaper is points along lines as they are printed.
func onPaper(lines []geom.Curve, onto geom.Affine) []geom.Pt {
	var out []geom.Pt
	for _, c := range lines {
		out = append(out, densely(c.Transform(onto).Flatten(0.05))...)
	}
	return out
}

// densely puts points between those of a line.
func densely(pts []geom.Pt) []geom.Pt {
	var out []geom.Pt
	for i := 1; i < len(pts); i++ {
		steps := int(math.Ceil(pts[i].Dist(pts[i-1])/dense)) + 1
		for k := range steps {
			out = append(out, pts[i-1].Lerp(pts[i], float64(k)/float64(steps)))
		}
	}
	return out
}

func covers(r draw.Rect, pts []geom.Pt) bool {
	for _, p := range pts {
		if r.Contains(p) {
			return true
		}
	}
	return false
}

// near is how far the nearest of some points is.
func near(pts []geom.Pt, p geom.Pt) float64 {
	d := math.Inf(1)
	for _, q := range pts {
		d = min(d, q.Dist(p))
	}
	return d
}

// towards is the point of a box that is nearest to p.
func towards(r draw.Rect, p geom.Pt) geom.Pt {
	return geom.Pt{X: min(max(p.X, r.Min.X), r.Max.X), Y: min(max(p.Y, r.Min.Y), r.Max.Y)}
}

func inBox(r, box draw.Rect) bool {
	return r.Min.X >= box.Min.X && r.Max.X <= box.Max.X && r.Min.Y >= box.Min.Y && r.Max.Y <= box.Max.Y
}

func meetsAny(r draw.Rect, taken []draw.Rect) bool {
	for _, t := range taken {
		if t.Meets(r) {
			return true
		}
	}
	return false
}
