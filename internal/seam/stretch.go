package seam

import (
	"fmt"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// Stretch is part of an edge or inside line of one copy. From and To are mm
// along the copy's own edge (as Garment.Copy returns it), From < To; Forward
// says that the seam walks it that way.
type Stretch struct {
	Piece    string
	Copy     piece.Copy
	Edge     string
	Inside   bool
	From, To float64
	Forward  bool
	// Curve is the stretch in walking order, in the copy's coordinates.
	Curve geom.Curve
}

// Length is the length of the stretch in mm.
func (s Stretch) Length() float64 { return s.To - s.From }

// Along turns a distance walked from the stretch's beginning into a distance
// along the copy's edge.
func (s Stretch) Along(walked float64) float64 {
	if s.Forward {
		return s.From + walked
	}
	return s.To - walked
}

// Walked is the inverse of Along.
func (s Stretch) Walked(along float64) float64 {
	if s.Forward {
		return along - s.From
	}
	return s.To - along
}

// Place names the stretch's edge, for findings.
func (s Stretch) Place() finding.Place {
	return finding.Place{}.OnPiece(s.Piece, string(s.Copy), s.Edge)
}

// ResolveRef finds what a reference means on one copy: the stretch, walked
// with the copy's counter-clockwise outline, or against it when against is
// set. A reference's own "reversed" turns it once more. Inside lines are
// walked as they are drawn whatever against says, on both hands: the line and
// its mirror image begin at the same end.
func ResolveRef(g pattern.Garment, r piece.Ref, c piece.Copy, against bool) (Stretch, error) {
	p, ok := g.Copy(r.Piece, c)
	if !ok {
		return Stretch{}, fmt.Errorf("this view has no piece %q", r.Piece)
	}
	s := Stretch{Piece: r.Piece, Copy: c, Edge: r.Edge, Inside: r.Inside, Forward: !against != r.Reversed}
	if r.Inside {
		return resolveInside(p, r, s)
	}
	e, ok := p.Edge(r.Edge)
	if !ok {
		return Stretch{}, fmt.Errorf("%s has no edge %q", r.Piece, r.Edge)
	}
	s.To = e.Curve.Length()
	if r.From != "" {
		a, err := p.Corner(r.Edge, r.From)
		if err != nil {
			return Stretch{}, err
		}
		b, err := p.Corner(r.Edge, r.To)
		if err != nil {
			return Stretch{}, err
		}
		s.From, s.To = min(a, b), max(a, b)
	}
	if s.Length() < 0.01 {
		return Stretch{}, fmt.Errorf("%s has no length", r)
	}
	s.Curve = walking(e.Curve.Between(s.From, s.To), s.Forward)
	return s, nil
}

func resolveInside(p piece.Piece, r piece.Ref, s Stretch) (Stretch, error) {
	l, ok := p.LineNamed(r.Edge)
	if !ok {
		return Stretch{}, fmt.Errorf("%s has no line %q inside", r.Piece, r.Edge)
	}
	if r.From != "" {
		return Stretch{}, fmt.Errorf("%s: a line inside a piece is taken whole", r)
	}
	s.Forward = !r.Reversed
	s.To = l.Curve.Length()
	s.Curve = walking(l.Curve, s.Forward)
	return s, nil
}

func walking(c geom.Curve, forward bool) geom.Curve {
	if forward {
		return c
	}
	return c.Reverse()
}
