package exchange

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// ReadDXF reads the pieces of a DXF in the form of ASTM D6673. The unit is that
// of the text UNITS or of the header; u, unless empty, stands in for it. A block
// is a piece in a size; a file without blocks is one piece. What lies on layers
// that mean nothing to a piece is passed over and told.
func ReadDXF(f source.File, u unit.Unit) (Style, finding.List) {
	r := &dxfReader{lines: dxfLines{file: f.Path, data: f.Data}, unit: u}
	whole := finding.Place{File: f.Path}
	switch {
	case len(f.Data) > maxDXF:
		r.tell(tooLarge, whole, maxDXF>>20)
		return r.style, r.out
	case bytes.HasPrefix(f.Data, []byte("AutoCAD Binary DXF")):
		r.tell(dxfBinary, whole)
		return r.style, r.out
	case len(bytes.TrimSpace(f.Data)) == 0:
		r.tell(empty, whole)
		return r.style, r.out
	}
	r.read()
	if r.out.Stops() > 0 {
		return r.style, r.out
	}
	if !r.measure(whole) {
		return r.style, r.out
	}
	r.parts()
	if len(r.style.Parts) == 0 && r.out.Stops() == 0 {
		r.tell(noPieces, whole)
	}
	return r.style, r.out
}

// dxfReader reads one file.
type dxfReader struct {
	lines    dxfLines
	out      finding.List
	style    Style
	unit     unit.Unit
	scale    float64 // of the file's unit, in mm
	section  string
	header   map[string]string
	blocks   []dxfBlock
	block    *dxfBlock // being read; nil outside
	loose    dxfBlock  // what lies outside of blocks
	open     *entity   // a polyline whose vertices follow
	vertices []entity
	drawn    int
	inserts  []entity
	passed   map[string]map[string]int // layer: kind: how many
}

// dxfBlock is a piece in a size as it stands in the file.
type dxfBlock struct {
	name   string
	line   int
	shapes []dxfShape
	texts  []entity
}

// dxfShape is an entity with its vertices.
type dxfShape struct {
	entity
	vertices []entity
}

func (r *dxfReader) tell(k finding.Kind, at finding.Place, args ...any) {
	switch n := len(r.out); {
	case n < maxFaults:
		r.out = append(r.out, k.At(at, args...))
	case n == maxFaults:
		r.out = append(r.out, faults.At(at, maxFaults))
	}
}

// read sorts the file into blocks of entities.
func (r *dxfReader) read() {
	r.header, r.passed = map[string]string{}, map[string]map[string]int{}
	var e *entity
	ended := false
	for {
		g, ok := r.lines.group(&r.out)
		if !ok {
			break
		}
		if g.code == 999 { // a remark
			continue
		}
		if g.code == 0 {
			if e != nil {
				r.entity(*e)
			}
			e = &entity{kind: strings.ToUpper(strings.TrimSpace(g.value)), line: g.line}
			if ended = e.kind == "EOF"; ended || len(r.out) > maxFaults || r.drawn > maxVertices {
				break
			}
			continue
		}
		if e == nil {
			r.tell(dxfGroup, r.lines.at(g.line), strconv.Itoa(g.code))
			break
		}
		if len(e.groups) < 100_000 {
			e.groups = append(e.groups, g)
		}
	}
	switch {
	case r.drawn > maxVertices:
		r.tell(tooMuch, r.lines.at(r.lines.line), maxVertices, "points")
	case !ended && r.out.Stops() == 0:
		r.tell(dxfCut, r.lines.at(r.lines.line), "the drawing")
	}
}

// entity takes one whole entity.
func (r *dxfReader) entity(e entity) {
	switch e.kind {
	case "SECTION":
		r.section = strings.ToUpper(strings.TrimSpace(e.text(2)))
		if r.section == "HEADER" {
			r.variables(e)
		}
		return
	case "ENDSEC":
		r.section = ""
		return
	}
	switch r.section {
	case "BLOCKS", "ENTITIES":
		r.drawing(e)
	}
}

func (r *dxfReader) variables(e entity) {
	name := ""
	for _, g := range e.groups {
		if g.code == 9 {
			name = strings.TrimSpace(g.value)
		} else if name != "" && r.header[name] == "" {
			r.header[name] = strings.TrimSpace(g.value)
		}
	}
}

// into is where entities go at the moment.
func (r *dxfReader) into() *dxfBlock {
	if r.block != nil {
		return r.block
	}
	return &r.loose
}

func (r *dxfReader) drawing(e entity) {
	switch e.kind {
	case "BLOCK":
		r.finish()
		r.block = &dxfBlock{name: strings.TrimSpace(e.text(2)), line: e.line}
	case "ENDBLK":
		r.finish()
		if r.block != nil && !strings.HasPrefix(r.block.name, "*") {
			r.blocks = append(r.blocks, *r.block)
		}
		r.block = nil
	case "POLYLINE":
		r.finish()
		r.open = &e
	case "VERTEX":
		r.drawn++
		if r.open != nil {
			r.vertices = append(r.vertices, e)
		}
	case "SEQEND":
		r.finish()
	case "INSERT":
		if r.block != nil {
			r.tell(dxfNested, r.lines.at(e.line), r.block.name)
			return
		}
		r.inserts = append(r.inserts, e)
	case "TEXT", "MTEXT":
		r.drawn++
		b := r.into()
		b.texts = append(b.texts, e)
	default:
		r.drawn += 1 + len(e.groups)/8
		b := r.into()
		b.shapes = append(b.shapes, dxfShape{entity: e})
	}
}

