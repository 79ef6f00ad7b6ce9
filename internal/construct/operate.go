package construct

import (
	"slices"
	"strings"

	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// operate writes out the operations of every work. Within a ring an operation
// that is not done round it is done once an edge.
func (b *builder) operate() {
	b.index = map[string]int{}
	for _, w := range b.works {
		w.ops = map[string][]string{}
		for _, m := range w.item.method.Operations {
			for _, part := range w.parts(m) {
				b.operation(w, m, part)
			}
		}
	}
}

// parts lists the pieces of a work on which an operation is done one by one.
func (w *work) parts(m method.Operation) []*work {
	if w.item.takes == method.Fitting && m.On == "seam" {
		return w.eachFitted()
	}
	if w.item.takes != method.Finish || m.Together || !w.item.worksRound() {
		return []*work{w}
	}
	var out []*work
	for _, s := range w.sides[0] {
		p := *w
		p.sides = [][]Stretch{{s}}
		p.hand = handOf(p.sides[0])
		p.key = copyName(s.Piece, p.hand) + ":" + s.Edge
		out = append(out, &p)
	}
	return out
}

func (b *builder) operation(w *work, m method.Operation, part *work) {
	plies, thickness := b.plies(part, m)
	told := b.putTogether(part, m)
	actions := actions(told)
	o := Operation{
		ID: w.item.id + "." + m.ID, Item: w.item.id, Copy: part.hand, Do: strings.Join(actions, "; "), Actions: actions, Told: told,
		Machine: m.Machine, Stitch: m.Stitch, StitchLength: m.Length.MM(), Thread: m.Thread,
		Foot: m.Foot, Needle: m.Needle, Rows: m.Rows, Length: b.sewn(part, m),
		Plies: plies, Thickness: thickness,
		Closes: m.Closes, Caution: m.Caution, Pieces: b.pieceNames(part), On: m.On, At: m.At, Sides: part.sides,
		Seam: w.seam(), Spread: w.item.pressedBefore(m), Why: map[string]string{}, Place: w.item.place,
	}
	if part.key != "" {
		o.ID += "@" + part.key
	}
	for _, a := range m.After {
		for _, id := range w.ops[a] {
			if before := b.operations[b.index[id]]; len(w.ops[a]) == 1 || part == w || slices.Equal(before.Pieces, o.Pieces) {
				o.After = append(o.After, id)
				if m.Why != "" {
					o.Why[id] = m.Why
				}
			}
		}
	}
	b.index[o.ID] = len(b.operations)
	b.operations = append(b.operations, o)
	w.ops[m.ID] = append(w.ops[m.ID], o.ID)
}

// seam is the seam that a join makes.
func (w *work) seam() string {
	switch {
	case w.item.takes != method.Join:
		return ""
	case w.key == "":
		return w.item.id
	}
	return w.item.id + "@" + w.key
}

// sewn is how far one row of the operation is sewn, in mm: what has a length of
// its own as often as it is set, else along what the operation runs along.
func (b *builder) sewn(w *work, m method.Operation) float64 {
	if len(m.Run) == 0 {
		return b.length(w, m.On)
	}
	times := m.Times
	if m.Each {
		n, _ := b.repeats(w)
		times *= n
	} else {
		times *= len(b.lines(w))
	}
	return float64(w.item.sum(m.Run) * float64(times))
}

// lines are the lines apart from each other that a work lies along: two for
// pockets or cuffs on both hands. Only a closure has more than one.
func (b *builder) lines(w *work) [][]Stretch {
	if w.item.takes != method.Closure {
		return w.sides[:1]
	}
	var out [][]Stretch
	for i, s := range w.sides[0] {
		if i > 0 && b.follows(w.sides[0][i-1], s) {
			out[len(out)-1] = append(out[len(out)-1], s)
		} else {
			out = append(out, []Stretch{s})
		}
	}
	return out
}

// follows reports whether one of two stretches begins where the other ends.
func (b *builder) follows(s, t Stretch) bool {
	from, to := b.glue.ends(s)
	begin, end := b.glue.ends(t)
	return b.glue.find(to) == b.glue.find(begin) || b.glue.find(end) == b.glue.find(from)
}

// length is how far the operation runs, in mm.
func (b *builder) length(w *work, along string) float64 {
	switch {
	case along == "a" || along == "edge" && len(w.sides) == 1:
		return seam.ChainLength(w.sides[0]) * b.times(w)
	case along == "b" && len(w.sides) > 1:
		return seam.ChainLength(w.sides[1])
	case along == "seam" || along == "edge":
		var longest float64
		for _, side := range w.sides {
			longest = max(longest, seam.ChainLength(side))
		}
		return longest
	}
	return 0
}

// times is how often a part is sewn along its edges: as often as its piece is
// cut, or once for each part that is made of several plies.
func (b *builder) times(w *work) float64 {
	if w.item.takes != method.Part || len(w.sides[0]) == 0 {
		return 1
	}
	u, _ := b.garment.Use(w.sides[0][0].Piece)
	return float64(min(max(u.Number, 1)*len(u.CopyList()), w.item.count))
}

// plies counts the plies under the needle and their thickness in mm. Flat: one
// for each side. Once something has been pressed or turned, the allowance lies
// there too, and one ply more for each turn of cloth; in a hem one for every
// fold. A closure is sewn through the edge it lies along and one ply behind it.
func (b *builder) plies(w *work, m method.Operation) (int, float64) {
	sides := w.sides
	switch {
	case m.On == "a":
		sides = sides[:1]
	case m.On == "b" && len(sides) > 1:
		sides = sides[1:2]
	}
	var plies int
	var sum, thickest float64
	for _, side := range sides {
		var t float64
		for _, s := range side {
			t = max(t, b.thickness(s.Piece))
		}
		plies++
		sum += t
		thickest = max(thickest, t)
	}
	if len(w.behind) > 0 {
		plies++
		sum += b.thickness(w.behind[0].Piece)
	}
	if m.Machine == machine.Iron || !w.item.pressedBefore(m) {
		return plies, sum
	}
	extra := len(w.item.folds())
	if w.item.takes == method.Join {
		extra = 1 + w.item.turns()
	}
	return plies + extra, sum + float64(extra)*thickest
}

// turns counts the turns of cloth in a join's widths.
func (it *item) turns() int {
	var n int
	for _, list := range it.method.Allowance {
		for _, name := range list {
			if name == turnValue {
				n++
			}
		}
	}
	return n
}

// pressedBefore reports whether the iron comes before the operation.
func (it *item) pressedBefore(m method.Operation) bool {
	for _, id := range m.After {
		for _, o := range it.method.Operations {
			if o.ID == id && (o.Machine == machine.Iron || it.pressedBefore(o)) {
				return true
			}
		}
	}
	return false
}

// pieceNames lists the copies that the work touches, each once.
func (b *builder) pieceNames(w *work) []string {
	var out []string
	for _, s := range append(w.stretches(), w.behind...) {
		name := b.cutName(s.Piece, s.Copy)
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// cutName is the name under which a copy is cut: halves of a piece on the fold
// are one.
func (b *builder) cutName(name string, c piece.Copy) string {
	if u, ok := b.garment.Use(name); ok && u.Copies != pattern.Pair {
		return name
	}
	return copyName(name, c)
}
