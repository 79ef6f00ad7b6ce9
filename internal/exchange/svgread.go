package exchange

import (
	"math"
	"path"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/source"
)

// ReadSVG reads the pieces of a drawing in millimetres. Sizes and pieces are told
// by groups (size-12, and in it one for each piece), as WriteSVG writes them; of
// a drawing without groups every outermost closed outline is a piece.
func ReadSVG(f source.File) (Style, finding.List) {
	svg, found := source.ReadSVG(f)
	if found.Stops() > 0 {
		return Style{}, found
	}
	var strokes []stroke
	for _, e := range svg.Elements {
		s := stroke{id: e.ID, groups: e.Groups, place: e.Place}
		switch e.Kind {
		case "circle":
			s.dot, s.p, s.r = true, geom.Pt{X: e.Center[0], Y: e.Center[1]}, e.R
			if e.R > largestDot {
				s.dot, s.curve = false, arc(s.p, s.p.Add(geom.Pt{X: e.R}), 2*math.Pi, s.p.Add(geom.Pt{X: e.R}))
			}
			strokes = append(strokes, s)
		case "text":
			s.text, s.p = e.Text, geom.Pt{X: e.Center[0], Y: e.Center[1]}
			strokes = append(strokes, s)
		default:
			for _, p := range e.Subpaths {
				s.curve = tidied(curveOf(p))
				if len(s.curve) > 0 {
					strokes = append(strokes, s)
				}
			}
		}
	}
	style, told := assemble(f.Path, strokes)
	name := strings.TrimSuffix(path.Base(f.Path), path.Ext(f.Path))
	for i := range style.Parts {
		if style.Parts[i].Name == "piece-1" && onlyOne(style.Parts) {
			style.Parts[i].Name = slug(name) // a drawing of one piece is called by its file
		}
	}
	return style, append(found, told...)
}

// largestDot is the largest radius of a circle that marks a point, in mm.
const largestDot = 4

func onlyOne(parts []Part) bool {
	for _, p := range parts {
		if p.Name != "piece-1" {
			return false
		}
	}
	return true
}

func curveOf(p source.Path) geom.Curve {
	var c geom.Curve
	for _, s := range p.Segs {
		var g geom.Seg
		for i, q := range s.P {
			g.P[i] = geom.Pt{X: q[0], Y: q[1]}
		}
		if !s.Cubic {
			g = geom.Line(g.P[0], g.P[3])
		}
		c = append(c, g)
	}
	return c
}
