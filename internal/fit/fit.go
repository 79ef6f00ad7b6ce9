package fit

import (
	"math"
	"strings"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// Fit sizes one view of a pattern for a body. Where the choice of size stops
// (the body is outside the printed range, a size is not on the pattern), the
// result holds the zones that could be sized and no pieces.
func Fit(p pattern.Pattern, view string, b body.Body, c Choice) (Sized, finding.List) {
	v, ok := p.View(view)
	if !ok {
		return Sized{}, finding.List{viewUnknown.At(p.Place, view, strings.Join(p.ViewNames(), ", "))}
	}
	r, out := choose(p, b, c)
	s := Sized{zones: r.zones}
	pieces, order, fs := readyPieces(p, v)
	out = append(out, fs...)
	if out.Stops() > 0 {
		return s, out
	}
	js := joints(v, pieces)
	spread(v, pieces, order, js, r.fieldZones(), r.overall)
	f := map[string]*fitted{}
	for _, name := range order {
		f[name] = fitPiece(pieces[name], lengthwise{r.length, r.hasLen && !pieces[name].lies(js)})
	}
	u := c.Unit
	if !u.Valid() {
		u = p.Chart.Unit
	}
	out = append(out, trueJoins(js, f, order)...)
	s.garment = pattern.Garment{View: v, Pieces: map[string]piece.Piece{}, Order: order}
	s.nearest = p.Sizes[r.nearest]
	for _, name := range order {
		s.garment.Pieces[name] = f[name].piece()
		s.printed = append(s.printed, p.Pieces[name].In[r.nearest].Clone())
	}
	var easing finding.List
	s.ease, easing = easeTable(s.garment, p.Zones, b, u)
	out = append(out, compareFinished(p, v, r.nearest, u)...)
	return s, append(out, easing...)
}

// fieldZones returns the sizes at the zones; empty when they are all the same,
// since the field is then constant and needs no levels.
func (r chosen) fieldZones() map[string]float64 {
	for _, z := range r.zones {
		if math.Abs(z.At-r.overall) > 1e-12 {
			return r.at
		}
	}
	return nil
}

// readyPieces prepares the view's pieces; one not drawn alike in every size is
// reported and left out.
func readyPieces(p pattern.Pattern, v pattern.View) (map[string]*drawn, []string, finding.List) {
	pieces := map[string]*drawn{}
	var order []string
	var out finding.List
	for _, u := range v.Uses {
		g, ok := p.Pieces[u.Piece]
		if !ok || pieces[u.Piece] != nil {
			continue
		}
		if err := alike(g, len(p.Sizes)); err != nil {
			out = append(out, structureDiffers.At(g.Place, g.Name, err.Error()))
			continue
		}
		pieces[u.Piece] = ready(g, u)
		order = append(order, u.Piece)
	}
	return pieces, order, out
}
