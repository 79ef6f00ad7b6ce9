package change

import (
	"math"

	"gusset/internal/piece"
	"gusset/internal/seam"
)

const (
	alignFrom = 0.02 // mm: notches that miss by more than before are set anew
	mostAlign = 20.0 // mm: further than this a notch is left, and the walk tells
)

// alignNotches sets the notches of every seam's other sides against those of
// the first, where the step has parted them.
func (t *truer) alignNotches() {
	for _, r := range t.now.walked {
		if old, _ := t.before.report(r.Seam); len(old.Notches) == len(r.Notches) && r.Seam.Join != t.j.renotched {
			for k, n := range r.Notches {
				t.alignNotch(r.Seam, n, old.Notches[k])
			}
		}
	}
}

func (t *truer) alignNotch(s seam.Seam, now, old seam.NotchReport) {
	for side := 1; side < len(now.Gaps) && side < len(old.Gaps); side++ {
		by := old.Gaps[side] - now.Gaps[side]
		if math.Abs(by) < alignFrom || math.Abs(by) > mostAlign {
			continue
		}
		for _, st := range s.Sides[side] {
			name, mirrored := drawing(t.j.g, st)
			p := t.j.g.Pieces[name]
			if m, ok := p.Notch(st.Edge, now.Name); ok && !st.Inside {
				if st.Forward == mirrored {
					by = -by
				}
				t.j.g.Pieces[name] = slid(p, m, by)
				break
			}
		}
	}
}

// slid is the piece with a notch moved along its edge.
func slid(p piece.Piece, notch piece.Mark, by float64) piece.Piece {
	p = p.Clone()
	e, _ := p.Edge(notch.Edge)
	for k, m := range p.Marks {
		if m.Kind == piece.Notch && m.Edge == notch.Edge && m.Name == notch.Name {
			m.At = math.Min(math.Max(m.At+by, 0), e.Curve.Length())
			m.P = e.Curve.At(m.At)
			p.Marks[k] = m
		}
	}
	return p
}
