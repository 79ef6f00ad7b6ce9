package exchange

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/source"
)

// ReadPDF reads the lines drawn in a PDF (ISO 32000-1), at true scale, with the
// layers (optional content) they lie in: sizes by layers called size 12, pieces
// and kinds of line as WritePDF names them, otherwise by closed outlines. Pages
// that show parts of one drawing are laid together where they show the same
// curves, or as tiles say, unless it is zero. Filled shapes, pictures and text
// are passed over; clipping is not heeded.
func ReadPDF(f source.File, tiles Tiles) (Style, finding.List) {
	var out finding.List
	at := finding.Place{File: f.Path}
	switch {
	case len(f.Data) > maxDXF:
		return Style{}, append(out, tooLarge.At(at, maxDXF>>20))
	case len(bytes.TrimSpace(f.Data)) == 0:
		return Style{}, append(out, empty.At(at))
	case !bytes.Contains(f.Data[:min(1024, len(f.Data))], []byte("%PDF-")):
		return Style{}, append(out, pdfNone.At(at))
	}
	file := openPDF(f.Data)
	r := &pdfReader{f: file, place: at, left: maxVertices}
	if file.err == nil {
		r.pages()
	}
	if file.err == nil && len(r.drawn) == 0 {
		file.fail(pdfNoPages)
	}
	if file.err != nil {
		return Style{}, append(out, file.err.kind.At(at, file.err.args...))
	}
	if r.filled > 0 {
		out = append(out, pdfFilled.At(at, r.filled))
	}
	if r.pictures > 0 {
		out = append(out, pdfPicture.At(at, r.pictures))
	}
	var strokes []stroke
	var told finding.List
	if tiles.Columns > 0 {
		strokes, told = tiles.lay(r.drawn, r.sizes, at)
		if told.Stops() > 0 {
			return Style{}, append(out, told...)
		}
	} else {
		strokes, told = joinPages(r.drawn, at)
	}
	style, found := assemble(f.Path, strokes)
	style.Title = file.text(file.dict(r.info())["Title"])
	return style, append(append(out, told...), found...)
}

func (r *pdfReader) info() any {
	i := bytes.LastIndex(r.f.data, []byte("/Info"))
	if i < 0 {
		return nil
	}
	l := &pdfLexer{data: r.f.data, pos: i + len("/Info"), left: &r.f.left}
	a, _ := l.next(0)
	b, _ := l.next(0)
	n, ok1 := a.(float64)
	_, ok2 := b.(float64)
	if !ok1 || !ok2 {
		return nil
	}
	return pdfRef{number: int(n)}
}

// pdfReader draws the pages.
type pdfReader struct {
	f                *pdfFile
	place            finding.Place
	drawn            [][]stroke   // by page
	sizes            [][2]float64 // of the pages, in mm
	left             int          // segments
	forms            int
	filled, pictures int
}

// page is what a page takes over from the nodes above it.
type pdfPage struct {
	resources any
	box       any
	rotate    float64
}

func (r *pdfReader) pages() {
	root := r.f.dict(r.f.trailer["Root"])
	r.node(root["Pages"], pdfPage{}, map[int]bool{}, 0)
}

func (r *pdfReader) node(v any, above pdfPage, seen map[int]bool, depth int) {
	if ref, ok := v.(pdfRef); ok {
		if seen[ref.number] {
			r.f.fail(pdfRing)
			return
		}
		seen[ref.number] = true
	}
	d := r.f.dict(v)
	if d == nil || r.f.err != nil || depth > maxPDFDepth {
		return
	}
	if d["Resources"] != nil {
		above.resources = d["Resources"]
	}
	if d["MediaBox"] != nil {
		above.box = d["MediaBox"]
	}
	if d["Rotate"] != nil {
		above.rotate = r.f.number(d["Rotate"])
	}
	if kids := r.f.array(d["Kids"]); kids != nil {
		for _, k := range kids {
			r.node(k, above, seen, depth+1)
		}
		return
	}
	if len(r.drawn) >= maxPDFPages {
		r.f.fail(tooMuch, maxPDFPages, "pages")
		return
	}
	r.page(d, above)
}

