package finish

import (
	"strconv"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// interfacingMargin is how far interfacing is cut beyond the stitching line, in
// mm: enough to be caught, little enough to stay out of the allowance.
const interfacingMargin = 3

// Finish cuts every piece of the plan: once for each copy, each cloth it is cut
// from and each time over. A piece whose cut line cannot be drawn is reported
// and left out.
func Finish(p construct.Plan) (CutSet, finding.List) { return CutSet{}.Again(p) }

type copyKey struct {
	piece string
	copy  piece.Copy
}

// builder holds what cutting one garment needs.
type builder struct {
	garment pattern.Garment
	demands map[copyKey][]construct.Demand
	matched map[copyKey][]seam.MatchPoint
	found   finding.List
	told    map[string]bool // findings already made
}

// builderOf is the builder of a plan, before anything is cut.
func builderOf(p construct.Plan) *builder {
	b := &builder{garment: p.Garment(), demands: map[copyKey][]construct.Demand{}, told: map[string]bool{}}
	for _, d := range p.Demands() {
		k := copyKey{d.Piece, d.Copy}
		b.demands[k] = append(b.demands[k], d)
	}
	b.matches(p)
	return b
}

// add keeps a finding unless its like has been said of the same place: both
// ends of a hem find the same fault, and so does every cloth of a piece.
func (b *builder) add(f finding.Finding) {
	if key := f.Code() + f.Place.String(); !b.told[key] {
		b.told[key] = true
		b.found = append(b.found, f)
	}
}

// use cuts one piece of the view.
func (b *builder) use(u pattern.Use) []Cut {
	b.checkHalves(u)
	alike := b.alike(u)
	var out []Cut
	for _, role := range u.Cloths {
		copies := b.copies(u, role, alike)
		pair := len(copies) == 2 && mirrored(copies[0].Outline, copies[1].Outline)
		if pair { // to the micrometre, so that both can be cut as one on a fold
			copies[1].Outline = turnedOver(copies[0].Outline)
		}
		for n := 1; n <= max(u.Number, 1); n++ {
			for i, cut := range copies {
				cut.Number = n
				cut.ID = numbered(cut.ID, n)
				if pair {
					cut.Pair = numbered(copies[1-i].ID, n)
				}
				out = append(out, cut)
			}
		}
	}
	return out
}

// copies cuts the copies of a piece from one cloth, in the order of the hands. Where
// they are alike the right one is the left turned over; where something was found
// of the left, the right is drawn all the same, so that it is told of both.
func (b *builder) copies(u pattern.Use, role cloth.Role, alike bool) []Cut {
	var out []Cut
	sound := false
	for _, c := range cutCopies(u) {
		if alike && sound {
			out = append(out, b.otherHand(u, out[0]))
			continue
		}
		told := len(b.found)
		cut, ok := b.cut(u, c, role)
		if ok {
			out = append(out, cut)
		}
		sound = ok && len(b.found) == told
	}
	return out
}

func numbered(id string, n int) string {
	if n == 1 {
		return id
	}
	return id + "#" + strconv.Itoa(n)
}

// cutCopies lists the copies that are cut: a piece on the fold is cut as its
// left half.
func cutCopies(u pattern.Use) []piece.Copy {
	if u.Copies == pattern.OnFold {
		return u.CopyList()[:1]
	}
	return u.CopyList()
}

// cut draws one copy on one cloth.
func (b *builder) cut(u pattern.Use, c piece.Copy, role cloth.Role) (Cut, bool) {
	p, ok := b.garment.Copy(u.Piece, c)
	if !ok {
		return Cut{}, false
	}
	up := upright(p)
	p = p.Transform(up)
	demands := turnedLegs(b.demands[copyKey{u.Piece, c}], up)
	if role == cloth.Interfacing {
		demands = interfacing(demands)
	}
	rs, ok := b.runs(p, demands)
	if !ok {
		return Cut{}, false
	}
	o, ok := b.outline(rs)
	if !ok {
		return Cut{}, false
	}
	cut := Cut{
		ID: u.Piece, Piece: u.Piece, Title: p.Title, Copy: c, Cloth: role, Hidden: u.Hidden,
		Sewn: p, Exact: exact(o.loop), Notches: o.notches(p), Turns: o.turns(), Allowances: labels(rs),
	}
	if u.Copies == pattern.Pair {
		cut.ID += "@" + string(c)
	}
	cut.Outline, ok = b.polygon(o.loop, u)
	if ok && u.Copies == pattern.OnFold {
		cut.OnFold = true
		ok = b.fold(&cut, o)
	}
	cut.Matched = b.matchedOn(u, c, up, cut.Fold[0].X)
	return cut, ok
}

// interfacing asks for a narrow margin on every edge but the fold.
func interfacing(demands []construct.Demand) []construct.Demand {
	var out []construct.Demand
	for _, d := range demands {
		if d.Kind != construct.ForFold && d.Kind != construct.ForIntake {
			d.Kind, d.Corner, d.Folds = construct.ForSeam, method.Natural, nil
			d.Width = min(d.Width, interfacingMargin)
			d.Method = "interfacing"
		}
		out = append(out, d)
	}
	return out
}

// upright is the map that turns the grain line straight up.
func upright(p piece.Piece) geom.Affine {
	l, ok := p.Line(piece.Grain, "")
	if !ok || len(l.Curve) == 0 {
		return geom.Identity()
	}
	v := l.Curve.End().Sub(l.Curve.Start())
	if v.Y < 0 {
		v = v.Mul(-1)
	}
	if v.Len() < 1 || v.Y > v.Len()*(1-1e-15) {
		return geom.Identity()
	}
	return geom.Turn(turned(v, geom.Pt{Y: 1}), geom.Pt{})
}

// checkHalves compares the halves of a piece cut on the fold.
func (b *builder) checkHalves(u pattern.Use) {
	if u.Copies != pattern.OnFold || u.Folded {
		return
	}
	left, right := b.demands[copyKey{u.Piece, piece.Left}], b.demands[copyKey{u.Piece, piece.Right}]
	if edge, differ := halvesDiffer(left, right); differ {
		b.add(foldUneven.At(u.Place.OnPiece(u.Piece, "", edge), u.Piece, edge))
	}
}

// halvesDiffer names the first edge that the two halves cut differently. The
// right half runs the other way round.
func halvesDiffer(left, right []construct.Demand) (string, bool) {
	widths := func(list []construct.Demand) map[string]float64 {
		m := map[string]float64{}
		for _, d := range list {
			m[d.Edge] += float64(d.Width * (d.To - d.From))
		}
		return m
	}
	r := widths(right)
	for _, d := range left {
		if w := widths(left)[d.Edge] - r[d.Edge]; w > 0.01 || w < -0.01 {
			return d.Edge, true
		}
	}
	return "", false
}
