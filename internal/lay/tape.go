package lay

import (
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// TapeEnd is a point on the cloth as a tape finds it.
type TapeEnd struct {
	Edge float64 // mm from the outer edge of the near selvedge, or from the fold
	End  float64 // mm from the cut end, along the cloth
}

// Tape is how a piece is laid without a drawing at full size: the two ends of
// its grain line (of the fold line, for a half piece on the fold), each by two
// distances. The grain is true when both ends are equally far from the edge.
type Tape struct {
	FromFold bool // Edge is measured from the fold
	Top      TapeEnd
	Foot     TapeEnd
}

// Tape locates a placed piece; false when it has no grain line.
func (l Lay) Tape(p Placed) (Tape, bool) {
	top, foot, ok := grainLine(p.Cut)
	if !ok || p.Section < 0 || p.Section >= len(l.Sections) {
		return Tape{}, false
	}
	t := Tape{FromFold: l.Sections[p.Section].FromFold()}
	border := l.Cloth.Selvedge.MM() * (1 - l.Cloth.ShrinkWeft)
	if t.FromFold {
		border = 0
	}
	measure := func(q geom.Pt) TapeEnd {
		q = p.Put(q)
		return TapeEnd{Edge: q.Y + border, End: q.X}
	}
	t.Top, t.Foot = measure(top), measure(foot)
	return t, true
}

// grainLine is the top and the foot of the line a piece is laid by.
func grainLine(k finish.Cut) (top, foot geom.Pt, ok bool) {
	if k.OnFold {
		f := millimetres(k.Fold[:])
		top, foot, ok = f[0], f[1], true
	} else {
		top, foot, ok = drawnGrain(k)
	}
	if top.Y < foot.Y {
		top, foot = foot, top
	}
	return top, foot, ok
}

func drawnGrain(k finish.Cut) (a, b geom.Pt, ok bool) {
	for _, line := range k.Sewn.Lines {
		if line.Kind == piece.Grain && len(line.Curve) > 0 {
			return line.Curve.Start(), line.Curve.End(), true
		}
	}
	return geom.Pt{}, geom.Pt{}, false
}
