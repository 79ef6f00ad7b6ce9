package change

import (
	"fmt"
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// shrinkage draws the pieces larger by what the first wash will take, for cloth
// that is cut unwashed: a length of 1 needs 1/(1-s) (ISO 5077 states s as a
// share of the length before washing). Along the grain of each piece it is the
// warp's share, across it the weft's. What is sewn together then differs by
// what the wash makes good again, and the joins say so as ease.
func shrinkage(j *job) string {
	warp, weft := 1/(1-j.step.Warp), 1/(1-j.step.Weft)
	before := walk(j.g)
	var done int
	for _, name := range j.names() {
		p := j.g.Pieces[name].Clone()
		if u, ok := j.g.Use(p.Name); !ok || !slices.Contains(u.Cloths, j.step.Cloth) {
			continue
		}
		done++
		up := grainOf(p)
		f := stretched(up, warp, weft)
		for i := range p.Edges {
			p.Edges[i].Curve = p.Edges[i].Curve.Transform(f)
			j.mark(&p.Edges[i])
		}
		for i := range p.Lines {
			p.Lines[i].Curve = p.Lines[i].Curve.Transform(f)
		}
		for k := range p.Marks {
			m := &p.Marks[k]
			m.P = f.Apply(m.P)
			if e, ok := p.Edge(m.Edge); ok && m.Kind == piece.Notch {
				m.At, _ = e.Curve.Nearest(m.P)
			}
		}
		j.g.Pieces[name] = p
	}
	if done == 0 {
		j.tell(noClothPiece, j.step.Cloth)
		return ""
	}
	j.easeShrinkage(before)
	j.tell(cutUnwashed, j.step.Cloth)
	return fmt.Sprintf("drawn for %s cloth that shrinks by %.1f %% along and %.1f %% across", j.step.Cloth, 100*j.step.Warp, 100*j.step.Weft)
}

// stretched is the map that grows along a direction and across it.
func stretched(up geom.Pt, along, across float64) geom.Affine {
	a := up.Angle()
	return geom.Turn(-a, geom.Pt{}).Then(geom.Affine{A: along, D: across}).Then(geom.Turn(a, geom.Pt{}))
}

// easeShrinkage states what the sides of each join now differ by more than
// before as ease: the wash takes it out.
func (j *job) easeShrinkage(before []seam.Report) {
	now := walk(j.g)
	v := &j.g.View
	for i, r := range now {
		if i >= len(before) || r.Seam.ID != before[i].Seam.ID || r.Seam.Copy == piece.Right {
			continue
		}
		k := slices.IndexFunc(v.Joins, func(x pattern.Join) bool { return x.ID == r.Seam.Join })
		for side := 1; side < len(r.Gaps); side++ {
			grown := r.Gaps[side] - before[i].Gaps[side]
			if math.Abs(grown) < trueFrom {
				continue
			}
			ease := slices.Clone(v.Joins[k].Ease)
			for len(ease) < side {
				ease = append(ease, unit.MM(0))
			}
			ease[side-1] = unit.MM(ease[side-1].MM() + grown)
			v.Joins[k].Ease = ease
		}
	}
}
