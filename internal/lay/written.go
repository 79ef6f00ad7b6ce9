package lay

import (
	"math"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/geom"
)

// Written is the lay that a file describes, nothing moved and nothing searched:
// pieces without a place are Unplaced. It may break every rule. The findings are
// about the cloth and what cannot be read of the file.
func Written(c cloth.Cloth, role cloth.Role, cuts []finish.Cut, f File, o Options) (Lay, finding.List) {
	w := newWork(c, role, cuts, o)
	l := w.asWritten(w.read(f))
	told := l
	told.Unplaced = nil // whoever lays by hand sees what has no place yet
	w.tell(told)
	return l, w.found
}

// Gap is the least distance in mm between the cut lines of a placed piece and
// of those in its section, and the ID of the nearest; "" when it lies alone
// there.
func (l Lay) Gap(i int) (mm float64, nearest string) {
	p, mm := l.Placed[i], math.Inf(1)
	ring := p.Outline()
	lo, hi := geom.BoundsOf(ring)
	for k, q := range l.Placed {
		if k == i || q.Section != p.Section {
			continue
		}
		other := q.Outline()
		a, b := geom.BoundsOf(other)
		if max(a.X-hi.X, lo.X-b.X, a.Y-hi.Y, lo.Y-b.Y) >= mm {
			continue
		}
		if gap := geom.RingGap(ring, other); gap < mm {
			mm, nearest = gap, q.Cut.ID
		}
	}
	return mm, nearest
}

// TurnedAbout is the file with one of its pieces turned end for end, or over,
// within the rectangle that it takes of the cloth.
func (f File) TurnedAbout(l Lay, i int, over bool) File {
	p := f.Pieces[i]
	for _, q := range l.Placed {
		if q.Cut.ID != p.ID {
			continue
		}
		lo, hi := q.box()
		if over {
			q.Flip, p.FaceDown = !q.Flip, !p.FaceDown
		} else {
			q.Degrees, p.Turned = q.Degrees+180, !p.Turned
			if q.Degrees > 180 {
				q.Degrees -= 360
			}
		}
		a, b := q.box()
		q.AtX += ((lo.X + hi.X) - (a.X + b.X)) / 2
		q.AtY += ((lo.Y + hi.Y) - (a.Y + b.Y)) / 2
		moved := l.filed(q, p.Along.Unit())
		p.Along, p.Across = moved.Along, moved.Across
	}
	pieces := append([]FilePiece{}, f.Pieces...)
	pieces[i] = p
	f.Pieces = pieces
	return f
}