// page draws one page, in mm from the lower left corner of what is shown
// upright.
func (r *pdfReader) page(d pdfDict, p pdfPage) {
	box, ok := r.f.numbers(p.box, 4)
	if !ok {
		box = []float64{0, 0, 612, 792}
	}
	unit := 25.4 / 72
	if u := r.f.number(d["UserUnit"]); u > 0 && u <= 1000 {
		unit *= u
	}
	m := geom.Shift(geom.Pt{X: -box[0], Y: -box[1]})
	w, h := math.Abs(box[2]-box[0]), math.Abs(box[3]-box[1])
	switch math.Mod(math.Mod(p.rotate, 360)+360, 360) { // clockwise, 7.7.3.3
	case 90:
		m = m.Then(geom.Affine{B: -1, C: 1, F: w})
		w, h = h, w
	case 180:
		m = m.Then(geom.Affine{A: -1, D: -1, E: w, F: h})
	case 270:
		m = m.Then(geom.Affine{B: 1, C: -1, E: h})
		w, h = h, w
	}
	m = m.Then(geom.Affine{A: unit, D: unit})
	c := &pdfContent{r: r, resources: r.f.dict(p.resources), state: pdfState{m: m}}
	var data []byte
	parts := r.f.array(d["Contents"])
	if parts == nil {
		parts = pdfArray{d["Contents"]}
	}
	for _, part := range parts {
		s, ok := r.f.get(part).(pdfStream)
		if !ok {
			continue
		}
		b, err := r.f.decode(s)
		if err != nil {
			return
		}
		data = append(append(data, b...), '\n')
	}
	c.run(data, 0)
	r.drawn = append(r.drawn, c.out)
	r.sizes = append(r.sizes, [2]float64{w * unit, h * unit})
}

func sortedKeys2[V any](m map[int]V) []int { return slices.Sorted(maps.Keys(m)) }

// joinPages lays pages that show parts of one drawing on each other, by the
// curves that two of them show alike. What they have in common at the very same
// place of the page (a frame, a foot line) says nothing.
func joinPages(pages [][]stroke, at finding.Place) ([]stroke, finding.List) {
	var out finding.List
	if len(pages) == 1 {
		return pages[0], nil
	}
	prints := make([]map[string][]int, len(pages))
	for i, p := range pages {
		prints[i] = printsOf(p)
	}
	joined := 0
	var groups [][]stroke // pages laid together
	done := make([]bool, len(pages))
	for i := range pages {
		if done[i] || len(pages[i]) == 0 {
			continue
		}
		moved := map[int]geom.Pt{i: {}}
		done[i] = true
		for queue := []int{i}; len(queue) > 0; queue = queue[1:] {
			a := queue[0]
			for b := range pages {
				if done[b] {
					continue
				}
				if by, ok := shiftBetween(pages[a], pages[b], prints[a], prints[b]); ok {
					moved[b] = moved[a].Add(by)
					done[b] = true
					queue = append(queue, b)
				}
			}
		}
		groups = append(groups, laid(pages, moved))
		if len(moved) > 1 {
			joined += len(moved)
		} else if len(groups) > 1 && len(pages) > 1 {
			out = append(out, pdfApart.At(at, i+1))
		}
	}
	if joined > 0 {
		out = append(slices.Clone(finding.List{pdfJoined.At(at, joined)}), out...)
	}
	// Groups that are not joined are put side by side, so that nothing overlaps.
	var all []stroke
	x := 0.0
	for _, g := range groups {
		lo, hi := boxOfStrokes(g)
		for _, s := range g {
			all = append(all, s.moved(geom.Pt{X: x - lo.X}))
		}
		x += hi.X - lo.X + 100
	}
	return all, out
}

func boxOfStrokes(list []stroke) (lo, hi geom.Pt) {
	var pts []geom.Pt
	for _, s := range list {
		for _, g := range s.curve {
			pts = append(pts, g.P[0], g.P[3])
		}
		if s.curve == nil {
			pts = append(pts, s.p)
		}
	}
	return geom.BoundsOf(pts)
}

func (s stroke) moved(by geom.Pt) stroke {
	m := geom.Shift(by)
	s.curve, s.p = s.curve.Transform(m), m.Apply(s.p)
	if len(s.curve) == 0 {
		s.curve = nil
	}
	return s
}

