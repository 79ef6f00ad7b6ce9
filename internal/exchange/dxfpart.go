package exchange

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// sorted is what a block draws, by meaning.
type sorted struct {
	boundary, sew, grain, internal, cutout, mirror []geom.Curve
	turns, notches, drills                         []geom.Pt
	strokes                                        []geom.Curve // notches drawn as lines
	labels                                         []dxfLabel
	arcs                                           bool // some curve is drawn as a curve
}

// dxfLabel is an annotation of ours: EDGE hem, LINE level hip, NOTCH side hip,
// MARK button neck.
type dxfLabel struct {
	what  string
	words []string
	p     geom.Pt
}

// part turns a block into a part; false when it has no sound outline.
func (r *dxfReader) part(b dxfBlock) (Part, bool) {
	p := Part{Name: b.name, Place: finding.Place{File: r.lines.file, Line: b.line}, Faceted: true}
	before := r.out.Stops()
	s := r.sort(b)
	r.texts(b, &p, &s)
	if r.out.Stops() > before {
		return p, false // what is broken has been told
	}
	if n := max(len(s.labels), len(s.internal), len(s.grain), len(s.cutout), len(s.notches)+len(s.strokes), len(s.drills)); n > 4*mostInside {
		r.tell(tooMuch, p.Place, 4*mostInside, "lines, marks or names in one block")
		return p, false
	}
	if p.Name == "" {
		p.Name = "piece"
	}
	p.Place.Piece = p.Name
	cuts := chain(s.boundary)
	sews := chain(s.sew)
	h := hints{turns: s.turns}
	for _, l := range s.labels {
		if l.what == "EDGE" {
			h.starts = append(h.starts, label{l.words[0], l.p})
		}
	}
	if len(cuts.closed) == 0 && len(sews.closed) == 1 {
		cuts, sews = sews, chains{}
	}
	loop, ok := r.oneLoop(p, cuts)
	if !ok {
		return p, false
	}
	p.Cut = split(loop, h, !s.arcs)
	for _, c := range s.strokes {
		s.notches = append(s.notches, nearEndOf(c, loop))
	}
	if len(sews.closed) == 1 && sews.fork == nil {
		p.Sewn = split(counterClockwise(sews.closed[0]), h, !s.arcs)
		sews.closed = nil
	}
	r.inside(&p, s, sews)
	r.marks(&p, s)
	p.Faceted, p.Turns = !s.arcs, s.turns
	return p, true
}

// oneLoop wants one closed outline of some size.
func (r *dxfReader) oneLoop(p Part, c chains) (geom.Curve, bool) {
	return theLoop(p.Name, p.Place, c, r.tell)
}

// theLoop is the one closed outline among chains; what is wrong is told.
func theLoop(name string, place finding.Place, c chains, tell func(finding.Kind, finding.Place, ...any)) (geom.Curve, bool) {
	switch {
	case c.fork != nil:
		tell(forks, place, name, c.fork.X, c.fork.Y)
	case len(c.closed) > 1:
		tell(manyLoops, place, name, len(c.closed))
	case len(c.closed) == 1:
		loop := counterClockwise(c.closed[0])
		if lo, hi := loop.Bounds(); hi.Dist(lo) < smallest || len(loop) < 2 {
			tell(tiny, place, name)
			return nil, false
		}
		return loop, true
	case len(c.open) > 0:
		gap, at := nearestGap(c.open)
		tell(openLoop, place, name, gap, at.X, at.Y)
	default:
		tell(noPieces, place)
	}
	return nil, false
}

// smallest is the least size of a piece, corner to corner, in mm.
const smallest = 8

// nearestGap is the gap at the end of the longest open run.
func nearestGap(open []geom.Curve) (float64, geom.Pt) {
	longest := slices.MaxFunc(open, func(a, b geom.Curve) int { return cmp.Compare(a.Length(), b.Length()) })
	best, at := longest.End().Dist(longest.Start()), longest.End()
	for _, o := range open {
		if &o[0] == &longest[0] {
			continue
		}
		for _, q := range []geom.Pt{o.Start(), o.End()} {
			if d := q.Dist(longest.End()); d < best {
				best = d
			}
		}
	}
	return best, at
}

// sort sorts the shapes of a block by the layers of the standard.
func (r *dxfReader) sort(b dxfBlock) sorted {
	var s sorted
	for _, shape := range b.shapes {
		layer, err := strconv.Atoi(shape.layer())
		if err != nil {
			layer = -1
		}
		var into *[]geom.Curve
		switch layer {
		case layerBoundary:
			into = &s.boundary
		case layerSew:
			into = &s.sew
		case layerGrain:
			into = &s.grain
		case layerInternal:
			into = &s.internal
		case layerCutout:
			into = &s.cutout
			r.tell(dxfCutout, r.lines.at(shape.line), b.name)
		case layerMirror:
			into = &s.mirror
		}
		switch {
		case into != nil:
			if c := r.curve(shape); len(c) > 0 {
				*into = append(*into, c)
				s.arcs = s.arcs || slices.ContainsFunc(c, func(g geom.Seg) bool { return !g.Straight })
			}
		case layer == layerTurn && shape.kind == "POINT":
			if p, ok := r.point(shape.entity, 10); ok {
				s.turns = append(s.turns, p)
			}
		case (layer == layerNotch || layer >= 80 && layer <= 83) && shape.kind == "POINT":
			if p, ok := r.point(shape.entity, 10); ok {
				s.notches = append(s.notches, p)
			}
		case layer == layerNotch || layer >= 80 && layer <= 83:
			if c := r.curve(shape); len(c) > 0 && c.Length() <= longestNotch {
				s.strokes = append(s.strokes, c)
			}
		case layer == layerDrill && (shape.kind == "POINT" || shape.kind == "CIRCLE"):
			if p, ok := r.point(shape.entity, 10); ok {
				s.drills = append(s.drills, p)
			}
		case layer == layerCurve || layer == layerTurn || layer == layerText:
		default:
			if r.passed[shape.layer()] == nil {
				r.passed[shape.layer()] = map[string]int{}
			}
			r.passed[shape.layer()][shape.kind]++
		}
	}
	return s
}

