package exchange

import (
	"bytes"
	"math"

	"gusset/internal/geom"
)

// pdfState is the part of the graphics state that places lines.
type pdfState struct{ m geom.Affine }

// pdfContent draws one content stream (ISO 32000-1, 7.8.2 and 8.5).
type pdfContent struct {
	r         *pdfReader
	resources pdfDict
	state     pdfState
	stack     []pdfState
	marked    []string // marked content: the layer, or "" for none
	path      []geom.Curve
	start, at geom.Pt
	args      []any
	out       []stroke
}

const maxMarked = 256

// run draws data; depth is how many drawings it lies within.
func (c *pdfContent) run(data []byte, depth int) {
	l := &pdfLexer{data: data, left: &c.r.f.left}
	for c.r.f.err == nil {
		v, ok := l.next(0)
		if !ok {
			if *l.left <= 0 {
				c.r.f.fail(tooMuch, maxPDFTokens, "words")
			}
			return
		}
		w, isWord := v.(pdfWord)
		if !isWord {
			if len(c.args) < 64 {
				c.args = append(c.args, v)
			}
			continue
		}
		if w == "BI" {
			c.r.pictures++
			if i := bytes.Index(l.data[l.pos:], []byte("EI")); i >= 0 {
				l.pos += i + 2
			} else {
				l.pos = len(l.data)
			}
		} else {
			c.operator(string(w), depth)
		}
		c.args = c.args[:0]
		if c.r.left <= 0 {
			c.r.f.fail(tooMuch, maxVertices, "lines and curves")
		}
	}
}

// pathOperators build a path: how many numbers they take, and what they do.
var pathOperators = map[string]struct {
	numbers int
	do      func(*pdfContent, []float64)
}{
	"m":  {2, func(c *pdfContent, n []float64) { c.move(c.point(n)) }},
	"l":  {2, func(c *pdfContent, n []float64) { c.lineTo(c.point(n)) }},
	"c":  {6, func(c *pdfContent, n []float64) { c.curveTo(c.point(n), c.point(n[2:]), c.point(n[4:])) }},
	"v":  {4, func(c *pdfContent, n []float64) { c.curveTo(c.at, c.point(n), c.point(n[2:])) }},
	"y":  {4, func(c *pdfContent, n []float64) { c.curveTo(c.point(n), c.point(n[2:]), c.point(n[2:])) }},
	"h":  {0, func(c *pdfContent, _ []float64) { c.close() }},
	"re": {4, (*pdfContent).rectangle},
	"cm": {6, func(c *pdfContent, n []float64) {
		c.state.m = geom.Affine{A: n[0], B: n[1], C: n[2], D: n[3], E: n[4], F: n[5]}.Then(c.state.m)
	}},
}

// paints end a path: whether it is closed first, and whether its line is drawn.
var paints = map[string]struct{ close, stroke, fill bool }{
	"S": {stroke: true}, "s": {close: true, stroke: true},
	"f": {fill: true}, "F": {fill: true}, "f*": {fill: true},
	"B": {stroke: true}, "B*": {stroke: true}, "b": {close: true, stroke: true}, "b*": {close: true, stroke: true},
	"n": {},
}

func (c *pdfContent) operator(w string, depth int) {
	if op, ok := pathOperators[w]; ok {
		n, sound := c.numbers(op.numbers)
		if sound {
			op.do(c, n)
		}
		return
	}
	if p, ok := paints[w]; ok {
		if p.close {
			c.close()
		}
		c.paint(p.stroke, p.fill)
		return
	}
	switch w {
	case "q":
		if len(c.stack) < maxMarked {
			c.stack = append(c.stack, c.state)
		}
	case "Q":
		if n := len(c.stack); n > 0 {
			c.state, c.stack = c.stack[n-1], c.stack[:n-1]
		}
	case "BMC":
		c.mark("")
	case "BDC":
		c.mark(c.layerArg())
	case "EMC":
		if n := len(c.marked); n > 0 {
			c.marked = c.marked[:n-1]
		}
	case "Do":
		c.use(depth)
	}
}

func (c *pdfContent) mark(layer string) {
	if len(c.marked) < maxMarked {
		c.marked = append(c.marked, layer)
	}
}

// numbers gives the last n arguments.
func (c *pdfContent) numbers(n int) ([]float64, bool) {
	if len(c.args) < n {
		return nil, false
	}
	out := make([]float64, n)
	for i, v := range c.args[len(c.args)-n:] {
		x, ok := v.(float64)
		if !ok {
			return nil, false
		}
		out[i] = x
	}
	return out, true
}

