package referee

import (
	"math"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/lay"
)

// Check goes through every rule of cutting out for the lay of these cuts on
// this cloth, and returns what is wrong; nothing when the lay may be cut.
// Of cuts only those for the lay's role are read; all of them must be in it.
func Check(cuts []finish.Cut, c cloth.Cloth, l lay.Lay) finding.List {
	j := judge{
		cuts: map[string]finish.Cut{}, times: map[string]int{}, lay: l,
		width: micron(c.UsableWidth()), length: micron(c.UsableLength()),
		selvedge: micron(c.Selvedge.MM() * (1 - c.ShrinkWeft)), oneWay: c.TopsOneWay(),
	}
	cuts = slices.DeleteFunc(slices.Clone(cuts), func(k finish.Cut) bool { return k.Cloth != l.Role })
	for _, k := range cuts {
		j.cuts[k.ID] = k
	}
	j.sections()
	for _, p := range l.Placed {
		j.piece(p)
	}
	j.pairs()
	j.onCloth(c)
	j.phases(c)
	j.copies(cuts)
	j.lengths()
	return j.found
}

// judge is one run of Check.
type judge struct {
	cuts                    map[string]finish.Cut
	times                   map[string]int // how often each cut would be cut
	lay                     lay.Lay
	width, length, selvedge int64
	oneWay                  bool
	lying                   []lying
	reach                   int64 // the farthest any piece or section comes
	found                   finding.List
}

// lying is a piece on the cloth: its outline as it lies before the cutter, and
// what it cuts of the cloth unfolded.
type lying struct {
	cut  finish.Cut
	box  box
	flat []flat
}

func (j *judge) say(k finding.Kind, c finish.Cut, args ...any) {
	place := finding.Place{}.OnPiece(c.Piece, string(c.Copy), "")
	j.found = append(j.found, k.At(place, append([]any{c.ID}, args...)...))
}

// micron is mm in whole micrometres. What is no length, or farther than is
// judged, becomes a length farther than is judged.
func micron(mm float64) int64 {
	if !(math.Abs(mm) < farthest/1000) {
		return 2 * farthest
	}
	return int64(math.Round(mm * 1000))
}

func mm(micron int64) float64 { return float64(micron) / 1000 }

// pairs: no shared cloth, and on one-way cloth no two tops against each other.
func (j *judge) pairs() {
	for i, a := range j.lying {
		if first := j.lying[0]; j.oneWay {
			for _, f := range a.flat {
				if f.quarters != first.flat[0].quarters {
					j.say(nap, a.cut, first.cut.ID)
					break
				}
			}
		}
		for _, b := range j.lying[:i] {
			if sharesCloth(a.flat, b.flat) {
				at := a.box.common(b.box)
				j.say(overlap, b.cut, a.cut.ID, mm(at.lo.X), mm(at.hi.X-at.lo.X), mm(at.hi.Y-at.lo.Y))
			}
		}
	}
}

func sharesCloth(a, b []flat) bool {
	for _, f := range a {
		for _, g := range b {
			if share(f.ring, g.ring) {
				return true
			}
		}
	}
	return false
}

// copies: every cut exactly once, or named as one that found no place.
func (j *judge) copies(cuts []finish.Cut) {
	left := map[string]bool{}
	for _, id := range j.lay.Unplaced {
		left[id] = true
	}
	for _, c := range cuts {
		n := j.times[c.ID]
		switch {
		case n > 1:
			j.say(twice, c, n)
		case n == 1 && left[c.ID]:
			j.say(both, c)
		case n == 0 && !left[c.ID]:
			j.say(missing, c)
		}
	}
}

func (j *judge) lengths() {
	for _, a := range j.lying {
		j.reach = max(j.reach, a.box.hi.X)
	}
	if said := micron(j.lay.Length); said < j.reach || said > j.length {
		j.found = append(j.found, length.At(finding.Place{}, j.lay.Length, mm(j.reach), mm(j.length)))
	}
}
