package source

import (
	"math"
	"strconv"
	"strings"
)

// pathFault tells where path data cannot be read.
type pathFault struct {
	at   int // byte offset in the data
	want string
	arc  bool
	long bool // more than maxSegments
}

// pen draws path data (SVG 2, section 9.3). After each command, back is the
// control point that a smooth curve of the same degree reflects.
type pen struct {
	numbers    numbers
	paths      []Path
	start, pos [2]float64
	back       [2]float64
	last       byte // the last command, in upper case
	count      int  // segments drawn
}

// counts is how many numbers each command takes at a time.
var counts = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'Z': 0}

// pathData reads the data of a path into subpaths, in the path's own
// coordinates. Quadratics are raised to cubics; arcs are a fault.
func pathData(data string) ([]Path, *pathFault) {
	p := &pen{numbers: numbers{text: data}}
	for p.numbers.skip(); !p.numbers.done(); p.numbers.skip() {
		if fault := p.command(); fault != nil {
			return nil, fault
		}
	}
	p.drop()
	if len(p.paths) == 0 {
		return nil, &pathFault{at: 0, want: "want at least one line or curve"}
	}
	return p.paths, nil
}

// command reads a letter and the groups of numbers that follow it.
func (p *pen) command() *pathFault {
	at := p.numbers.pos
	letter := p.numbers.text[at]
	upper := letter &^ 0x20
	count, ok := counts[upper]
	switch {
	case upper == 'A':
		return &pathFault{at: at, arc: true}
	case !ok || letter < 'A':
		return &pathFault{at: at, want: "want one of M L H V C S Q T Z"}
	case p.last == 0 && upper != 'M':
		return &pathFault{at: at, want: "want the path to begin with M"}
	}
	p.numbers.pos++
	if count == 0 {
		p.close()
		return nil
	}
	for first := true; first || p.numbers.more(); first = false {
		var n [6]float64
		for i := range count {
			v, ok := p.numbers.next()
			if !ok {
				return &pathFault{at: p.numbers.pos, want: "want a number"}
			}
			n[i] = v
		}
		if upper == 'M' && !first { // more pairs after a move are lines
			upper = 'L'
		}
		p.draw(upper, letter > 'Z', n)
		if p.count > maxSegments {
			return &pathFault{long: true}
		}
	}
	return nil
}

// draw carries out one command with its numbers.
func (p *pen) draw(command byte, relative bool, n [6]float64) {
	var base [2]float64
	if relative {
		base = p.pos
	}
	at := func(i int) [2]float64 { return [2]float64{base[0] + n[i], base[1] + n[i+1]} }
	switch command {
	case 'M':
		p.move(at(0))
	case 'L':
		p.line(at(0))
	case 'H':
		p.line([2]float64{base[0] + n[0], p.pos[1]})
	case 'V':
		p.line([2]float64{p.pos[0], base[1] + n[0]})
	case 'C':
		p.cubic(at(0), at(2), at(4))
	case 'S':
		p.cubic(p.reflected('C', 'S'), at(0), at(2))
	case 'Q':
		p.quadratic(at(0), at(2))
	case 'T':
		p.quadratic(p.reflected('Q', 'T'), at(0))
	}
	p.last = command
}

// reflected is the first control point of a smooth curve: the last one
// mirrored in the pen's position, or the position itself after another command.
func (p *pen) reflected(same, smooth byte) [2]float64 {
	if p.last != same && p.last != smooth {
		return p.pos
	}
	return [2]float64{2*p.pos[0] - p.back[0], 2*p.pos[1] - p.back[1]}
}

func (p *pen) move(to [2]float64) {
	p.drop()
	p.paths = append(p.paths, Path{})
	p.start, p.pos = to, to
}

// drop forgets a move that drew nothing.
func (p *pen) drop() {
	if n := len(p.paths); n > 0 && len(p.paths[n-1].Segs) == 0 {
		p.paths = p.paths[:n-1]
	}
}

