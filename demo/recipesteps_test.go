package demo

import (
	"strings"

	"gusset/internal/docket"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// drawer draws one step of a kind for a garment; false where it has nothing of the
// sort. The amounts are within what the changes' descriptions allow.
type drawer func(r *rapid.T, g pattern.Garment) (docket.Change, bool)

func mm(r *rapid.T, lo, hi float64) unit.Length {
	return unit.MM(rapid.Float64Range(lo, hi).Draw(r, "mm"))
}

func edgeRef(r *rapid.T, g pattern.Garment) string {
	p := g.Pieces[rapid.SampledFrom(g.Order).Draw(r, "piece")]
	return p.Name + ":" + rapid.SampledFrom(p.EdgeNames()).Draw(r, "edge")
}

// longSeam is a join between two pieces that carry the figure.
func longSeam(r *rapid.T, g pattern.Garment) (pattern.Join, bool) {
	var list []pattern.Join
	for _, j := range g.View.Joins {
		if len(j.Sides) == 2 && !j.Sides[0][0].Inside && !j.Sides[1][0].Inside && j.Sides[0][0].Edge != "" && len(levelsOf(g.Pieces[j.Sides[0][0].Piece])) > 0 && len(levelsOf(g.Pieces[j.Sides[1][0].Piece])) > 0 {
			list = append(list, j)
		}
	}
	if len(list) == 0 {
		return pattern.Join{}, false
	}
	return rapid.SampledFrom(list).Draw(r, "seam"), true
}

func levelsOf(p piece.Piece) []string {
	var out []string
	for _, l := range p.Lines {
		if l.Kind == piece.Level {
			out = append(out, l.Name)
		}
	}
	return out
}

func dartsOf(g pattern.Garment) []pattern.Join {
	var out []pattern.Join
	for _, j := range g.View.Joins {
		if len(j.Sides) == 2 && len(j.Sides[0]) == 1 && len(j.Sides[1]) == 1 && j.Sides[0][0].Piece == j.Sides[1][0].Piece && strings.Contains(j.ID, "dart") {
			out = append(out, j)
		}
	}
	return out
}

// aDart draws a dart of the garment.
func aDart(r *rapid.T, g pattern.Garment) (pattern.Join, piece.Piece, bool) {
	list := dartsOf(g)
	if len(list) == 0 {
		return pattern.Join{}, piece.Piece{}, false
	}
	j := rapid.SampledFrom(list).Draw(r, "dart")
	return j, g.Pieces[j.Sides[0][0].Piece], true
}

func spotOn(r *rapid.T, p piece.Piece) docket.Spot {
	e := rapid.SampledFrom(p.Edges).Draw(r, "edge")
	return docket.Spot{Edge: p.Name + ":" + e.Name, Along: unit.MM(rapid.Float64Range(0.15, 0.85).Draw(r, "share") * e.Curve.Length())}
}

var drawers = map[docket.ChangeKind]drawer{
	docket.Lengthen: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		for _, name := range g.Order {
			if l, ok := g.Pieces[name].Line(piece.Lengthen, ""); ok {
				return docket.Change{At: l.Name, By: mm(r, -25, 60)}, true
			}
		}
		return docket.Change{}, false
	},
	docket.MoveHem: func(r *rapid.T, _ pattern.Garment) (docket.Change, bool) {
		return docket.Change{Edge: "hem", By: mm(r, -25, 25)}, true
	},
	docket.HemGirth: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		for _, name := range g.Order {
			if _, ok := g.Pieces[name].Line(piece.Level, "knee"); ok {
				return docket.Change{Edge: "hem", From: "knee", To: mm(r, 400, 520)}, true
			}
		}
		return docket.Change{}, false
	},
	docket.TakeIn: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, ok := longSeam(r, g)
		if !ok {
			return docket.Change{}, false
		}
		levels := levelsOf(g.Pieces[j.Sides[0][0].Piece])
		return docket.Change{Item: j.ID, By: mm(r, -8, 8), At: rapid.SampledFrom(levels).Draw(r, "level")}, true
	},
	docket.RaiseEdge: func(r *rapid.T, _ pattern.Garment) (docket.Change, bool) {
		return docket.Change{Edge: "waist", By: mm(r, -8, 8)}, true
	},
	docket.PivotDart: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, p, ok := aDart(r, g)
		if !ok {
			return docket.Change{}, false
		}
		return docket.Change{Item: j.ID, Spot: spotOn(r, p)}, true
	},
	docket.MoveDart: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, p, ok := aDart(r, g)
		if !ok {
			return docket.Change{}, false
		}
		i, k := p.Index(j.Sides[0][0].Edge), p.Index(j.Sides[1][0].Edge)
		towards := p.Before(min(i, k)).Name
		if rapid.Bool().Draw(r, "after") {
			towards = p.After(max(i, k)).Name
		}
		return docket.Change{Item: j.ID, By: mm(r, 3, 20), Edge: towards}, true
	},
	docket.DartLength: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, _, ok := aDart(r, g)
		return docket.Change{Item: j.ID, By: mm(r, -20, 20)}, ok
	},
	docket.DivideDart: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, p, ok := aDart(r, g)
		if !ok {
			return docket.Change{}, false
		}
		return docket.Change{Item: j.ID, Spot: spotOn(r, p), Share: rapid.Float64Range(0.3, 0.7).Draw(r, "share")}, true
	},
	docket.MergeDarts: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		list := dartsOf(g)
		if len(list) < 2 {
			return docket.Change{}, false
		}
		return docket.Change{Item: rapid.SampledFrom(list).Draw(r, "keep").ID, Other: rapid.SampledFrom(list).Draw(r, "close").ID}, true
	},
	docket.GatherDart: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, _, ok := aDart(r, g)
		return docket.Change{Item: j.ID, Method: "gathers"}, ok
	},
	docket.Spread: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		p := g.Pieces[rapid.SampledFrom(g.Order).Draw(r, "piece")]
		c := docket.Change{Hinge: spotOn(r, p), By: mm(r, -15, 40), Even: rapid.Bool().Draw(r, "even")}
		if p.Index("hem") < 0 {
			return c, false
		}
		c.Spot = docket.Spot{Edge: p.Name + ":hem", At: "middle"}
		return c, true
	},
	docket.AddPleat: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		p := g.Pieces[rapid.SampledFrom(g.Order).Draw(r, "piece")]
		c := docket.Change{Spot: spotOn(r, p), By: mm(r, 10, 40), Method: "pleat"}
		if p.Index("hem") < 0 {
			return c, false
		}
		c.Hinge = docket.Spot{Edge: p.Name + ":hem", At: "middle"}
		return c, true
	},
	docket.SetAllowance: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		return docket.Change{Edge: edgeRef(r, g), To: mm(r, 5, 30)}, true
	},
	docket.FoldToSeam: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		for _, u := range g.View.Uses {
			if u.Copies == pattern.OnFold && !u.Folded {
				return docket.Change{Piece: u.Piece, To: mm(r, 10, 20), Method: "plain-open"}, true
			}
		}
		return docket.Change{}, false
	},
	docket.RunOn: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		j, ok := longSeam(r, g)
		return docket.Change{Item: j.ID, By: mm(r, 20, 60)}, ok
	},
	docket.SmoothEdge: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		return docket.Change{Edge: edgeRef(r, g)}, true
	},
	docket.Divide: func(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
		if _, ok := g.Pieces["band"]; !ok {
			return docket.Change{}, false
		}
		return docket.Change{Piece: "band", Where: mm(r, 60, 500), Method: "plain-open"}, true
	},
}

