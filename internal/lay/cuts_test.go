package lay_test

import (
	"fmt"
	"math/rand/v2"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// outline takes x, y, x, y, ... in mm.
func outline(v ...float64) []finish.Micron {
	var out []finish.Micron
	for i := 0; i < len(v); i += 2 {
		out = append(out, finish.Micron{X: int64(v[i] * 1000), Y: int64(v[i+1] * 1000)})
	}
	return out
}

func rect(w, h float64) []finish.Micron { return outline(0, 0, w, 0, w, h, 0, h) }

func mirror(o []finish.Micron) []finish.Micron {
	out := make([]finish.Micron, len(o))
	for i, p := range o {
		out[len(o)-1-i] = finish.Micron{X: -p.X, Y: p.Y}
	}
	return out
}

func single(id string, o []finish.Micron) finish.Cut {
	return finish.Cut{ID: id, Piece: id, Copy: piece.Single, Cloth: cloth.Main, Outline: o}
}

func pair(name string, o []finish.Micron) []finish.Cut {
	l, r := name+"@left", name+"@right"
	return []finish.Cut{
		{ID: l, Piece: name, Copy: piece.Left, Cloth: cloth.Main, Outline: o, Pair: r},
		{ID: r, Piece: name, Copy: piece.Right, Cloth: cloth.Main, Outline: mirror(o), Pair: l},
	}
}

// half is a half piece w wide from its fold line at x = at; on the left of it
// when w is below zero.
func half(id string, at, w, h float64) finish.Cut {
	o := outline(at, 0, at+w, 0, at+w, h-20, at, h)
	if w < 0 {
		o = outline(at, h, at+w, h-20, at+w, 0, at, 0)
	}
	c := single(id, o)
	c.OnFold, c.Fold = true, [2]finish.Micron{{X: int64(at * 1000)}, {X: int64(at * 1000), Y: int64(h * 1000)}}
	return c
}

// trousers are cuts of about the shapes of a pair of trousers.
func trousers(rng *rand.Rand) []finish.Cut {
	v := func(x float64) float64 { return x * (0.9 + 0.2*rng.Float64()) }
	leg := func(l, thigh, hem, fork float64) []finish.Micron {
		l, thigh, hem, fork = v(l), v(thigh), v(hem), v(fork)
		return outline(
			-hem/2, 0, hem/2, 0, hem/2+8, 0.4*l, thigh/2-15, 0.65*l, thigh/2, 0.72*l,
			thigh/2-0.6*fork, 0.76*l, thigh/2-fork, 0.83*l, thigh/2-fork-15, l,
			-thigh/2+40, l-10, -thigh/2+6, 0.85*l, -thigh/2, 0.74*l, -hem/2-8, 0.4*l)
	}
	cuts := pair("front", leg(1050, 310, 230, 60))
	cuts = append(cuts, pair("back", leg(1060, 380, 250, 110))...)
	cuts = append(cuts, pair("yoke", outline(0, 0, v(200), 10, v(205), 70, 0, v(90)))...)
	cuts = append(cuts, pair("pocket", outline(0, 0, v(150), 0, v(165), 180, 80, v(195), 0, 180))...)
	cuts = append(cuts, half("shield", 5, v(45), v(210)), half("apron", -3, -v(150), v(420)))
	cuts = append(cuts, single("waistband", rect(v(95), v(880))))
	for k := range 5 {
		cuts = append(cuts, single(fmt.Sprintf("loops#%d", k+1), rect(v(32), v(90))))
	}
	return cuts
}

func drill(d cloth.Direction) cloth.Cloth {
	return cloth.Cloth{
		Name: "drill", Title: "rust drill", Width: unit.MM(1480), Selvedge: unit.MM(10), Length: unit.MM(9000),
		Direction: d, Washed: true,
	}
}

func pt(m finish.Micron) geom.Pt { return geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000} }
