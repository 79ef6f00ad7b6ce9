package nest

import (
	"math"
	"slices"
	"sync/atomic"
)

// field is a problem prepared for the search.
type field struct {
	problem *Problem
	items   []item
	strips  []strip
	clear   float64
	area    float64  // of all parts
	bases   [][][]Pt // convex parts of shapes as they are before quarter turns and flips
	fences  []atomic.Pointer[fence]
	core    int    // bases that are not of leans drawn on the way
	comb    []comb // per lattice
	within  func(work func())
}

// item is a part prepared: its poses with what each needs.
type item struct {
	poses  []*pose
	strips []int // where it may lie
	area   float64
	small  float64 // the smaller side of the first pose's box: the scale of its moves
	tied   bool    // to some lattice
}

// pose is one orientation of a part. Tilted copies of an allowed orientation
// are poses of their own.
type pose struct {
	Orientation
	solid *solid
	rooms []room  // per container
	hold  [2]hold // per axis
}

// room is where a pose may stand in a container, as far as the container's
// rectangle and the part's pins tell: the range of its offset.
type room struct {
	x0, x1, y0, y1 float64
	fixedX         bool // x is pinned
}

func (r room) empty() bool { return r.x0 > r.x1 || r.y0 > r.y1 }

// strip is a container as a rectangle with fixed solids in it.
type strip struct {
	box
	walls  []*solid
	origin Pt
}

// slack forgives rounding when a part fits its container exactly, mm.
const slack = 1e-7

func newField(p *Problem) *field {
	f := &field{problem: p, clear: max(p.Clearance, MinClearance)}
	for _, c := range p.Containers {
		s := newStrip(c)
		s.origin = c.Origin
		f.strips = append(f.strips, s)
	}
	for _, h := range p.Hazards {
		s := &f.strips[h.Container]
		s.walls = append(s.walls, newSolid(h.Shape))
	}
	for i := range p.Parts {
		it := f.newItem(p, i)
		f.area += it.area
		f.items = append(f.items, it)
	}
	f.comb = newCombs(p, f)
	return f
}

func newStrip(c Container) strip {
	if len(c.Outline) == 0 {
		length := c.MaxLength
		if length == 0 {
			length = math.Inf(1)
		}
		return strip{box: box{0, 0, length, c.Width}}
	}
	ring := tidyRing(c.Outline)
	s := strip{box: bounds(ring)}
	for _, w := range pockets(ring) {
		s.walls = append(s.walls, newSolid(w))
	}
	return s
}

func (f *field) newItem(p *Problem, i int) item {
	part := &p.Parts[i]
	it := item{area: signedArea(part.Shape), tied: len(part.Ties) > 0, strips: slices.Clone(part.Containers)}
	if len(it.strips) == 0 {
		for k := range p.Containers {
			it.strips = append(it.strips, k)
		}
	}
	slices.Sort(it.strips)
	it.strips = slices.Compact(it.strips)
	twin := twinOf(p, i)
	for k, o := range tilted(part.Poses, part.Tilt) {
		var known *solid
		if twin >= 0 {
			known = f.items[twin].poses[k].solid
		}
		it.poses = append(it.poses, f.newPose(part, o, k%len(part.Poses), known))
	}
	b := it.poses[0].solid.box
	it.small = min(b.x1-b.x0, b.y1-b.y0)
	return it
}

// newPose is a part in one orientation, which is, or is a lean of, the one
// numbered number of those given; its solid is made unless it is known.
func (f *field) newPose(part *Part, o Orientation, number int, known *solid) *pose {
	ps := &pose{Orientation: o, hold: holds(f.problem, part, o, number), solid: known}
	if known == nil {
		ps.solid = newSolid(turnOf(o).polygon(part.Shape))
	}
	for c := range f.strips {
		ps.rooms = append(ps.rooms, f.strips[c].within(part.Across).room(ps.solid.box, part.Pins))
	}
	return ps
}

