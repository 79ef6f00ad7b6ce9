package source

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"

	"gusset/internal/unit"
)

// pixel is a CSS px, the unit of a bare number in width and height: 1/96 in
// (CSS Values and Units Level 3, section 5.2).
const pixel = 25.4 / 96

// scaleSlack is how far width and viewBox may differ, for what editors round.
const scaleSlack = 0.02 // mm

// root takes the first element: it must be an SVG with a sound page. The
// matrix it opens turns y up and puts the bottom-left corner at (0, 0).
func (d *drawing) root(tag xml.StartElement) bool {
	if tag.Name.Local != "svg" || tag.Name.Space != svgSpace {
		name := "<" + tag.Name.Local + ">"
		if tag.Name.Local == "svg" {
			name += " without xmlns=\"" + svgSpace + "\""
		}
		d.offset(d.start, svgRoot, name)
		return false
	}
	if !d.viewBox(tag) {
		return false
	}
	box := d.svg.ViewBox
	d.scale(tag, "width", box[2])
	d.scale(tag, "height", box[3])
	d.id(tag)
	if attr(tag, "transform") != "" {
		d.offset(d.valueOffset(tag, "transform"), svgTransform, "the drawing itself has one")
	}
	turn := affine{1, 0, 0, -1, -box[0], box[1] + box[3]}
	d.open = append(d.open, frame{role: group, matrix: turn})
	return true
}

func (d *drawing) viewBox(tag xml.StartElement) bool {
	value := attr(tag, "viewBox")
	if value == "" {
		d.offset(d.start, svgViewBox, "it is missing")
		return false
	}
	at := d.valueOffset(tag, "viewBox")
	numbers, ok := numberList(value)
	if !ok || len(numbers) != 4 {
		d.offset(at, svgViewBox, fmt.Sprintf("%q is not four numbers", shortened(value)))
		return false
	}
	d.svg.ViewBox = [4]float64(numbers)
	for i, v := range numbers {
		if math.Abs(v) > maxCoord || i >= 2 && v <= 0 {
			d.offset(at, svgViewBox, "the page must be larger than nothing and smaller than 20 m")
			return false
		}
	}
	return true
}

// scale checks that width or height, when given, makes a user unit 1 mm.
func (d *drawing) scale(tag xml.StartElement, name string, want float64) {
	value := attr(tag, name)
	if value == "" {
		return
	}
	if mm, ok := pageLength(value); !ok || math.Abs(mm-want) > scaleSlack {
		d.offset(d.valueOffset(tag, name), svgScale, name, shortened(value), shortNumber(want))
	}
}

// pageLength gives a width or height in millimetres. Percentages and units
// that depend on a font say nothing of the scale and are not taken.
func pageLength(value string) (float64, bool) {
	bare := strings.TrimSuffix(strings.TrimSpace(value), "px")
	if numbers, ok := numberList(bare); ok && len(numbers) == 1 {
		return numbers[0] * pixel, true
	}
	l, err := unit.Parse(value, "")
	return l.MM(), err == nil
}
