package fit

import (
	"fmt"
	"slices"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// easeTable measures the garment at every girth of its view, from the top
// down, and compares it with the body.
func easeTable(g pattern.Garment, zones []pattern.Zone, b body.Body, u unit.Unit) ([]Ease, finding.List) {
	var table []Ease
	var out finding.List
	for _, z := range zones {
		for _, girth := range g.View.Girths {
			if girth.Zone != z.Name {
				continue
			}
			mm, err := Girth(g, girth)
			if err != nil {
				out = append(out, girthUnknown.At(girth.Place, z.Name, err.Error()))
				continue
			}
			e := easeAt(z, mm, b)
			table = append(table, e)
			if e.TooLittle() {
				out = append(out, easeShort.At(girth.Place, z.Name, unit.Format(e.Ease, u), unit.Format(e.Garment, u),
					unit.Format(e.Body, u), unit.Format(e.Minimum-e.Ease, u), unit.Format(e.Minimum, u)).
					Note(finding.Place{}, "minimum from %s", e.Source))
			}
		}
	}
	return table, out
}

func easeAt(z pattern.Zone, garment float64, b body.Body) Ease {
	e := Ease{Zone: z.Name, Garment: garment}
	if z.Measure == "" {
		return e
	}
	if e.Body, e.HasBody = b.MM(z.Measure); e.HasBody {
		e.Ease = garment - e.Body
	}
	if m, ok := minimumFor(z.Measure); ok {
		e.Minimum, e.HasMinimum, e.Source = m.ease.MM(), true, m.source
	}
	return e
}

// Girth measures a garment round, in mm, on the stitching lines: the widths of
// the pieces at a level, or the lengths of edges, less the overlap. It fails
// when a piece, level or edge is not there.
func Girth(g pattern.Garment, girth pattern.Girth) (float64, error) {
	var sum float64
	for _, r := range girth.Pieces {
		w, err := overCopies(g, r, widthAt)
		if err != nil {
			return 0, err
		}
		sum += w
	}
	for _, r := range girth.Edges {
		l, err := overCopies(g, r, edgeLength)
		if err != nil {
			return 0, err
		}
		sum += l
	}
	return sum - girth.Less.MM(), nil
}

// overCopies adds up a measure over the copies a reference means.
func overCopies(g pattern.Garment, r piece.Ref, measure func(piece.Piece, piece.Ref) (float64, error)) (float64, error) {
	use, ok := g.Use(r.Piece)
	if !ok {
		return 0, fmt.Errorf("this view has no piece %s", r.Piece)
	}
	copies := []piece.Copy{r.Copy}
	if r.Copy == piece.Both {
		copies = use.CopyList()
	}
	var sum float64
	for _, c := range copies {
		p, ok := g.Copy(r.Piece, c)
		if !ok {
			return 0, fmt.Errorf("this view has no piece %s", r.Piece)
		}
		v, err := measure(p, r)
		if err != nil {
			return 0, err
		}
		sum += v
	}
	return sum, nil
}

func edgeLength(p piece.Piece, r piece.Ref) (float64, error) {
	i := p.Index(r.Edge)
	if i < 0 {
		return 0, fmt.Errorf("%s has no edge %s", p.Name, r.Edge)
	}
	from, to, ok := span(p, i, p.Edges[i].Curve.Length(), r)
	if !ok {
		return 0, fmt.Errorf("%s cannot be found", r)
	}
	return to - from, nil
}

// widthAt is the width of a piece at its level line: the stretches inside the
// outline that the line touches.
func widthAt(p piece.Piece, r piece.Ref) (float64, error) {
	l, ok := p.Line(piece.Level, r.Edge)
	if !ok || !r.Inside {
		return 0, fmt.Errorf("%s has no level line %s", p.Name, r.Edge)
	}
	lo, hi := l.Curve.Bounds()
	xs := crossings(p.Outline(0.005), (lo.Y+hi.Y)/2)
	var sum float64
	for i := 0; i+1 < len(xs); i += 2 {
		if xs[i+1] > lo.X && xs[i] < hi.X {
			sum += xs[i+1] - xs[i]
		}
	}
	if sum == 0 {
		return 0, fmt.Errorf("level line %s of %s lies outside the piece", r.Edge, p.Name)
	}
	return sum, nil
}

// crossings returns the places where a loop crosses a height, sorted.
func crossings(loop []geom.Pt, y float64) []float64 {
	var xs []float64
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		if (a.Y > y) != (b.Y > y) {
			xs = append(xs, a.Lerp(b, (y-a.Y)/(b.Y-a.Y)).X)
		}
	}
	slices.Sort(xs)
	return xs
}
