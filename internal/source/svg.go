package source

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"

	"gusset/internal/finding"
)

// SVG is a drawing in millimetres with y going up. The page's bottom-left
// corner is (0, 0) and its top right is (ViewBox[2], ViewBox[3]): a point
// (x, y) as drawn is read as (x - minX, minY + height - y).
type SVG struct {
	File     File
	ViewBox  [4]float64 // minX, minY, width, height as in the file
	Elements []Element  // in drawing order
}

// Element is one thing drawn, with the transforms of its groups applied.
type Element struct {
	ID    string // "" when it has none
	Class string
	Kind  string // "path", "line", "polyline", "circle" or "text"
	Place finding.Place

	Subpaths []Path     // of a path, line or polyline
	Center   [2]float64 // of a circle; where a text is anchored
	R        float64    // of a circle
	Text     string     // of a text, its white space single
	Label    string     // its <title>, which editors show as a tip
	Groups   []string   // ids of the groups around it, outermost first
}

// Path is one run of the pen.
type Path struct {
	Segs   []PathSeg
	Closed bool // by a Z; its last segment then ends where the first begins
}

// PathSeg is a cubic Bézier from P[0] to P[3]; when it is not Cubic it is a
// straight line whose control points lie at its thirds.
type PathSeg struct {
	Cubic bool
	P     [4][2]float64
}

// Bounds of a drawing that is read.
const (
	maxCoord    = 20_000 // mm from the page's corner
	maxElements = 20_000
	maxSegments = 200_000
)

const svgSpace = "http://www.w3.org/2000/svg"

// ReadSVG reads a drawing (SVG 2, https://www.w3.org/TR/SVG2/) strictly: paths,
// lines, polylines, circles and text in groups with transforms. What editors
// add in namespaces of their own is passed over, and so are definitions, style
// and metadata. Everything else that would be seen on the page and is not read
// is a finding. A drawing that is broken as XML, or that has no page, gives no
// elements; otherwise every sound element is given.
func ReadSVG(f File) (SVG, finding.List) {
	var out finding.List
	t := newText(f)
	svg := SVG{File: f}
	if !t.check(f.Data, MaxSVG, &out) {
		return svg, out
	}
	d := &drawing{faults: faults{text: t, out: &out}, svg: &svg, ids: map[string]finding.Place{}}
	d.xml = xml.NewDecoder(strings.NewReader(t.all))
	if !d.read() {
		svg.Elements = nil
	}
	return svg, out
}

// drawing is the state while reading: the open elements and what was made.
type drawing struct {
	faults
	svg      *SVG
	xml      *xml.Decoder
	open     []frame
	rooted   bool // the root element has been seen
	ids      map[string]finding.Place
	segments int
	start    int // byte offset of the token being read
}

// role is what an open element means to the reader.
type role int

const (
	group   role = iota // the root and <g>
	shaped              // a shape; its children may be a title and text spans
	title               // the <title> of a shape
	skipped             // passed over with all below it
)

type frame struct {
	role    role
	matrix  affine
	groups  []string
	element *Element // of a shape and of what is inside it
}

// read goes through the whole file. It gives false when the drawing is of no
// use.
func (d *drawing) read() bool {
	for {
		d.start = int(d.xml.InputOffset())
		token, err := d.xml.Token()
		if errors.Is(err, io.EOF) {
			if !d.rooted {
				d.offset(d.start, svgRoot, "missing")
			}
			return d.rooted
		}
		if err != nil {
			d.syntax(err)
			return false
		}
		if !d.token(token) {
			return false
		}
	}
}

func (d *drawing) token(token xml.Token) bool {
	switch token := token.(type) {
	case xml.Directive:
		d.offset(d.start, svgDoctype)
		return false
	case xml.StartElement:
		return d.begin(token)
	case xml.EndElement:
		d.end()
	case xml.CharData:
		d.characters(string(token))
	}
	return true
}

func (d *drawing) syntax(err error) {
	line, col := d.text.position(int(d.xml.InputOffset()))
	message := err.Error()
	var s *xml.SyntaxError
	if errors.As(err, &s) {
		line, message = s.Line, s.Msg
		col = 1
	}
	switch {
	case strings.Contains(message, "entity"):
		d.at(line, col, svgDoctype)
	case strings.Contains(message, "encoding"):
		d.at(line, col, svgBroken, "it says that it is not in UTF-8")
	default:
		d.at(line, col, svgBroken, strings.ToLower(message))
	}
}

