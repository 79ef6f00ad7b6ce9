package finish

import (
	"gusset/internal/construct"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// matches finds where the repeat of the cloth meets, for each copy.
func (b *builder) matches(p construct.Plan) {
	b.matched = map[copyKey][]seam.MatchPoint{}
	seams := make([]seam.Seam, len(p.Seams()))
	for i, s := range p.Seams() {
		seams[i] = s.Seam
	}
	points, found := seam.MatchPoints(b.garment, seams, unit.Centimetre)
	for _, f := range found {
		b.add(f)
	}
	for _, m := range points {
		k := copyKey{m.Piece, m.Copy}
		b.matched[k] = append(b.matched[k], m)
	}
}

// matchedOn are the matches of one cut in its own coordinates. A piece on the
// fold is cut as its left half; opened, its right half lies beyond the fold
// line, which is upright at so many micrometres.
func (b *builder) matchedOn(u pattern.Use, c piece.Copy, up geom.Affine, fold int64) []Matched {
	var out []Matched
	for _, m := range b.matched[copyKey{u.Piece, c}] {
		out = append(out, Matched{m.Match, micron(up.Apply(m.P)), m.Along, m.Across, m.Place})
	}
	if u.Copies != pattern.OnFold || u.Folded {
		return out
	}
	for _, m := range b.matched[copyKey{u.Piece, piece.Right}] {
		// The right half is drawn as the mirror image about x = 0.
		at := micron(up.Apply(geom.Pt{X: -m.P.X, Y: m.P.Y}))
		out = append(out, Matched{m.Match, Micron{2*fold - at.X, at.Y}, m.Along, m.Across, m.Place})
	}
	return out
}