// mostPrints bounds the strokes of a page by which it is joined, the longest of
// it.
const mostPrints = 120

// printsOf sorts the strokes of a page that can tell pages apart by their kind.
func printsOf(page []stroke) map[string][]int {
	type print struct {
		index  int
		length float64
	}
	var list []print
	for k, s := range page {
		if len(s.curve) == 0 || meaningOf(s).role == noRole {
			continue
		}
		if l := s.curve.Length(); l >= 20 {
			list = append(list, print{k, l})
		}
	}
	slices.SortStableFunc(list, func(a, b print) int { return cmp.Compare(b.length, a.length) })
	out := map[string][]int{}
	for _, p := range list[:min(len(list), mostPrints)] {
		kind := kindOf(page[p.index])
		out[kind] = append(out[kind], p.index)
	}
	return out
}

// kindOf is what strokes of one form must have in common: their layers and the
// kinds of their segments.
func kindOf(s stroke) string { return fmt.Sprint(s.groups, form(s.curve)) }

// sameForm reports whether one curve is the other moved. The pages of a file
// round off differently, by far less than the tolerance.
func sameForm(a, b geom.Curve) bool {
	by := a.Start().Sub(b.Start())
	for i := range a {
		for k := range a[i].P {
			if a[i].P[k].Sub(b[i].P[k]).Dist(by) > joinTol {
				return false
			}
		}
	}
	return true
}

// twin is the only stroke among list that has the form of a curve; -1 when there
// is none, or more than one.
func twin(c geom.Curve, page []stroke, list []int) int {
	found := -1
	for _, k := range list {
		if sameForm(c, page[k].curve) {
			if found >= 0 {
				return -1
			}
			found = k
		}
	}
	return found
}

// shiftBetween is by how much page b must be moved so that what both show lies
// together: the move that most length of curves agrees on.
func shiftBetween(a, b []stroke, pa, pb map[string][]int) (geom.Pt, bool) {
	type vote struct {
		by     geom.Pt
		length float64
	}
	var votes []vote
	for _, kind := range sortedKeys(pa) {
		for _, i := range pa[kind] {
			j := twin(a[i].curve, b, pb[kind])
			if j < 0 || twin(a[i].curve, a, pa[kind]) != i {
				continue
			}
			by := a[i].curve.Start().Sub(b[j].curve.Start())
			if by.Len() < 5 {
				continue
			}
			k := slices.IndexFunc(votes, func(v vote) bool { return v.by.Dist(by) < 0.05 })
			if k < 0 {
				votes = append(votes, vote{by: by})
				k = len(votes) - 1
			}
			votes[k].length += a[i].curve.Length()
		}
	}
	if len(votes) == 0 {
		return geom.Pt{}, false
	}
	slices.SortStableFunc(votes, func(x, y vote) int { return cmp.Compare(y.length, x.length) })
	best := votes[0]
	if best.length < 100 || len(votes) > 1 && votes[1].length > best.length/2 {
		return geom.Pt{}, false
	}
	return best.by, true
}

// laid is the strokes of pages laid together, each once.
func laid(pages [][]stroke, moved map[int]geom.Pt) []stroke {
	var out []stroke
	type cell struct {
		kind string
		x, y int64
	}
	seen := map[cell][]geom.Curve{}
	for _, i := range sortedKeys2(moved) {
		for _, s := range pages[i] {
			s = s.moved(moved[i])
			if len(s.curve) > 0 && len(moved) > 1 {
				p := s.curve.Start()
				c := cell{kindOf(s), int64(math.Floor(p.X)), int64(math.Floor(p.Y))}
				twice := false
				for _, dx := range []int64{-1, 0, 1} {
					for _, dy := range []int64{-1, 0, 1} {
						twice = twice || slices.ContainsFunc(seen[cell{c.kind, c.x + dx, c.y + dy}], func(o geom.Curve) bool {
							return o.Start().Dist(p) <= 2*joinTol && sameForm(o, s.curve)
						})
					}
				}
				if twice {
					continue
				}
				if len(seen[c]) < mostAtOnce {
					seen[c] = append(seen[c], s.curve)
				}
			}
			out = append(out, s)
		}
	}
	return out
}
