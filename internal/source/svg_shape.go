package source

import (
	"encoding/xml"
	"math"
)

// shapes says how each shape is read. A reader gives false when the shape is
// unsound and has been told.
var shapes = map[string]func(*drawing, affine, *Element, xml.StartElement) bool{
	"path":     (*drawing).path,
	"line":     (*drawing).line,
	"polyline": (*drawing).polyline,
	"circle":   (*drawing).circle,
	"text":     (*drawing).label,
}

// shape takes the start tag of a shape. The element is kept at its end tag. It
// gives false when the drawing has grown beyond bounds.
func (d *drawing) shape(next *frame, tag xml.StartElement) bool {
	if len(d.svg.Elements) >= maxElements {
		d.offset(d.start, svgLong, maxElements, "elements")
		return false
	}
	line, col := d.text.position(d.start)
	e := &Element{
		ID: d.id(tag), Class: attr(tag, "class"), Kind: tag.Name.Local,
		Place: d.text.place(line, col), Groups: next.groups,
	}
	next.role, next.element = skipped, nil
	if shapes[e.Kind](d, d.transformed(next.matrix, tag), e, tag) {
		next.role, next.element = shaped, e
	}
	for _, p := range e.Subpaths {
		d.segments += len(p.Segs)
	}
	if d.segments > maxSegments {
		d.offset(d.start, svgLong, maxSegments, "lines and curves")
		return false
	}
	return true
}

// number gives the number in an attribute, 0 when it is not there (SVG 2,
// section 10: the default of every coordinate).
func (d *drawing) number(tag xml.StartElement, name string) (float64, bool) {
	value := attr(tag, name)
	if value == "" {
		return 0, true
	}
	numbers, ok := numberList(value)
	if !ok || len(numbers) != 1 {
		d.offset(d.valueOffset(tag, name), svgNumber, name, shortened(value), "a plain number is")
		return 0, false
	}
	return numbers[0], true
}

// point reads two attributes as a point and puts it on the page.
func (d *drawing) point(m affine, tag xml.StartElement, xName, yName string) ([2]float64, bool) {
	x, okX := d.number(tag, xName)
	y, okY := d.number(tag, yName)
	if !okX || !okY {
		return [2]float64{}, false
	}
	p := m.apply([2]float64{x, y})
	return p, d.sensible(p)
}

// sensible tells of a point that is far off the page or no number at all.
func (d *drawing) sensible(points ...[2]float64) bool {
	for _, p := range points {
		if !(math.Abs(p[0]) <= maxCoord && math.Abs(p[1]) <= maxCoord) {
			d.offset(d.start, svgHuge, maxCoord/1000)
			return false
		}
	}
	return true
}

func (d *drawing) line(m affine, e *Element, tag xml.StartElement) bool {
	from, ok1 := d.point(m, tag, "x1", "y1")
	to, ok2 := d.point(m, tag, "x2", "y2")
	e.Subpaths = []Path{{Segs: []PathSeg{straight(from, to)}}}
	return ok1 && ok2
}

func (d *drawing) polyline(m affine, e *Element, tag xml.StartElement) bool {
	value := attr(tag, "points")
	numbers, ok := numberList(value)
	if len(numbers) > 2*maxSegments {
		d.segments += maxSegments + 1 // told by shape
		return false
	}
	if !ok || len(numbers) < 4 || len(numbers)%2 != 0 {
		d.offset(d.valueOffset(tag, "points"), svgNumber, "points", shortened(value), "two or more pairs of plain numbers are")
		return false
	}
	var p Path
	last := m.apply([2]float64{numbers[0], numbers[1]})
	ok = d.sensible(last)
	for i := 2; ok && i < len(numbers); i += 2 {
		next := m.apply([2]float64{numbers[i], numbers[i+1]})
		ok = d.sensible(next)
		p.Segs = append(p.Segs, straight(last, next))
		last = next
	}
	e.Subpaths = []Path{p}
	return ok
}

func (d *drawing) circle(m affine, e *Element, tag xml.StartElement) bool {
	r, ok := d.number(tag, "r")
	if !ok {
		return false
	}
	if r <= 0 {
		d.offset(d.valueOffset(tag, "r"), svgNumber, "the radius r", attr(tag, "r"), "a number above 0 is")
		return false
	}
	scale, even := m.uniform()
	if !even {
		d.offset(d.start, svgTransform, "it would make an ellipse of a circle")
		return false
	}
	e.R = r * scale
	e.Center, ok = d.point(m, tag, "cx", "cy")
	return ok && d.sensible([2]float64{e.R, 0})
}

func (d *drawing) label(m affine, e *Element, tag xml.StartElement) bool {
	var ok bool
	e.Center, ok = d.point(m, tag, "x", "y")
	return ok
}

func (d *drawing) path(m affine, e *Element, tag xml.StartElement) bool {
	at := d.valueOffset(tag, "d")
	subpaths, fault := pathData(attr(tag, "d"))
	if fault != nil {
		if at > d.start { // the place of the value is known
			at += fault.at
		}
		switch {
		case fault.arc:
			d.offset(at, svgArc)
		case fault.long:
			d.segments += maxSegments + 1 // told by shape
		default:
			d.offset(at, svgPath, fault.at+1, fault.want)
		}
		return false
	}
	for i := range subpaths {
		for j := range subpaths[i].Segs {
			s := &subpaths[i].Segs[j]
			for k := range s.P {
				s.P[k] = m.apply(s.P[k])
			}
			if !d.sensible(s.P[:]...) {
				return false
			}
		}
	}
	e.Subpaths = subpaths
	return true
}

// straight is a line segment with its control points at the thirds.
func straight(a, b [2]float64) PathSeg {
	third := func(t float64) [2]float64 {
		return [2]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
	}
	return PathSeg{P: [4][2]float64{a, third(1.0 / 3), third(2.0 / 3), b}}
}
