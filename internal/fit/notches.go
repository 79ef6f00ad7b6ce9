package fit

import (
	"math"

	"gusset/internal/piece"
)

// notchAt names a notch.
type notchAt struct {
	d    *drawn
	mark int
}

// stretchEnds lists the notches at which a stretch of a join begins or ends, in
// the order of the joins. Aligning does not touch them, since moving one
// lengthens a seam: truing does.
func stretchEnds(js []joint) []notchAt {
	var out []notchAt
	for _, j := range js {
		for _, chain := range j.sides {
			for _, s := range chain {
				for _, name := range []string{s.ref.From, s.ref.To} {
					if m := s.mark(name); m >= 0 {
						out = append(out, notchAt{s.d, m})
					}
				}
			}
		}
	}
	return out
}

// mark returns the index of the notch with that name on the stretch's edge, or
// -1.
func (s stretch) mark(name string) int {
	if s.ref.Inside || name == "" {
		return -1
	}
	edge := s.d.base.Edges[s.edge].Name
	for i, m := range s.d.base.Marks {
		if m.Kind == piece.Notch && m.Edge == edge && m.Name == name {
			return i
		}
	}
	return -1
}

// findNotch finds the named notch on a chain in the base size: the stretch it
// is on and its mark, -1 for none.
func findNotch(chain []stretch, name string) (int, int) {
	for i, s := range chain {
		if m := s.mark(name); m >= 0 {
			if at := s.d.base.Marks[m].At; at > s.from-0.01 && at < s.to+0.01 {
				return i, m
			}
		}
	}
	return -1, -1
}

// alignNotches sets the notches of every seam's further sides against the first
// side's, as far apart as the print has them between sizes.
func (t *truer) alignNotches() {
	for _, j := range t.joints {
		for _, name := range j.join.Notches {
			for k := 1; k < len(j.sides); k++ {
				t.alignNotch(j.sides[0], j.sides[k], name)
			}
		}
	}
}

func (t *truer) alignNotch(first, side []stretch, name string) {
	a, markA := findNotch(first, name)
	b, markB := findNotch(side, name)
	if a < 0 || b < 0 || side[b].d == first[a].d && markA == markB {
		return
	}
	if _, held := t.held[notchAt{side[b].d, markB}]; held {
		return
	}
	diff := make([]float64, len(first[a].d.sizes))
	for i := range diff {
		diff[i] = printedWalk(side, b, markB, i) - printedWalk(first, a, markA, i)
	}
	s := first[a].d.edgeSize(first[a].edge, first[a].d.base.Marks[markA].At)
	want := t.walk(first, a, markA) + between(diff, s)
	by := want - t.walk(side, b, markB)
	if math.Abs(by) < trueFrom {
		return
	}
	st := side[b]
	if !st.onward {
		by = -by
	}
	t.pieces[st.ref.Piece].slide(markB, by)
}

// slide moves a notch along its edge.
func (f *fitted) slide(mark int, by float64) {
	e := f.d.base.Index(f.d.base.Marks[mark].Edge)
	if math.Abs(by) < 1e-9 || e < 0 {
		return
	}
	c := f.curves[e]
	f.notch[mark], f.moved = placeOn(c, min(max(f.marks[mark].At+by, 0), c.Length())), true
	f.setNotches()
}

// walk is how far along a fitted chain a notch lies.
func (t *truer) walk(chain []stretch, i, mark int) float64 {
	s := chain[i]
	from, to := t.span(s)
	return t.length(chain[:i]) + s.walked(from, to, t.pieces[s.ref.Piece].marks[mark].At)
}

func printedWalk(chain []stretch, i, mark, size int) float64 {
	s := chain[i]
	from, to := s.printedSpan(size)
	return printedLength(chain[:i], size) + s.walked(from, to, s.d.sizes[size].Marks[mark].At)
}
