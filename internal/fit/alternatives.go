package fit

import (
	"math"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Alternative is one way of taking the pattern's sizes for a body, with the ease
// that it leaves at every level.
type Alternative struct {
	Name string // "docket", "blend", "14 nearest", "12 smaller", "16 larger"
	Ease []Ease // from the top down
}

// Alternatives returns, side by side, what the view's ease would be in the
// choice's own sizes, in the blend that the chart asks for, and in the printed
// size nearest to the body with its two neighbours. Ways that come to the same
// are told once. What cannot be sized is left out: for a body outside the chart
// the printed sizes remain.
func Alternatives(p pattern.Pattern, view string, b body.Body, c Choice) []Alternative {
	v, ok := p.View(view)
	if !ok || len(p.Sizes) == 0 {
		return nil
	}
	blend := Choice{Unit: c.Unit}
	chosen, _ := choose(p, b, c)
	blended, _ := choose(p, b, blend)
	near := nearestTo(p, b, blended)
	var out []Alternative
	if c.set() {
		out = append(out, sized(p, view, b, c, chosen, near, "docket")...)
	}
	if !c.set() || !sameZones(chosen, blended) {
		out = append(out, sized(p, view, b, blend, blended, near, "blend")...)
	}
	for _, w := range []struct {
		i    int
		word string
	}{{near - 1, " smaller"}, {near, " nearest"}, {near + 1, " larger"}} {
		if w.i < 0 || w.i >= len(p.Sizes) {
			continue
		}
		table, _ := easeTable(printed(p, v, w.i), p.Zones, b, p.Chart.Unit)
		out = append(out, Alternative{Name: p.Sizes[w.i] + w.word, Ease: table})
	}
	return out
}

// set reports whether the maker asks for a size anywhere.
func (c Choice) set() bool {
	for _, text := range c.Zones {
		if text != "" && text != auto {
			return true
		}
	}
	return c.All != "" && c.All != auto
}

// sized is the alternative of a choice; none where it comes to the printed size
// nearest to the body or a neighbour of it all over, which is told as such, or
// where the body cannot be sized.
func sized(p pattern.Pattern, view string, b body.Body, c Choice, r chosen, near int, name string) []Alternative {
	i := math.Round(r.overall)
	if r.fieldZones() == nil && !r.hasLen && r.overall == i && math.Abs(i-float64(near)) <= 1 {
		return nil
	}
	s, found := Fit(p, view, b, c)
	if found.Stops() > 0 {
		return nil
	}
	return []Alternative{{Name: name, Ease: s.Ease()}}
}

func sameZones(a, b chosen) bool {
	if len(a.zones) != len(b.zones) || a.hasLen != b.hasLen || a.length != b.length {
		return false
	}
	for i, z := range a.zones {
		if z.At != b.zones[i].At {
			return false
		}
	}
	return true
}

// nearestTo is the printed size nearest to a body by the measure that the
// pattern is chosen by: the one chosen, or for a body outside the chart the end
// that it lies nearest to.
func nearestTo(p pattern.Pattern, b body.Body, c chosen) int {
	if c.sized {
		return c.nearest
	}
	k := &chooser{p: p, b: b, u: p.Chart.Unit}
	m := p.Choose
	if k.byHighBust(m) {
		m = body.HighBust
	}
	r, charted := k.row(m)
	if mm, has := b.MM(m); charted && has {
		return r.nearest(mm)
	}
	return len(p.Sizes) / 2
}

// printed is a view's garment in one printed size, as the paper has it.
func printed(p pattern.Pattern, v pattern.View, size int) pattern.Garment {
	g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
	for _, u := range v.Uses {
		graded, ok := p.Pieces[u.Piece]
		if _, there := g.Pieces[u.Piece]; !ok || there || size >= len(graded.In) {
			continue
		}
		g.Pieces[u.Piece] = graded.In[size]
		g.Order = append(g.Order, u.Piece)
	}
	return g
}

// finishedSlack is how far a printed finished measure may be from what the
// pieces measure, in mm: half of the quarter inch that papers round to, on
// either side (common practice).
const finishedSlack = 6.0

// compareFinished holds the finished measures that the paper prints against the
// pieces of the size nearest to the body.
func compareFinished(p pattern.Pattern, v pattern.View, size int, u unit.Unit) finding.List {
	var out finding.List
	g := printed(p, v, size)
	for _, z := range p.Zones {
		row := p.Chart.Finished[z.Measure]
		if z.Measure == "" || size >= len(row) || row[size].IsZero() {
			continue
		}
		for _, girth := range v.Girths {
			if girth.Zone != z.Name {
				continue
			}
			mm, err := Girth(g, girth)
			if err != nil { // told with the ease
				continue
			}
			off, word := mm-row[size].MM(), "more"
			if off < 0 {
				off, word = -off, "less"
			}
			if off > finishedSlack {
				out = append(out, finishedDiffers.At(girth.Place, z.Name, p.Sizes[size], unit.Format(row[size].MM(), u),
					unit.Format(mm, u), unit.Format(off, u), word))
			}
		}
	}
	return out
}