// begin takes a start tag. It gives false when reading on is of no use.
func (d *drawing) begin(tag xml.StartElement) bool {
	if len(d.open) >= maxDepth {
		d.offset(d.start, tooDeep, maxDepth)
		return false
	}
	if len(d.open) == 0 {
		if d.rooted {
			d.offset(d.start, svgBroken, "a second drawing begins after the end of the first")
			return false
		}
		d.rooted = true
		return d.root(tag)
	}
	top := d.open[len(d.open)-1]
	next := frame{role: skipped, matrix: top.matrix, groups: top.groups, element: top.element}
	ok := true
	if tag.Name.Space == svgSpace && top.role != skipped && top.role != title {
		ok = d.inside(top, &next, tag)
	}
	d.open = append(d.open, next)
	return ok
}

// inside decides what an element of SVG inside top is.
func (d *drawing) inside(top frame, next *frame, tag xml.StartElement) bool {
	name := tag.Name.Local
	switch {
	case invisible[name]:
		if name == "title" && top.role == shaped {
			next.role = title
		}
	case top.role == shaped:
		if name == "tspan" && top.element.Kind == "text" {
			next.role = shaped
			return true
		}
		d.offset(d.start, svgElement, name)
	case name == "g":
		d.group(next, tag)
	case shapes[name] != nil:
		return d.shape(next, tag)
	default:
		d.offset(d.start, svgElement, name)
	}
	return true
}

// invisible elements draw nothing where they stand.
var invisible = map[string]bool{
	"title": true, "desc": true, "metadata": true, "defs": true, "style": true,
	"linearGradient": true, "radialGradient": true, "pattern": true, "marker": true,
	"filter": true, "clipPath": true, "mask": true, "symbol": true,
}

func (d *drawing) group(next *frame, tag xml.StartElement) {
	next.role = group
	id := d.id(tag)
	if id != "" {
		next.groups = append(next.groups[:len(next.groups):len(next.groups)], id)
	}
	next.matrix = d.transformed(next.matrix, tag)
}

func (d *drawing) end() {
	top := d.open[len(d.open)-1]
	d.open = d.open[:len(d.open)-1]
	closes := top.role == shaped && d.open[len(d.open)-1].role == group
	if closes && top.element != nil {
		e := top.element
		e.Text = strings.Join(strings.Fields(e.Text), " ")
		e.Label = strings.Join(strings.Fields(e.Label), " ")
		d.svg.Elements = append(d.svg.Elements, *e)
	}
}

func (d *drawing) characters(s string) {
	if len(d.open) == 0 {
		return
	}
	top := d.open[len(d.open)-1]
	switch {
	case top.element == nil:
	case top.role == title && len(top.element.Label) < longestShown:
		top.element.Label += s
	case top.role == shaped && top.element.Kind == "text" && len(top.element.Text) < longestShown:
		top.element.Text += s
	}
}

// id gives the id of an element, checked to be used once.
func (d *drawing) id(tag xml.StartElement) string {
	id := attr(tag, "id")
	if id == "" {
		return ""
	}
	at := d.valueOffset(tag, "id")
	line, col := d.text.position(at)
	if first, ok := d.ids[id]; ok {
		d.twice(line, col, first, svgDuplicateID, id)
		return id
	}
	d.ids[id] = d.text.place(line, col)
	return id
}

// attr gives an attribute without namespace; "" when it is not there.
func attr(tag xml.StartElement, name string) string {
	for _, a := range tag.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// valueOffset finds where the value of an attribute of the current tag begins
// in the text, so that a finding can point at it; the tag's start if it cannot
// be told.
func (d *drawing) valueOffset(tag xml.StartElement, name string) int {
	raw := d.text.all[d.start:min(int(d.xml.InputOffset()), len(d.text.all))]
	value := attr(tag, name)
	for from := 0; ; {
		i := strings.Index(raw[from:], name)
		if i < 0 {
			return d.start
		}
		i += from
		from = i + len(name)
		rest := strings.TrimLeft(raw[from:], " \t\n")
		if i == 0 || !strings.ContainsRune(" \t\n", rune(raw[i-1])) || !strings.HasPrefix(rest, "=") {
			continue
		}
		rest = strings.TrimLeft(rest[1:], " \t\n")
		if len(rest) > 0 && strings.HasPrefix(rest[1:], value) {
			return d.start + len(raw) - len(rest) + 1
		}
	}
}
