package lay

import (
	"math"

	"gusset/internal/finish"
	"gusset/internal/geom"
)

// Bars are where the repeat comes again in a section: X of the middles of main
// bars that run across the cloth, which is squared along one, and Y of those
// that run along it. Where it is not known where these lie, they are the lines
// through the places that are matched.
func (l Lay) Bars(s Section) (xs, ys []float64) {
	along, across := l.Cloth.Periods()
	xs = every(Squaring, along, s.From, s.To)
	if across == 0 {
		return xs, nil
	}
	switch {
	case s.Fold == Along:
		first := float64(math.Round((s.Depth-l.Cloth.Bar())/(across/2)) * (across / 2))
		return xs, every(-first, across, 0, s.Width)
	case l.Cloth.Repeat.Known:
		return xs, every(l.Cloth.Bar(), across, 0, s.Width)
	}
	for _, p := range l.Placed {
		for _, m := range p.Cut.Matched {
			if m.Across {
				return xs, every(p.putMicron(m.At).Y, across, 0, s.Width)
			}
		}
	}
	return xs, nil
}

// every lists at, and whole periods from it, in [lo, hi].
func every(at, period, lo, hi float64) []float64 {
	if period <= 0 {
		return nil
	}
	var out []float64
	for n := math.Ceil((lo - at) / period); at+n*period <= hi; n++ {
		out = append(out, at+n*period)
	}
	return out
}

// Matched lists where the matched places of a placed piece lie before the
// cutter, mm: those for a way that the cloth repeats.
func (l Lay) Matched(p Placed) []geom.Pt {
	along, across := l.Cloth.Periods()
	var out []geom.Pt
	for _, m := range p.Cut.Matched {
		if m.Along && along > 0 || m.Across && across > 0 {
			out = append(out, p.putMicron(m.At))
		}
	}
	return out
}

func (p Placed) putMicron(m finish.Micron) geom.Pt {
	return p.Put(geom.Pt{X: float64(m.X) / 1000, Y: float64(m.Y) / 1000})
}