// twinOf finds an earlier part of the same shape and poses, whose prepared
// solids can be shared; -1 when there is none.
func twinOf(p *Problem, i int) int {
	a := &p.Parts[i]
	for j := range i {
		b := &p.Parts[j]
		if a.Tilt == b.Tilt && slices.Equal(a.Shape, b.Shape) && slices.Equal(a.Poses, b.Poses) {
			return j
		}
	}
	return -1
}

// within is the strip as a part that must keep to a band across it sees it.
func (s *strip) within(band [2]float64) *strip {
	if band == [2]float64{} {
		return s
	}
	in := *s
	in.y0, in.y1 = max(s.y0, band[0]), min(s.y1, band[1])
	return &in
}

func (s *strip) room(b box, pins []Pin) room {
	r := room{x0: s.x0 - b.x0, x1: s.x1 - b.x1, y0: s.y0 - b.y0, y1: s.y1 - b.y1}
	r.x0, r.x1 = forgive(r.x0, r.x1)
	r.y0, r.y1 = forgive(r.y0, r.y1)
	for _, pin := range pins {
		if pin.Axis == X {
			r.x0, r.x1 = pinned(pin, b.x0, b.x1, r.x0, r.x1)
			r.fixedX = true
		} else {
			r.y0, r.y1 = pinned(pin, b.y0, b.y1, r.y0, r.y1)
		}
	}
	return r
}

// forgive closes a range that is inside out by rounding only.
func forgive(lo, hi float64) (float64, float64) {
	if lo > hi && lo <= hi+slack {
		return lo, lo
	}
	return lo, hi
}

// pinned narrows a range to the one offset a pin allows, or to none.
func pinned(pin Pin, low, high, lo, hi float64) (float64, float64) {
	at := pin.Value
	switch pin.Of {
	case Low:
		at -= low
	case High:
		at -= high
	}
	if at < lo-slack || at > hi+slack {
		return 1, 0
	}
	return at, at
}

// pockets are the parts of a ring's bounding rectangle outside the ring: each
// run of edges that leaves the rectangle's border and comes back cuts one off.
// With them as walls, staying in the rectangle and off the walls is staying in
// the ring.
func pockets(ring []Pt) [][]Pt {
	b := bounds(ring)
	n := len(ring)
	start := slices.IndexFunc(ring, func(p Pt) bool { return b.edgeOf(p) >= 0 })
	var out [][]Pt
	for i := 0; i < n; {
		j := i + 1
		for b.edgeOf(ring[(start+j)%n]) < 0 {
			j++
		}
		run := make([]Pt, 0, j-i+1)
		for k := i; k <= j; k++ {
			run = append(run, ring[(start+k)%n])
		}
		// Out along the border from the run's start to its end, back by the run.
		pocket := b.borderWalk(run[0], run[len(run)-1])
		slices.Reverse(run)
		pocket = append(pocket, run[1:len(run)-1]...)
		if len(pocket) >= 3 && signedArea(pocket) > 1e-6 {
			out = append(out, pocket)
		}
		i = j
	}
	return out
}

// edgeOf numbers the border side a point lies on, counter-clockwise from the
// bottom; a corner belongs to the side that starts there; -1 for inside.
func (b box) edgeOf(p Pt) int {
	switch {
	case p.Y == b.y0 && p.X < b.x1:
		return 0
	case p.X == b.x1 && p.Y < b.y1:
		return 1
	case p.Y == b.y1 && p.X > b.x0:
		return 2
	case p.X == b.x0:
		return 3
	}
	return -1
}

// borderWalk goes counter-clockwise on the border from one point to another.
func (b box) borderWalk(from, to Pt) []Pt {
	corners := [4]Pt{{b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}, {b.x0, b.y0}}
	out := []Pt{from}
	e, end := b.edgeOf(from), b.edgeOf(to)
	for e != end || b.along(e, to) < b.along(e, out[len(out)-1]) {
		out = append(out, corners[e])
		e = (e + 1) % 4
	}
	return append(out, to)
}

// along measures a point's way on border side e.
func (b box) along(e int, p Pt) float64 {
	return [4]float64{p.X, p.Y, -p.X, -p.Y}[e]
}
