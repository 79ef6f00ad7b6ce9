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
		width: micron(c.UsableWidth()), length: micron(c.UsableLength()), oneWay: c.Direction == cloth.OneWay,
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
	j.copies(cuts)
	j.lengths()
	return j.found
}

// judge is one run of Check.
type judge struct {
	cuts          map[string]finish.Cut
	times         map[string]int // how often each cut would be cut
	lay           lay.Lay
	width, length int64
	oneWay        bool
	lying         []lying
	reach         int64 // the farthest any piece or section comes
	found         finding.List
}

// lying is an outline on the cloth.
type lying struct {
	cut      finish.Cut
	section  int
	quarters int
	ring     ring
	box      box
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

func (j *judge) sections() {
	end := int64(0)
	for i, s := range j.lay.Sections {
		from, to, width := micron(s.From), micron(s.To), micron(s.Width)
		allowed := j.width
		if s.Folded {
			allowed = j.width / 2
		}
		wrong := ""
		switch {
		case from < end:
			wrong = "it begins before the one before it ends"
		case to < from:
			wrong = "it ends before it begins"
		case to > j.length:
			wrong = "it ends beyond the cloth"
		case width > allowed:
			wrong = "it is too wide"
		case s.Folded && width != allowed:
			wrong = "folded selvedge to selvedge the cloth has another width"
		case s.Folded && j.lay.Plan == lay.Open:
			wrong = "it is folded, and the cloth was to lie open"
		}
		if wrong != "" {
			j.found = append(j.found, section.At(finding.Place{}, i+1, s.From, s.To, s.Width, wrong))
		}
		end = max(end, to)
		j.reach = max(j.reach, to)
	}
}

// pairs: no shared cloth, and on one-way cloth no two tops against each other.
func (j *judge) pairs() {
	for i, a := range j.lying {
		if first := j.lying[0]; j.oneWay && a.quarters != first.quarters {
			j.say(nap, a.cut, first.cut.ID)
		}
		for _, b := range j.lying[:i] {
			if a.section == b.section && share(a.ring, b.ring) {
				at := a.box.common(b.box)
				j.say(overlap, b.cut, a.cut.ID, mm(at.lo.X), mm(at.hi.X-at.lo.X), mm(at.hi.Y-at.lo.Y))
			}
		}
	}
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
