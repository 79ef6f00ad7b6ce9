package exchange

import (
	"slices"

	"gusset/internal/finding"
	"gusset/internal/geom"
)

// Tiles says how the pages of a file lie together whose drawing was cut at the
// borders of the sheets, so that no line is there twice: row by row from the top
// left, each with a window in the middle of the page.
type Tiles struct {
	Columns, Rows int
	Width, Height float64 // of the window, in mm
}

// borderTol is how far lines that were cut at a border may lie apart there, in mm:
// what printing programs round off.
const borderTol = 0.3

// lay puts the windows of pages side by side.
func (t Tiles) lay(pages [][]stroke, sizes [][2]float64, at finding.Place) ([]stroke, finding.List) {
	if len(pages) != t.Columns*t.Rows {
		return nil, finding.List{pdfTiles.At(at, t.Columns, t.Rows, len(pages))}
	}
	var all []stroke
	for i, page := range pages {
		lo := geom.Pt{X: (sizes[i][0] - t.Width) / 2, Y: (sizes[i][1] - t.Height) / 2}
		hi := lo.Add(geom.Pt{X: t.Width, Y: t.Height})
		by := geom.Pt{X: float64(i%t.Columns) * t.Width, Y: float64(t.Rows-1-i/t.Columns) * t.Height}.Sub(lo)
		for _, s := range page {
			if s.curve == nil {
				if s.p.X >= lo.X && s.p.X <= hi.X && s.p.Y >= lo.Y && s.p.Y <= hi.Y {
					all = append(all, s.moved(by))
				}
				continue
			}
			for _, c := range clipped(s.curve, lo, hi) {
				part := s
				part.curve = c
				all = append(all, part.moved(by))
			}
		}
	}
	t.sew(all)
	return all, nil
}

// clipped is the parts of a curve inside a box.
func clipped(c geom.Curve, lo, hi geom.Pt) []geom.Curve {
	a, b := geom.BoundsOf(controls(c))
	if a.X >= lo.X && a.Y >= lo.Y && b.X <= hi.X && b.Y <= hi.Y {
		return []geom.Curve{c}
	}
	if b.X < lo.X || b.Y < lo.Y || a.X > hi.X || a.Y > hi.Y {
		return nil
	}
	border := geom.Polyline(lo, geom.Pt{X: hi.X, Y: lo.Y}, hi, geom.Pt{X: lo.X, Y: hi.Y}, lo)
	cuts := []float64{0, c.Length()}
	for _, x := range geom.Crossings(c, border) {
		cuts = append(cuts, x.A)
	}
	slices.Sort(cuts)
	var out []geom.Curve
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] < 1e-3 {
			continue
		}
		m := c.At((cuts[i] + cuts[i-1]) / 2)
		if m.X >= lo.X && m.X <= hi.X && m.Y >= lo.Y && m.Y <= hi.Y {
			out = append(out, c.Between(cuts[i-1], cuts[i]))
		}
	}
	return out
}

// sew lets ends that meet across a border, nearly, meet there.
func (t Tiles) sew(all []stroke) {
	onBorder := func(p geom.Pt) bool {
		for k := 1; k < t.Columns; k++ {
			if d := p.X - float64(k)*t.Width; d < borderTol && d > -borderTol {
				return true
			}
		}
		for k := 1; k < t.Rows; k++ {
			if d := p.Y - float64(k)*t.Height; d < borderTol && d > -borderTol {
				return true
			}
		}
		return false
	}
	near := newGrid(borderTol)
	for i, s := range all {
		if len(s.curve) == 0 || s.curve.Start().Dist(s.curve.End()) <= joinTol {
			continue
		}
		for _, e := range []end{{i, false}, {i, true}} {
			p := s.endOf(e)
			if !onBorder(p) {
				continue
			}
			for _, o := range near.at(p) {
				other := all[o.curve]
				if o.curve == i || kindOfLayer(other) != kindOfLayer(s) {
					continue
				}
				all[i].curve = movedEnd(all[i].curve, e.last, other.endOf(o))
				break
			}
			near.add(all[i].endOf(e), e)
		}
	}
}

func kindOfLayer(s stroke) string {
	if len(s.groups) == 0 {
		return ""
	}
	return s.groups[len(s.groups)-1]
}

func (s stroke) endOf(e end) geom.Pt {
	if e.last {
		return s.curve.End()
	}
	return s.curve.Start()
}

func movedEnd(c geom.Curve, last bool, p geom.Pt) geom.Curve {
	if last {
		return endingAt(c, p)
	}
	return startingAt(c, p)
}
