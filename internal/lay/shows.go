package lay

import (
	"slices"

	"gusset/internal/geom"
)

// Flawed lists what no piece may lie on within a section, as it shows there: in
// the lay's coordinates, once for each layer, counter-clockwise. It may reach
// beyond the section.
func (l Lay) Flawed(section int) [][]geom.Pt {
	s := l.Sections[section]
	var out [][]geom.Pt
	for _, h := range hazards(l.Cloth) {
		for _, ring := range s.shows(h, l.Cloth.UsableWidth()) {
			if lo, hi := geom.BoundsOf(ring); lo.X < s.To && hi.X > s.From && lo.Y < s.Width && hi.Y > 0 {
				out = append(out, ring)
			}
		}
	}
	return out
}

// shows folds an outline on the flat cloth with the section, once for each
// layer.
func (s Section) shows(flat []geom.Pt, width float64) [][]geom.Pt {
	put := func(f func(p geom.Pt) geom.Pt) []geom.Pt {
		out := make([]geom.Pt, len(flat))
		for i, p := range flat {
			out[i] = f(p)
		}
		if geom.Area(out) < 0 {
			slices.Reverse(out)
		}
		return out
	}
	below := put(func(p geom.Pt) geom.Pt { return geom.Pt{X: p.X, Y: p.Y - s.Depth} })
	switch s.Fold {
	case Along:
		return [][]geom.Pt{below, put(func(p geom.Pt) geom.Pt { return geom.Pt{X: p.X, Y: s.Depth - p.Y} })}
	case Across:
		return [][]geom.Pt{below, put(func(p geom.Pt) geom.Pt { return geom.Pt{X: 2*s.To - p.X, Y: p.Y} })}
	case Swung:
		return [][]geom.Pt{below, put(func(p geom.Pt) geom.Pt { return geom.Pt{X: p.X - s.To + s.From, Y: width - p.Y} })}
	}
	return [][]geom.Pt{below}
}