// topChanges are those that only tops have places for.
var topChanges = []docket.Change{
	{Kind: docket.ShoulderSlope, Item: "shoulder", Edge: "armhole"},
	{Kind: docket.ShoulderWidth, Item: "shoulder", Edge: "armhole"},
	{Kind: docket.ArmholeDepth, Item: "shoulder", Edge: "armhole"},
	{Kind: docket.RoundBack, At: "blade", Edge: "armhole"},
	{Kind: docket.UpperArm, At: "upper-arm"},
	{Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), Method: "dart"},
	{Kind: docket.Overlap, Edge: "edge"},
}

// figureChanges are those that only trousers have places for.
var figureChanges = []docket.Change{
	{Kind: docket.CrotchDepth, At: "hip"},
	{Kind: docket.CrotchLength, Item: "fork", From: "knee"},
	{Kind: docket.FullSeat, Item: "seat", At: "hip"},
	{Kind: docket.HollowBack, Item: "seat", At: "waist"},
}

// aStep draws one step.
func aStep(r *rapid.T, g pattern.Garment) (docket.Change, bool) {
	if _, trousers := g.Pieces["shield"]; trousers && rapid.IntRange(0, 4).Draw(r, "figure") == 0 {
		c := rapid.SampledFrom(figureChanges).Draw(r, "change")
		c.By = mm(r, -12, 12)
		return c, true
	}
	if _, top := g.Pieces["sleeve"]; top && rapid.IntRange(0, 2).Draw(r, "top") == 0 {
		c := rapid.SampledFrom(topChanges).Draw(r, "change")
		c.By = mm(r, -10, 10)
		return c, true
	}
	var kinds []docket.ChangeKind
	for _, k := range docket.ChangeKinds {
		if drawers[k] != nil {
			kinds = append(kinds, k)
		}
	}
	k := rapid.SampledFrom(kinds).Draw(r, "kind")
	c, ok := drawers[k](r, g)
	c.Kind = k
	return c, ok
}