// finish keeps the polyline whose vertices have been read.
func (r *dxfReader) finish() {
	if r.open != nil {
		b := r.into()
		b.shapes = append(b.shapes, dxfShape{*r.open, r.vertices})
	}
	r.open, r.vertices = nil, nil
}

// measure finds the unit of the file, and refuses blocks inserted at another
// scale.
func (r *dxfReader) measure(whole finding.Place) bool {
	r.styleText()
	text, head := r.unitOfText(), r.unitOfHeader()
	switch {
	case r.unit != "":
	case text != "" && head != "" && text != head:
		r.tell(dxfBothUnit, whole, text, head)
		return false
	case text != "":
		r.unit = text
	case head != "":
		r.unit = head
	default:
		r.tell(dxfUnit, whole)
		return false
	}
	r.scale = unit.Of(1, r.unit).MM()
	sound := true
	for _, e := range r.inserts {
		for _, code := range []int{41, 42, 43} {
			t := e.text(code)
			if t == "" {
				continue
			}
			v, err := strconv.ParseFloat(strings.TrimSpace(t), 64)
			if err != nil || math.Abs(v-1) > 1e-9 && !(code == 43 && v == 0) {
				r.tell(dxfScale, r.lines.at(e.line), shown(e.text(2)), shown(t))
				sound = false
			}
		}
	}
	return sound
}

// styleText reads the text that speaks of the whole style. It lies outside of
// blocks, or, in some files, in each of them.
func (r *dxfReader) styleText() {
	for _, t := range r.loose.texts {
		key, value, _ := strings.Cut(unescaped(t.text(1)), ":")
		switch strings.ToUpper(strings.TrimSpace(key)) {
		case "STYLE NAME":
			r.style.Title = strings.TrimSpace(value)
		case "SAMPLE SIZE":
			r.style.Sample = strings.TrimSpace(value)
		}
	}
}

func (r *dxfReader) unitOfText() unit.Unit {
	words := map[string]unit.Unit{"METRIC": unit.Millimetre, "ENGLISH": unit.Inch}
	for _, b := range append([]dxfBlock{r.loose}, r.blocks...) {
		for _, t := range b.texts {
			key, value, ok := strings.Cut(t.text(1), ":")
			if !ok || strings.ToUpper(strings.TrimSpace(key)) != "UNITS" {
				continue
			}
			if u, ok := words[strings.ToUpper(strings.TrimSpace(value))]; ok {
				return u
			}
		}
	}
	return ""
}

// unitOfHeader reads $INSUNITS (1 inch, 4 mm, 5 cm: DXF reference, release 2000);
// $MEASUREMENT is no unit, only a wish for hatches.
func (r *dxfReader) unitOfHeader() unit.Unit {
	return map[string]unit.Unit{"1": unit.Inch, "4": unit.Millimetre, "5": unit.Centimetre, "6": unit.Metre}[r.header["$INSUNITS"]]
}

// number reads a coordinate in the file's unit, as mm.
func (r *dxfReader) number(e entity, code int) (float64, bool) {
	for _, g := range e.groups {
		if g.code == code {
			return r.value(g, e.kind)
		}
	}
	return 0, true // DXF leaves out what is zero
}

func (r *dxfReader) value(g group, kind string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(g.value), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.tell(dxfNumber, r.lines.at(g.line), shown(g.value), g.code, kind)
		return 0, false
	}
	v *= r.scale
	if math.Abs(v) > maxCoord {
		r.tell(farOff, r.lines.at(g.line), maxCoord/1000)
		return 0, false
	}
	return v, true
}

// point reads the place in groups 10 and 20, or another pair ten apart.
func (r *dxfReader) point(e entity, x int) (geom.Pt, bool) {
	a, ok1 := r.number(e, x)
	b, ok2 := r.number(e, x+10)
	return geom.Pt{X: a, Y: b}, ok1 && ok2
}

// parts turns blocks into parts.
func (r *dxfReader) parts() {
	blocks := r.blocks
	if !slices.ContainsFunc(blocks, func(b dxfBlock) bool { return b.drawsBoundary() }) {
		blocks = []dxfBlock{r.loose}
	}
	if len(blocks) > maxParts {
		r.tell(tooMuch, r.lines.at(blocks[maxParts].line), maxParts, "pieces")
		return
	}
	seen := map[[2]string]bool{}
	for _, b := range blocks {
		if len(b.shapes) == 0 {
			continue
		}
		p, ok := r.part(b)
		if !ok {
			continue
		}
		k := [2]string{p.Name, p.Size}
		if seen[k] {
			r.tell(dxfTwice, p.Place, p.Name, p.Size)
			continue
		}
		seen[k] = true
		r.style.Parts = append(r.style.Parts, p)
		if !slices.Contains(r.style.Sizes, p.Size) {
			r.style.Sizes = append(r.style.Sizes, p.Size)
		}
	}
	for _, layer := range sortedKeys(r.passed) {
		var what []string
		for _, kind := range sortedKeys(r.passed[layer]) {
			what = append(what, fmt.Sprintf("%d %s", r.passed[layer][kind], strings.ToLower(kind)))
		}
		r.tell(dxfLayer, finding.Place{File: r.lines.file}, shown(layer), strings.Join(what, ", "))
	}
}

func (b dxfBlock) drawsBoundary() bool {
	return slices.ContainsFunc(b.shapes, func(s dxfShape) bool {
		l := s.layer()
		return l == strconv.Itoa(layerBoundary) || l == strconv.Itoa(layerSew)
	})
}
