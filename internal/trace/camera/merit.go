package camera

import (
	"math"

	"gusset/internal/cards"
)

// judged fills in the figures of merit of a solution.
func (s Solution) judged(seen []Seen, tapes []Tape) Solution {
	type sums struct{ px, mm, n float64 }
	var all sums
	each := map[cards.ID]sums{}
	for _, c := range seen {
		v := s.Views[c.Photo]
		for i, p := range cards.Corners() {
			at := s.On(c.Card, p)
			d := v.Pixel(at).Dist(c.Px[i])
			mm := d * v.Grain(at)
			e := each[c.Card]
			e.px, e.mm, e.n = e.px+d*d, e.mm+mm*mm, e.n+2
			each[c.Card] = e
			all.px, all.mm, all.n = all.px+d*d, all.mm+mm*mm, all.n+2
		}
	}
	s.RMS, s.RMSmm = math.Sqrt(all.px/all.n), math.Sqrt(all.mm/all.n)
	for id := cards.ID(0); id < cards.Count; id++ {
		if e, ok := each[id]; ok && math.Sqrt(e.mm/e.n) > s.WorstMM {
			s.Worst, s.WorstMM = id, math.Sqrt(e.mm/e.n)
		}
	}
	info := 1 / (scaleSD * scaleSD)
	for _, t := range tapes {
		s.TapeMiss = append(s.TapeMiss, s.taped(t)-t.Length)
		sd := TapeSD(t.Length) / t.Length
		info += 1 / (sd * sd)
	}
	s.ScaleSD = 1 / math.Sqrt(info)
	return s
}