// texts reads what the block says of its piece.
func (r *dxfReader) texts(b dxfBlock, p *Part, s *sorted) {
	for _, t := range b.texts {
		text := strings.TrimSpace(unescaped(t.text(1)))
		if t.layer() == strconv.Itoa(layerText) {
			if l, ok := r.label(t, text); ok {
				s.labels = append(s.labels, l)
				continue
			}
		}
		key, value, ok := strings.Cut(text, ":")
		value = strings.TrimSpace(value)
		switch strings.ToUpper(strings.TrimSpace(key)) {
		case "PIECE NAME":
			p.Name = value
		case "SIZE":
			p.Size = value
		case "QUANTITY":
			left, right, _ := strings.Cut(value, ",")
			p.Left, _ = strconv.Atoi(strings.TrimSpace(left))
			p.Right, _ = strconv.Atoi(strings.TrimSpace(right))
			p.Left, p.Right = min(max(p.Left, 0), 100), min(max(p.Right, 0), 100)
		case "MATERIAL":
			p.Material = value
		case "ANNOTATION":
			if p.Title == "" {
				p.Title = value
			}
		default:
			if !ok && text != "" {
				r.tell(dxfText, r.lines.at(t.line), shown(text))
			}
		}
	}
}

// labelForms are how many words each annotation of ours has, at least.
var labelForms = map[string]int{"EDGE": 1, "LINE": 2, "NOTCH": 1, "MARK": 2}

func (r *dxfReader) label(t entity, text string) (dxfLabel, bool) {
	words := strings.Fields(text)
	if len(words) < 2 || labelForms[words[0]] == 0 || len(words)-1 < labelForms[words[0]] || len(words) > 3 {
		return dxfLabel{}, false
	}
	p, ok := r.point(t, 10)
	return dxfLabel{words[0], words[1:], p}, ok
}

// inside gives the lines inside their kinds and names.
func (r *dxfReader) inside(p *Part, s sorted, sews chains) {
	for _, set := range []struct {
		kind   piece.LineKind
		curves []geom.Curve
	}{
		{piece.Grain, s.grain}, {piece.Stitch, append(sews.open, sews.closed...)},
		{piece.Placement, append(s.internal, s.cutout...)},
	} {
		for i, c := range set.curves {
			l := piece.Line{Kind: set.kind, Name: numbered(string(set.kind), i, len(set.curves)), Curve: c, Place: p.Place}
			for _, n := range s.labels {
				if n.what != "LINE" || !slices.Contains(piece.LineKinds, piece.LineKind(n.words[0])) {
					continue
				}
				if n.p.Dist(c.Start()) <= labelTol || n.p.Dist(c.End()) <= labelTol {
					if n.p.Dist(c.Start()) > labelTol {
						l.Curve = c.Reverse() // chaining may have turned it round
					}
					l.Kind, l.Name = piece.LineKind(n.words[0]), n.words[1]
					break
				}
			}
			p.Lines = append(p.Lines, l)
		}
	}
	if len(s.mirror) > 0 {
		p.Mirror = s.mirror[0]
	}
}

// numbered is a name, with a number where there are several.
func numbered(name string, i, of int) string {
	if of < 2 {
		return name
	}
	return name + "-" + strconv.Itoa(i+1)
}

// marks reads notches and drill holes with the names that annotations give them.
func (r *dxfReader) marks(p *Part, s sorted) {
	left := s.notches
	for _, n := range s.labels {
		if n.what != "NOTCH" || len(n.words) != 2 || len(left) == 0 {
			continue
		}
		// The label lies on the stitching line: it says where the notch is, and the
		// nearest point on the boundary is the same notch.
		i := nearestOf(left, n.p)
		left = slices.Delete(slices.Clone(left), i, i+1)
		p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Edge: n.words[0], Name: n.words[1], P: n.p, Place: p.Place})
	}
	for i, q := range left {
		p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Name: numbered("notch", i, len(left)), P: q, Place: p.Place})
	}
	for i, q := range s.drills {
		m := piece.Mark{Kind: piece.Drill, Name: numbered("drill", i, len(s.drills)), P: q, Place: p.Place}
		for _, n := range s.labels {
			if n.what == "MARK" && n.p.Dist(q) <= labelTol && slices.Contains(piece.MarkKinds, piece.MarkKind(n.words[0])) {
				m.Kind, m.Name = piece.MarkKind(n.words[0]), n.words[1]
				break
			}
		}
		p.Marks = append(p.Marks, m)
	}
}

// nearEndOf is the end of a stroke that lies nearer to an outline.
func nearEndOf(stroke, outline geom.Curve) geom.Pt {
	_, a := outline.Nearest(stroke.Start())
	_, b := outline.Nearest(stroke.End())
	if b < a {
		return stroke.End()
	}
	return stroke.Start()
}

func nearestOf(pts []geom.Pt, q geom.Pt) int {
	best := 0
	for i, p := range pts {
		if p.Dist(q) < pts[best].Dist(q) {
			best = i
		}
	}
	return best
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
