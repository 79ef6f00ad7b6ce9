package reach

import (
	"cmp"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/geom"
)

// cover is a ply that comes to lie on a face: a facing or a pocket bag turned in
// along a seam, or a part set on. A line sewn on the face goes through it too
// unless it is held out of the way.
type cover struct {
	over, face int // the face that it lies on, and its own
	// lies carries the ply, as drawn, to where it lies on the face.
	lies geom.Affine
	// holds are the seams that hold it to the rest of the garment, with the places
	// where, as they lie on the face.
	holds []hold
	// least is how many of them must be sewn for it to be held flat: by one seam
	// a ply is turned back, as one turns a page.
	least int
}

type hold struct {
	seam int
	line []geom.Pt
}

// Families of methods that lay one ply on another: the second side turned in
// under the first, and two halves closed on each other.
const (
	turnedIn = "enclosed"
	bagged   = "bag"
)

// covers finds the plies that come to lie on others. What lies on a neighbour of
// the face it is turned in from goes unseen.
func (s *surface) covers() []cover {
	var out []cover
	for i, m := range s.seams {
		switch {
		case m.Method.Family == turnedIn:
			for _, c := range s.joined(i) {
				out = append(out, cover{over: c[0], face: c[1], lies: s.folded(i, c[0], c[1]), least: 2})
			}
		case len(m.Sides) > 1 && !edges(m):
			out = append(out, s.setOn(i)...)
		}
	}
	out = append(out, s.bags(out)...)
	for k := range out {
		if out[k].least > 1 {
			s.hold(&out[k], out)
		}
	}
	return out
}

// joined lists the pairs of faces that a seam joins edge to edge, that of its
// first side first.
func (s *surface) joined(i int) [][2]int {
	var out [][2]int
	for _, a := range s.arcs {
		if a.mate < 0 || a.seam != i || !a.first {
			continue
		}
		if p := [2]int{a.face, s.arcs[a.mate].face}; p[0] != p[1] && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// folded carries a face onto another by folding along the seam between them, of
// which the ends count.
func (s *surface) folded(i, over, face int) geom.Affine {
	var from, to []geom.Pt
	for k, a := range s.arcs {
		if a.seam != i || a.face != face || a.mate < 0 || s.arcs[a.mate].face != over {
			continue
		}
		for _, n := range a.nodes {
			for _, w := range s.nodes[n].twins {
				if w.arc == k {
					from, to = append(from, s.nodes[n].at), append(to, s.nodes[w.node].at)
				}
			}
		}
	}
	a, b := 0, 0
	for k := range from {
		if from[0].Dist(from[k]) > from[0].Dist(from[b]) {
			b = k
		}
	}
	turn := to[b].Sub(to[a]).Angle() - from[b].Sub(from[a]).Angle()
	lies := geom.Turn(turn, from[a]).Then(geom.Shift(to[a].Sub(from[a])))
	beside := cross(to[a], to[b], lies.Apply(middle(s.outline(face)))) * cross(to[a], to[b], middle(s.outline(over)))
	if beside < 0 {
		lies = lies.Then(geom.MirrorAbout(to[a], to[b]))
	}
	return lies
}

// setOn are the covers of a part that is set on faces.
func (s *surface) setOn(i int) []cover {
	var out []cover
	m := s.seams[i]
	for _, ply := range m.Sides {
		for _, ground := range m.Sides {
			if ply[0].Inside || !ground[0].Inside {
				continue
			}
			for _, st := range ground {
				over, face := s.faceOf(st), s.faceOf(ply[0])
				if over >= 0 && face >= 0 {
					out = append(out, cover{over: over, face: face, least: 1, holds: []hold{{i, st.Curve.Flatten(1)}}})
				}
			}
		}
	}
	return out
}

// bags are the second halves of bags whose first half is turned in.
func (s *surface) bags(first []cover) []cover {
	var out []cover
	for i, m := range s.seams {
		if m.Method.Family != bagged {
			continue
		}
		for _, p := range s.joined(i) {
			for _, c := range first {
				half := slices.Index(p[:], c.face)
				if half < 0 || p[1-half] == c.over {
					continue
				}
				lies := s.folded(i, c.face, p[1-half]).Then(c.lies)
				out = append(out, cover{over: c.over, face: p[1-half], lies: lies, least: 2})
			}
		}
	}
	return out
}

// hold finds what holds a cover: the seams that join it to what is no cover
// itself.
func (s *surface) hold(c *cover, all []cover) {
	loose := func(st construct.Stretch) bool {
		f := s.faceOf(st)
		return slices.ContainsFunc(all, func(o cover) bool { return o.face == f })
	}
	for i, m := range s.seams {
		plies := slices.Concat(m.Sides...)
		if !slices.ContainsFunc(plies, func(st construct.Stretch) bool { return !loose(st) }) {
			continue
		}
		for _, st := range plies {
			if !st.Inside && s.faceOf(st) == c.face {
				c.holds = append(c.holds, hold{i, st.Curve.Transform(c.lies).Flatten(1)})
			}
		}
	}
}

// faceOf is the face that a stretch lies on, -1 for none.
func (s *surface) faceOf(st construct.Stretch) int {
	return slices.IndexFunc(s.faces, func(f face) bool { return f.copyOf == copyOf{st.Piece, st.Copy} })
}

// middle is the mean of points.
func middle(pts []geom.Pt) geom.Pt {
	var sum geom.Pt
	for _, p := range pts {
		sum = sum.Add(p)
	}
	return sum.Mul(1 / float64(len(pts)))
}

// caught lists the faces that a line would be sewn through though it is not meant
// to: those that lie on it and are held, by the seams that are done, on more
// sides than one. What is held at its edges cannot be drawn aside from within the
// shortest outline round them.
func (s Survey) caught(l line, done sewn) []int {
	var out []int
	for _, c := range s.covers {
		if l.touches(s.surface.faces[c.face].copyOf) {
			continue
		}
		var held []geom.Pt
		var lines [][]geom.Pt
		seams := map[int]bool{}
		for _, h := range c.holds {
			if done[h.seam] {
				held, lines, seams[h.seam] = append(held, h.line...), append(lines, h.line), true
			}
		}
		if len(seams) < c.least {
			continue
		}
		round := hull(held)
		if slices.ContainsFunc(l.points, func(p start) bool {
			return p.face == c.over && len(round) > 2 && geom.Inside(round, p.at) && apart(p.at, lines)
		}) {
			out = append(out, c.face)
		}
	}
	return out
}

// touches reports whether the operation works on a copy itself.
func (l line) touches(c copyOf) bool {
	return slices.Contains(l.op.Pieces, c.piece) || slices.Contains(l.op.Pieces, c.piece+"@"+string(c.copy))
}

// apart reports whether a point lies clear of where a ply is held.
func apart(p geom.Pt, lines [][]geom.Pt) bool {
	for _, l := range lines {
		for k := 1; k < len(l); k++ {
			if onSegment(l[k-1], l[k], p, clear) {
				return false
			}
		}
	}
	return true
}

// hull is the shortest outline round points, counter-clockwise (Andrew, "Another
// efficient algorithm for convex hulls in two dimensions", 1979).
func hull(pts []geom.Pt) []geom.Pt {
	pts = slices.Clone(pts)
	slices.SortFunc(pts, func(a, b geom.Pt) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	pts = slices.Compact(pts)
	half := func(list []geom.Pt) []geom.Pt {
		var out []geom.Pt
		for _, p := range list {
			for len(out) > 1 && geom.Orient(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:max(len(out)-1, 0)]
	}
	low := half(pts)
	slices.Reverse(pts)
	return append(low, half(pts)...)
}
