package reach

import (
	"slices"

	"gusset/internal/construct"
)

// often is how many points of each arc are looked at besides its ends, and of
// each line on a face.
const often = 4

// points lists where an operation is looked at: along its sides, or at their
// ends where it does not run along anything. Of two sides that are sewn to each other both
// are looked at, since they may still lie apart.
func (s *surface) points(o construct.Operation) []start {
	var out []start
	for _, side := range along(o) {
		var line []start
		for _, st := range side {
			if st.Inside {
				line = append(line, s.within(st)...)
			} else {
				line = append(line, s.onOutline(st)...)
			}
		}
		if o.On == "none" && len(line) > 2 {
			line = []start{line[0], line[len(line)-1]}
		}
		out = append(out, line...)
	}
	return out
}

// along picks the sides that an operation runs along.
func along(o construct.Operation) [][]construct.Stretch {
	switch {
	case o.On == "a" && len(o.Sides) > 0:
		return o.Sides[:1]
	case o.On == "b" && len(o.Sides) > 1:
		return o.Sides[1:2]
	}
	return o.Sides
}

// within lists points of a line on a face.
func (s *surface) within(st construct.Stretch) []start {
	for f := range s.faces {
		if s.faces[f].copyOf != (copyOf{st.Piece, st.Copy}) {
			continue
		}
		var out []start
		for k := range often + 1 {
			d := float64(k) / often * st.Length()
			out = append(out, start{point{f, st.Curve.At(d)}, -1, st.Curve.TangentAt(d)})
		}
		return out
	}
	return nil
}

// onOutline lists nodes of the arcs of a stretch.
func (s *surface) onOutline(st construct.Stretch) []start {
	var out []start
	for _, w := range s.along([]construct.Stretch{st}) {
		a := s.arcs[w.arc]
		step := max((len(a.nodes)-1)/(often+1), 1)
		var some []start
		last := len(a.nodes) - 1
		for k := 0; k <= last; k = min(k+step, last) {
			n := a.nodes[k]
			some = append(some, start{s.nodes[n].point, n, s.tangent(w.arc, n)})
			if k == last {
				break
			}
		}
		if !w.forward {
			slices.Reverse(some)
		}
		out = append(out, some...)
	}
	return out
}