func (p *pen) add(s PathSeg) {
	if n := len(p.paths); n == 0 || p.paths[n-1].Closed { // drawing on after a Z
		p.paths = append(p.paths, Path{})
	}
	path := &p.paths[len(p.paths)-1]
	path.Segs = append(path.Segs, s)
	p.count++
	p.pos = s.P[3]
}

func (p *pen) line(to [2]float64) { p.add(straight(p.pos, to)) }

func (p *pen) cubic(c1, c2, to [2]float64) {
	p.add(PathSeg{Cubic: true, P: [4][2]float64{p.pos, c1, c2, to}})
	p.back = c2
}

// quadratic raises the degree: the control points of the cubic lie two thirds
// of the way from each end to the quadratic's one.
func (p *pen) quadratic(c, to [2]float64) {
	lift := func(end [2]float64) [2]float64 {
		return [2]float64{end[0] + 2*(c[0]-end[0])/3, end[1] + 2*(c[1]-end[1])/3}
	}
	p.add(PathSeg{Cubic: true, P: [4][2]float64{p.pos, lift(p.pos), lift(to), to}})
	p.back = c
}

// closeSlack is the gap that counts as closed already, in user units: what
// relative coordinates lose in the last digits.
const closeSlack = 1e-9

// close ends the subpath where it began, with a line if the pen is elsewhere.
func (p *pen) close() {
	p.last = 'Z'
	if len(p.paths) == 0 {
		return
	}
	path := &p.paths[len(p.paths)-1]
	if path.Closed || len(path.Segs) == 0 {
		return
	}
	if math.Hypot(p.pos[0]-p.start[0], p.pos[1]-p.start[1]) > closeSlack {
		path.Segs = append(path.Segs, straight(p.pos, p.start))
	} else {
		path.Segs[len(path.Segs)-1].P[3] = p.start
	}
	path.Closed = true
	p.pos = p.start
}

// numbers reads the number lists of SVG: separated by white space, one comma,
// or nothing where a sign or a second point begins the next.
type numbers struct {
	text string
	pos  int
}

func (n *numbers) done() bool { return n.pos >= len(n.text) }

func (n *numbers) skip() {
	for !n.done() && strings.IndexByte(" \t\n\r\f", n.text[n.pos]) >= 0 {
		n.pos++
	}
}

// more reports whether another number follows, after at most one comma.
func (n *numbers) more() bool {
	n.skip()
	if !n.done() && n.text[n.pos] == ',' {
		return true
	}
	return !n.done() && strings.IndexByte("+-.0123456789", n.text[n.pos]) >= 0
}

// next reads a number with the comma before it. A number too large to hold
// counts as none.
func (n *numbers) next() (float64, bool) {
	n.skip()
	if !n.done() && n.text[n.pos] == ',' {
		n.pos++
		n.skip()
	}
	end := n.end()
	v, err := strconv.ParseFloat(n.text[n.pos:end], 64)
	if err != nil {
		return 0, false
	}
	n.pos = end
	return v, true
}

// end finds the end of the number at pos.
func (n *numbers) end() int {
	i := n.pos
	digits := func() {
		for i < len(n.text) && n.text[i] >= '0' && n.text[i] <= '9' {
			i++
		}
	}
	sign := func() {
		if i < len(n.text) && (n.text[i] == '+' || n.text[i] == '-') {
			i++
		}
	}
	sign()
	digits()
	if i < len(n.text) && n.text[i] == '.' {
		i++
		digits()
	}
	if i < len(n.text) && n.text[i]|0x20 == 'e' {
		before := i
		i++
		sign()
		if from := i; true {
			if digits(); i == from { // an e that begins no exponent
				i = before
			}
		}
	}
	return i
}

// numberList reads a whole text as a list of numbers.
func numberList(s string) ([]float64, bool) {
	n := &numbers{text: s}
	var list []float64
	for n.skip(); !n.done(); n.skip() {
		if len(list) == 0 && s[n.pos] == ',' {
			return nil, false
		}
		v, ok := n.next()
		if !ok {
			return nil, false
		}
		list = append(list, v)
	}
	return list, true
}