// point is a place on the page in mm; what lies absurdly far off is drawn in.
func (c *pdfContent) point(n []float64) geom.Pt {
	p := c.state.m.Apply(geom.Pt{X: n[0], Y: n[1]})
	if !p.Finite() {
		return geom.Pt{}
	}
	return geom.Pt{X: min(max(p.X, -maxCoord), maxCoord), Y: min(max(p.Y, -maxCoord), maxCoord)}
}

func (c *pdfContent) move(p geom.Pt) {
	c.start, c.at = p, p
	c.path = append(c.path, nil)
}

func (c *pdfContent) add(s geom.Seg) {
	if len(c.path) == 0 {
		c.path = append(c.path, nil)
	}
	i := len(c.path) - 1
	c.path[i] = append(c.path[i], s)
	c.at = s.P[3]
	c.r.left--
}

func (c *pdfContent) lineTo(p geom.Pt) { c.add(geom.Line(c.at, p)) }

func (c *pdfContent) curveTo(a, b, p geom.Pt) { c.add(geom.Cubic(c.at, a, b, p)) }

func (c *pdfContent) close() {
	if n := len(c.path); n > 0 && len(c.path[n-1]) > 0 {
		if c.at.Dist(c.start) > 1e-9 {
			c.lineTo(c.start)
		}
		c.path = append(c.path, nil)
		c.at = c.start
	}
}

func (c *pdfContent) rectangle(n []float64) {
	a := c.point(n)
	b := c.point([]float64{n[0] + n[2], n[1]})
	d := c.point([]float64{n[0] + n[2], n[1] + n[3]})
	e := c.point([]float64{n[0], n[1] + n[3]})
	c.move(a)
	c.lineTo(b)
	c.lineTo(d)
	c.lineTo(e)
	c.close()
}

func (c *pdfContent) paint(stroked, filled bool) {
	if filled && len(c.path) > 0 {
		c.r.filled++
	}
	if stroked {
		for _, run := range c.path {
			if run = tidied(run); len(run) > 0 && !math.IsNaN(run.Length()) {
				c.out = append(c.out, stroke{curve: run, groups: c.layers(), place: c.r.place})
			}
		}
	}
	c.path = nil
}

// layers are the names of the layers that hold what is drawn now.
func (c *pdfContent) layers() []string {
	var out []string
	for _, l := range c.marked {
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}

// layerArg is the layer that the arguments of BDC name (8.11.3.2).
func (c *pdfContent) layerArg() string {
	if len(c.args) < 2 || c.args[0] != pdfName("OC") {
		return ""
	}
	name, ok := c.args[1].(pdfName)
	if !ok {
		return ""
	}
	return c.layerName(c.r.f.dict(c.resources["Properties"])[string(name)])
}

// layerName is the name of an optional content group, or of the first of a
// membership.
func (c *pdfContent) layerName(v any) string {
	d := c.r.f.dict(v)
	if d["Type"] == pdfName("OCMD") {
		first := d["OCGs"]
		if a := c.r.f.array(first); len(a) > 0 {
			first = a[0]
		}
		d = c.r.f.dict(first)
	}
	return shown(c.r.f.text(d["Name"]))
}

// use draws a form, or counts a picture.
func (c *pdfContent) use(depth int) {
	if len(c.args) == 0 {
		return
	}
	name, _ := c.args[len(c.args)-1].(pdfName)
	x, ok := c.r.f.get(c.r.f.dict(c.resources["XObject"])[string(name)]).(pdfStream)
	if !ok {
		return
	}
	if x.dict["Subtype"] != pdfName("Form") {
		c.r.pictures++
		return
	}
	if c.r.forms++; depth >= maxFormDepth || c.r.forms > maxPDFForms {
		c.r.f.fail(pdfDeep, maxFormDepth, maxPDFForms)
		return
	}
	data, err := c.r.f.decode(x)
	if err != nil {
		return
	}
	inner := &pdfContent{r: c.r, resources: c.resources, state: c.state, marked: c.marked[:len(c.marked):len(c.marked)]}
	if m, ok := c.r.f.numbers(x.dict["Matrix"], 6); ok {
		inner.state.m = geom.Affine{A: m[0], B: m[1], C: m[2], D: m[3], E: m[4], F: m[5]}.Then(inner.state.m)
	}
	if x.dict["Resources"] != nil {
		inner.resources = c.r.f.dict(x.dict["Resources"])
	}
	if x.dict["OC"] != nil {
		inner.mark(c.layerName(x.dict["OC"]))
	}
	inner.run(data, depth+1)
	c.out = append(c.out, inner.out...)
}
