package construct

import (
	"slices"
	"strconv"

	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// work is one item as it is made once: a join on one hand, a finish round one
// ring of edges, a closure, a part.
type work struct {
	item   *item
	hand   piece.Copy
	key    string      // tells it from the item's other works; may be empty
	sides  [][]Stretch // a finish, closure or part has one
	fitted []*work     // the joins that a fitting tries
	// behind holds what else a closure lies on: the other plies of its joins.
	behind []Stretch
	intake intake // what a dart or pleat folds in
	folds  bool   // it is a dart or pleat, and sound
	ops    map[string][]string
	all    []Stretch // of all sides
	inner  []int     // nodes it runs across
	tips   []int     // nodes at which it begins and ends
	ring   []int     // nodes at which a join that is sewn flat will be closed
}

// gather makes the works of all sound items, in the view's order.
func (b *builder) gather() {
	for _, s := range b.seams {
		if it := b.items[s.Join]; it.sound {
			w := &work{item: it, hand: s.Copy, key: string(s.Copy), sides: s.Sides}
			b.readIntake(w)
			b.glue.fold(w.intake, w.sides)
			b.works = append(b.works, w)
		}
	}
	for _, f := range b.garment.View.Finishes {
		if it := b.items[f.ID]; it.sound {
			b.works = append(b.works, b.finishWorks(it, b.finishEdges(it, f.Edges))...)
		}
	}
	for _, c := range b.garment.View.Closures {
		if it := b.items[c.ID]; it.sound {
			along := b.finishEdges(it, c.Along)
			b.works = append(b.works, &work{item: it, sides: [][]Stretch{along}, behind: b.behind(c.Joins, along)})
		}
	}
	for _, p := range b.garment.View.Parts {
		if it := b.items[p.ID]; it.sound {
			b.works = append(b.works, &work{item: it, sides: [][]Stretch{b.partEdges(it, p)}})
		}
	}
	b.gatherFittings()
	b.gatherInterfacing()
}

// finishEdges resolves the edges of a finish, or the line of a closure, on every
// copy they mean.
func (b *builder) finishEdges(it *item, refs []piece.Ref) []Stretch {
	var out []Stretch
	for _, r := range refs {
		for _, c := range b.copies(r) {
			s, err := seam.ResolveRef(b.garment, r, c, false)
			if err != nil {
				b.add(unresolved.At(it.place, it.id, err.Error()))
				break
			}
			out = append(out, s)
		}
	}
	return out
}

// copies lists the copies that a reference of a finish means.
func (b *builder) copies(r piece.Ref) []piece.Copy {
	if r.Copy != piece.Both {
		return []piece.Copy{r.Copy}
	}
	if u, ok := b.garment.Use(r.Piece); ok {
		return u.CopyList()
	}
	return []piece.Copy{piece.Left}
}

// finishWorks groups the edges of a finish into what is done in one go: rings
// of edges that meet at nodes where the method works round them, else the edges
// of one copy.
func (b *builder) finishWorks(it *item, edges []Stretch) []*work {
	joined := b.touches
	if !it.worksRound() {
		joined = sameCopy
	}
	var works []*work
	for len(edges) > 0 {
		ring := []Stretch{edges[0]}
		edges = edges[1:]
		for grown := true; grown; {
			grown = false
			for i, e := range edges {
				if joined(e, ring) {
					ring = append(ring, e)
					edges = slices.Delete(slices.Clone(edges), i, i+1)
					grown = true
					break
				}
			}
		}
		works = append(works, &work{item: it, hand: handOf(ring), sides: [][]Stretch{ring}})
	}
	nameRings(works)
	return works
}

func sameCopy(e Stretch, ring []Stretch) bool {
	return e.Piece == ring[0].Piece && e.Copy == ring[0].Copy
}

func (b *builder) touches(e Stretch, ring []Stretch) bool {
	from, to := b.glue.ends(e)
	for _, r := range ring {
		f, t := b.glue.ends(r)
		for _, n := range []int{f, t} {
			if n = b.glue.find(n); n == b.glue.find(from) || n == b.glue.find(to) {
				return true
			}
		}
	}
	return false
}

// handOf is the hand all stretches are on, or Both.
func handOf(chain []Stretch) piece.Copy {
	for _, s := range chain {
		if s.Copy != chain[0].Copy {
			return piece.Both
		}
	}
	if c := chain[0].Copy; c == piece.Left || c == piece.Right {
		return c
	}
	return piece.Both
}

// nameRings gives each ring a key of its own: its hand where that tells them
// apart, its first edge besides where it does not.
func nameRings(works []*work) {
	if len(works) < 2 {
		return
	}
	seen := map[piece.Copy]int{}
	for _, w := range works {
		seen[w.hand]++
	}
	used := map[string]int{}
	for _, w := range works {
		w.key = string(w.hand)
		if seen[w.hand] > 1 || w.hand == piece.Both {
			w.key = copyName(w.sides[0][0].Piece, w.hand)
		}
		used[w.key]++
		if n := used[w.key]; n > 1 {
			w.key += "-" + strconv.Itoa(n)
		}
	}
}

// along resolves what a part's stitching follows, on one copy.
func (b *builder) along(it *item, refs []piece.Ref) []Stretch {
	var out []Stretch
	for _, r := range refs {
		s, err := seam.ResolveRef(b.garment, r, seam.CopyFor(b.garment, r, piece.Both), false)
		if err != nil {
			b.add(unresolved.At(it.place, it.id, err.Error()))
			continue
		}
		out = append(out, s)
	}
	return out
}

// behind lists the stretches of a closure's joins besides those it lies along.
func (b *builder) behind(joins []string, along []Stretch) []Stretch {
	var out []Stretch
	for _, s := range b.seams {
		if !slices.Contains(joins, s.Join) {
			continue
		}
		for _, st := range slices.Concat(s.Sides...) {
			if !slices.ContainsFunc(along, func(a Stretch) bool { return on(a) == on(st) }) {
				out = append(out, st)
			}
		}
	}
	return out
}

// partEdges is what a part's stitching runs along.
func (b *builder) partEdges(it *item, p pattern.Part) []Stretch {
	if len(p.Along) > 0 {
		return b.along(it, p.Along)
	}
	return b.longest(it, p.Piece)
}

// longest is the longest edge of a part's piece.
func (b *builder) longest(it *item, name string) []Stretch {
	u, _ := b.garment.Use(name)
	return b.longestOn(it, name, u.CopyList()[0])
}

// longestOn is the longest edge of one copy of a piece.
func (b *builder) longestOn(it *item, name string, c piece.Copy) []Stretch {
	p, ok := b.garment.Copy(name, c)
	if !ok {
		b.add(unresolved.At(it.place, it.id, "this view has no piece "+strconv.Quote(name)))
		return nil
	}
	best := Stretch{Piece: name, Copy: c, Forward: true}
	for _, e := range p.Edges {
		if l := e.Curve.Length(); l > best.To {
			best.Edge, best.To, best.Curve = e.Name, l, e.Curve
		}
	}
	return []Stretch{best}
}

// stretches lists all stretches of all sides.
func (w *work) stretches() []Stretch { return slices.Concat(w.sides...) }

// nodes notes a work's stretches, the nodes that it runs across (between the
// stretches of a side, all round when it is closed) and those at which it begins
// and ends.
func (b *builder) nodes(w *work) {
	w.all = w.stretches()
	count := b.endCount(w)
	if w.item.method.Flat {
		w.ring = b.ringNodes(w)
	}
	for _, n := range sortedKeys(count) {
		if slices.Contains(w.ring, n) {
			w.tips = append(w.tips, n)
		} else if count[n] > 1 {
			w.inner = append(w.inner, n)
		} else {
			w.tips = append(w.tips, n)
		}
	}
}

// ringNodes are the nodes at which a side of the work begins and ends alike.
func (b *builder) ringNodes(w *work) []int {
	var out []int
	for _, side := range w.sides {
		if len(side) == 0 {
			continue
		}
		from, _ := b.glue.ends(side[0])
		_, to := b.glue.ends(side[len(side)-1])
		if n := b.glue.find(from); n == b.glue.find(to) && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// endCount counts for every node how many stretch ends of one side lie on it.
func (b *builder) endCount(w *work) map[int]int {
	most := map[int]int{}
	for _, side := range w.sides {
		count := map[int]int{}
		for _, s := range side {
			from, to := b.glue.ends(s)
			count[b.glue.find(from)]++
			count[b.glue.find(to)]++
		}
		for n, c := range count {
			most[n] = max(most[n], c)
		}
	}
	return most
}

// covers reports whether the work is a join sewn down over another seam.
func (w *work) covers() bool {
	return w.item.takes == method.Join && !w.item.bastes() && w.item.coversAny(len(w.sides))
}

// copyName is how a copy is called: "front@left", or "band" where there is one.
func copyName(name string, c piece.Copy) string {
	if c == piece.Left || c == piece.Right {
		return name + "@" + string(c)
	}
	return name
}
