package advise

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/docket"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

const (
	slender    = 4    // a band is at least so many times as long as wide
	mostJoints = 3    // places tried on one piece
	nearMiddle = 0.25 // of the length: a joint keeps this far from both ends
	jointSeam  = "plain-open"
)

const jointWarning = "a seam where there was none: press it open, keep it clear of the button and buttonhole, and let both parts run the same way of the cloth"

// piecing joins a waistband or a facing out of two parts: a long band, or any
// piece that does not show, cut singly.
func (c *counsel) piecing() []way {
	if _, ok := c.in.Methods.Find(jointSeam); !ok {
		return nil
	}
	var out []way
	for _, u := range c.base.Garment().View.Uses {
		p := c.base.Garment().Pieces[u.Piece]
		if c.isPart(u.Piece) || u.Copies != pattern.Single || !slices.Contains(u.Cloths, c.lay.Role) {
			continue
		}
		along, long, wide := lengthOf(p)
		if long < slender*wide && !u.Hidden {
			continue
		}
		var w way
		for _, at := range joints(p, along, long) {
			w = append(w, c.joint(p, at))
		}
		out = append(out, w)
	}
	return out
}

// isPart tells whether a part such as belt loops is made of the piece.
func (c *counsel) isPart(name string) bool {
	return slices.ContainsFunc(c.base.Garment().View.Parts, func(p pattern.Part) bool { return p.Piece == name })
}

// lengthOf is a piece's longer direction, along its grain or to the right of
// it, and what it measures that way and across.
func lengthOf(p piece.Piece) (along geom.Pt, long, wide float64) {
	up := geom.Pt{Y: 1}
	if l, ok := p.Line(piece.Grain, ""); ok && len(l.Curve) > 0 {
		if v := l.Curve.End().Sub(l.Curve.Start()).Unit(); v.Len() > 0 {
			up = v.Mul(math.Copysign(1, v.Y))
		}
	}
	right := up.Left().Mul(-1)
	lo, hi := extent(p, up)
	l, r := extent(p, right)
	if r-l > hi-lo {
		return right, r - l, hi - lo
	}
	return up, hi - lo, r - l
}

func extent(p piece.Piece, along geom.Pt) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, q := range p.Outline(0.5) {
		lo, hi = min(lo, q.Dot(along)), max(hi, q.Dot(along))
	}
	return lo, hi
}

// joints are the places where a seam shows least, as distances from the foot:
// the notches, where other seams meet the piece, the nearest to the middle
// first; the middle where there is none.
func joints(p piece.Piece, along geom.Pt, long float64) []float64 {
	foot, _ := extent(p, along)
	var out []float64
	for _, m := range p.Marks {
		if at := math.Round(m.P.Dot(along) - foot); m.Kind == piece.Notch && at > nearMiddle*long && at < (1-nearMiddle)*long && !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	if len(out) == 0 {
		out = []float64{math.Round(long / 2)}
	}
	slices.SortStableFunc(out, func(a, b float64) int { return cmp.Compare(math.Abs(a-long/2), math.Abs(b-long/2)) })
	return out[:min(len(out), mostJoints)]
}

func (c *counsel) joint(p piece.Piece, at float64) edit {
	s := docket.Change{ID: c.free(p.Name + "-joint"), Kind: docket.Divide, Piece: p.Name, Where: c.fine(at), Method: jointSeam}
	return edit{
		step: Step{
			Way: "piecing", Text: fmt.Sprintf("the %s joined out of two parts, %s from its end", strings.ToLower(p.Title), s.Where),
			Warning: jointWarning, File: c.docketFile(), Write: "changes: " + written(s),
		},
		apply: add(s),
	}
}
