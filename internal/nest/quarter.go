package nest

import (
	"math"
	"slices"
	"sync/atomic"
)

// Two shapes that are turned together by quarter turns, or flipped together,
// keep their fence but for the same turn: so fences are made for one base of all
// quarter turns of a shape and for every way a second lies beside it, and an
// offset is turned back before it is asked. There are fewer of them then, and
// what is asked for again and again stays in the processor's cache.

// quarter is a number of quarter turns after a flip (x, y) -> (x, -y) or none.
type quarter struct {
	turns int // 0 to 3, counter-clockwise
	flip  bool
}

// quarterKinds is how many there are.
const quarterKinds = 8

func (q quarter) kind() int {
	if q.flip {
		return q.turns + 4
	}
	return q.turns
}

// beside is how o lies for one that lies by q: q undone after o.
func (q quarter) beside(o quarter) quarter {
	turns := o.turns - q.turns
	if q.flip {
		turns = -turns
	}
	return quarter{turns & 3, q.flip != o.flip}
}

// orientation is q as one.
func (q quarter) orientation() Orientation {
	return Orientation{Degrees: float64(90 * q.turns), Flip: q.flip}
}

// back is the matrix that undoes q.
func (q quarter) back() [4]float64 {
	t := turnOf(q.orientation())
	m := [4]float64{t.cos, t.sin, -t.sin, t.cos}
	if q.flip {
		m[2], m[3] = -m[2], -m[3]
	}
	return m
}

// split divides an orientation into a turn of less than a quarter, to be made
// first, and what is left. A flip belongs to the first where that is a turn at
// all, since they do not change places.
func (o Orientation) split() (base Orientation, rest quarter) {
	d := math.Mod(o.Degrees, 360)
	if d < 0 {
		d += 360
	}
	turns := math.Floor(d / 90)
	base.Degrees = d - float64(90*turns)
	rest.turns = int(turns) & 3
	if base.Degrees == 0 {
		rest.flip = o.Flip
	} else {
		base.Flip = o.Flip
	}
	return base, rest
}

// cover gives every solid what only the search needs: its base, of which there
// is one for all solids that are quarter turns of each other.
func (f *field) cover() {
	seen := map[*solid]bool{}
	for i := range f.items {
		it := &f.items[i]
		bases := map[Orientation]int{}
		for _, ps := range it.poses {
			if seen[ps.solid] {
				continue
			}
			seen[ps.solid] = true
			base, by := ps.Orientation.split()
			if _, made := bases[base]; !made {
				bases[base] = f.newBase(by.undo(ps.solid.ring()))
			}
			ps.solid.base, ps.solid.by, ps.solid.back = bases[base], by, by.back()
		}
	}
	for k := range f.strips {
		for _, w := range f.strips[k].walls {
			w.base, w.by, w.back = f.newBase(w.ring()), quarter{}, quarter{}.back()
		}
	}
	f.core = len(f.bases)
	f.fences = make([]atomic.Pointer[fence], len(f.bases)*len(f.bases)*quarterKinds)
}

func (f *field) newBase(ring []Pt) int {
	f.bases = append(f.bases, convexParts(ring))
	return len(f.bases) - 1
}

// undo takes a polygon back from how it lies by q, counter-clockwise again.
func (q quarter) undo(ring []Pt) []Pt {
	t := turnOf(q.orientation())
	out := make([]Pt, len(ring))
	for i, p := range ring {
		out[i] = t.undo(p)
	}
	if q.flip {
		slices.Reverse(out)
	}
	return out
}

// fence is that of two solids, for offsets turned back as the first is; it is
// made when first asked for.
func (f *field) fence(a, b *solid) *fence {
	at := &f.fences[(a.base*len(f.bases)+b.base)*quarterKinds+a.by.beside(b.by).kind()]
	if have := at.Load(); have != nil {
		return have
	}
	t := turnOf(a.by.beside(b.by).orientation())
	var parts [][]Pt
	for _, p := range f.bases[b.base] {
		parts = append(parts, t.polygon(p))
	}
	made := newFence(f.bases[a.base], parts, f.clear+margin)
	at.Store(made)
	return made
}
