package demo

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gusset/internal/change"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// inSizes calls do with a view of a pattern in every printed size, in one only
// when the tests run short of time.
func inSizes(t *testing.T, docket string, do func(t *testing.T, g pattern.Garment)) {
	t.Helper()
	in := open(t, docket)
	v, _ := in.Pattern.View(in.Docket.View)
	for k, size := range in.Pattern.Sizes {
		if os.Getenv("GUSSET_QUICK") != "" && k != 3 {
			continue
		}
		g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
		for _, u := range v.Uses {
			g.Pieces[u.Piece] = in.Pattern.Pieces[u.Piece].In[k]
			g.Order = append(g.Order, u.Piece)
		}
		t.Run(size, func(t *testing.T) { do(t, g) })
	}
}

// changed makes the steps and fails when one is refused.
func changed(t *testing.T, g pattern.Garment, steps ...docket.Change) pattern.Garment {
	t.Helper()
	for i := range steps {
		if steps[i].ID == "" {
			steps[i].ID = fmt.Sprintf("step-%d", i)
		}
	}
	c, found := change.Apply(g, steps, unit.Millimetre)
	for _, f := range found {
		if f.Severity() == finding.Stop {
			t.Errorf("%s: %s", f.Code(), f.Text())
		}
	}
	return c.Garment()
}

// spot is a place on an edge: "hip", "middle", a corner, or mm from a corner.
func spot(edge string, at any, from ...string) docket.Spot {
	s := docket.Spot{Edge: edge}
	switch v := at.(type) {
	case string:
		s.At = v
	case float64:
		s.Along = unit.MM(v)
	}
	if len(from) > 0 {
		s.From = from[0]
	}
	return s
}

// misfits is how far the sides of each seam miss, in mm.
func misfits(t *testing.T, g pattern.Garment) map[string]float64 {
	t.Helper()
	seams, found := seam.Resolve(g)
	for _, f := range found {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
	w, _ := seam.Walk(g, seams, unit.Millimetre)
	out := map[string]float64{}
	for _, r := range w.Seams() {
		out[r.Seam.ID] = r.Widest()
	}
	return out
}

// sameFit checks that every seam fits as well as before.
func sameFit(t *testing.T, before, after pattern.Garment, within float64) {
	t.Helper()
	was := misfits(t, before)
	for id, now := range misfits(t, after) {
		if now > was[id]+within {
			t.Errorf("%s missed by %.4f mm, now by %.4f", id, was[id], now)
		}
	}
}

// apart is how far two outlines lie from each other at most, by points on both.
func apart(a, b piece.Piece) float64 {
	one := func(from, to piece.Piece) float64 {
		var worst float64
		for _, e := range from.Edges {
			for k := 0; k <= 40; k++ {
				q := e.Curve.At(e.Curve.Length() * float64(k) / 40)
				least := math.Inf(1)
				for _, f := range to.Edges {
					_, off := f.Curve.Nearest(q)
					least = math.Min(least, off)
				}
				worst = math.Max(worst, least)
			}
		}
		return worst
	}
	return math.Max(one(a, b), one(b, a))
}

// long is the length of all parts of an edge of a piece: of side, side-2 and so
// on.
func long(p piece.Piece, edge string) float64 {
	var sum float64
	for _, e := range p.Edges {
		if rest, ok := strings.CutPrefix(e.Name, edge); ok && (rest == "" || strings.Trim(rest, "-0123456789") == "") {
			sum += e.Curve.Length()
		}
	}
	return sum
}

const weir = "dockets/weir-knee.yaml"

// area is a piece's area by the corners of a fine polygon.
func area(p piece.Piece) float64 { return geom.Area(p.Outline(0.002)) }

const flared = "dockets/weir-flared.yaml"
