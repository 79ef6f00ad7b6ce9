package change

import (
	"fmt"
	"math"

	"gusset/internal/docket"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// settle settles a seam whose sides differ, in one of the trade's ways: the
// difference is shared by all edges in it, or taken off the longer side alone, or
// stated as ease and worked in, or its notches are moved to where they meet.
func settle(j *job) string {
	s, ok := j.seamOf(j.step.Item)
	if !ok {
		return ""
	}
	var r seam.Report
	for _, x := range walk(j.g) {
		if x.Seam.ID == s.ID {
			r = x
		}
	}
	if len(r.Gaps) != len(s.Sides) {
		return ""
	}
	var by float64
	for _, g := range r.Gaps {
		by = math.Max(by, math.Abs(g))
	}
	if j.step.How == docket.Notches {
		j.renotched = s.Join
		return j.moveNotches(s, r)
	}
	if by < 0.005 {
		j.tell(nothing, "the sides of "+s.Join+" are equally long")
		return s.Join + " left as it is"
	}
	j.settled = s.Join
	switch j.step.How {
	case docket.Ease:
		for side := 1; side < len(r.Gaps); side++ {
			j.ease(s, side, r.Gaps[side])
		}
		return fmt.Sprintf("%s of %s worked in as ease", j.say(by), s.Join)
	case docket.Trim:
		if !j.even(s, longer(r)) {
			return ""
		}
		return fmt.Sprintf("%s taken off the longer side of %s", j.say(by), s.Join)
	}
	if !j.even(s, -1) {
		return ""
	}
	return fmt.Sprintf("%s shared by the sides of %s", j.say(by), s.Join)
}

// longer is the longest side of a seam, its stated ease taken off.
func longer(r seam.Report) int {
	best := 0
	for side, gap := range r.Gaps {
		if gap > r.Gaps[best] {
			best = side
		}
	}
	return best
}

// even moves corners until the sides of a seam differ by its ease alone, every
// other seam differing as before; with a side given, only corners of its pieces
// move.
func (j *job) even(s seam.Seam, only int) bool {
	t := newTruer(j, look(j.g))
	if only >= 0 {
		t.onlyPieces(s.Sides[only])
	}
	t.nearest(s)
	kept := j.g.Clone()
	misses := t.misses()
	for range 8 {
		if worst(misses) < trueTo {
			break
		}
		t.step(misses)
		misses = t.misses()
	}
	if left := worst(misses); left > seam.Tolerance/2 || t.tooFar() {
		far := t.furthest(s)
		j.g = kept
		j.tell(unsettled, s.Join, j.say(far), j.say(mostTrue))
		return false
	}
	return true
}

// away is how readily a corner moves that is no end of the seam to be settled: a
// shoulder is settled at the shoulder, not at the hem.
const away = 0.02

// nearest lets the corners at the ends of a seam's edges move more readily than the
// others of pieces that carry the figure.
func (t *truer) nearest(s seam.Seam) {
	ends := map[int]bool{}
	for _, chain := range s.Sides {
		for _, st := range chain {
			name, _ := drawing(t.j.g, st)
			p := t.j.g.Pieces[name]
			if i := p.Index(st.Edge); i >= 0 && !st.Inside {
				ends[t.at[name]+2*i], ends[t.at[name]+2*((i+1)%len(p.Edges))] = true, true
			}
		}
	}
	for _, name := range t.j.names() {
		p := t.j.g.Pieces[name]
		for i := range p.Edges {
			if at := t.at[name] + 2*i; levelled(p) && !ends[at] {
				t.ready[at] *= away
				t.ready[at+1] *= away
			}
		}
	}
}

// onlyPieces holds the corners of all pieces but those of a chain.
func (t *truer) onlyPieces(chain []seam.Stretch) {
	free := map[string]bool{}
	for _, st := range chain {
		name, _ := drawing(t.j.g, st)
		free[name] = true
	}
	for _, name := range t.j.names() {
		if free[name] {
			continue
		}
		for i := range 2 * len(t.j.g.Pieces[name].Edges) {
			t.ready[t.at[name]+i] = 0
		}
	}
}

// moveNotches moves the notches of every side after the first to where those of
// the first meet them, the ease shared along the seam.
func (j *job) moveNotches(s seam.Seam, r seam.Report) string {
	most := 0.0
	for _, n := range r.Notches {
		for side := 1; side < len(s.Sides); side++ {
			by := -n.Gaps[side]
			most = math.Max(most, math.Abs(by))
			j.moveNotch(s.Sides[side], n.Name, by)
		}
	}
	if most < 0.005 {
		j.tell(nothing, "the notches of "+s.Join+" meet")
	}
	return fmt.Sprintf("notches of %s moved by up to %s", s.Join, j.say(most))
}

func (j *job) moveNotch(chain []seam.Stretch, name string, by float64) {
	for _, st := range chain {
		key, mirrored := drawing(j.g, st)
		p := j.g.Pieces[key].Clone()
		i := p.Index(st.Edge)
		if st.Inside || i < 0 {
			continue
		}
		way := by
		if st.Forward == mirrored { // walked against the drawn edge
			way = -by
		}
		for k := range p.Marks {
			if m := &p.Marks[k]; m.Kind == piece.Notch && m.Edge == st.Edge && m.Name == name {
				m.At = math.Min(math.Max(m.At+way, 0), p.Edges[i].Curve.Length())
				m.P = p.Edges[i].Curve.At(m.At)
				j.mark(&p.Edges[i])
			}
		}
		j.g.Pieces[key] = p
	}
}
