package fit

import (
	"math"
	"slices"
	"sort"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// field is the size at every place of one piece, in positions of the size
// list, over the base size's drawing.
type field struct {
	// own gives the size at a point; nil as long as nothing is known.
	own func(geom.Pt) float64
	// over holds, for each edge, the stretches whose size a join or a zone
	// decides, whatever own says.
	over   [][]patch
	levels []knot // the piece's own levels, from the bottom up
	rank   int    // 0 where own comes from levels, else how many joins away
}

// knot is a size at a height.
type knot struct{ y, s float64 }

// patch is a stretch of an edge, in mm along it, with its own size.
type patch struct {
	from, to float64
	at       func(arc float64) float64
	rank     int // 0 from a zone, else one more than the rank of the giver
}

// unknown is the rank of a piece that no size has reached.
const unknown = math.MaxInt

// edgeSize returns the size at a distance along an edge of the base size.
func (d *drawn) edgeSize(edge int, arc float64) float64 {
	for _, p := range d.field.over[edge] {
		if arc >= p.from-1e-6 && arc <= p.to+1e-6 {
			return p.at(arc)
		}
	}
	return d.field.own(d.edges[edge].at(arc))
}

// pointSize returns the size at a point of the base size.
func (d *drawn) pointSize(p geom.Pt) float64 { return d.field.own(p) }

// rigid says that a line takes one size as a whole: the grain stays upright,
// and what is set on a placement line is not pulled out of shape.
func rigid(k piece.LineKind) bool {
	return k == piece.Grain || k == piece.Level || k == piece.Lengthen || k == piece.Placement
}

// lineSize returns the size at a distance along an inside line.
func (d *drawn) lineSize(line int, arc float64) float64 {
	l := d.base.Lines[line]
	if rigid(l.Kind) {
		return d.field.own(middle(l.Curve))
	}
	return d.field.own(l.Curve.At(arc))
}

// middle is the middle of the box round a curve's control points.
func middle(c geom.Curve) geom.Pt {
	var pts []geom.Pt
	for _, s := range c {
		pts = append(pts, s.P[:]...)
	}
	lo, hi := geom.BoundsOf(pts)
	return lo.Lerp(hi, 0.5)
}

// spread sets the field of every piece: from level lines where there are any,
// from the edges that measure a zone, and along the joins to all the rest.
func spread(v pattern.View, pieces map[string]*drawn, order []string, js []joint, zones map[string]float64, rest float64) {
	for _, name := range order {
		pieces[name].field.rank = unknown
		pieces[name].setLevels(zones)
	}
	for _, g := range v.Girths {
		s, ok := zones[g.Zone]
		if !ok {
			continue
		}
		for _, r := range g.Edges {
			pieces[r.Piece].measuredEdge(r, s)
		}
	}
	for _, name := range order {
		pieces[name].own()
	}
	for _, j := range js {
		reachLevels(j)
	}
	for rank := 0; rank <= len(order); rank++ {
		handOver(js, rank)
		for _, name := range order {
			pieces[name].gather(rank + 1)
		}
	}
	for _, name := range order {
		if d := pieces[name]; d.field.own == nil {
			d.field.own = func(geom.Pt) float64 { return rest }
		}
	}
}

// setLevels reads the zones' heights off the level lines.
func (d *drawn) setLevels(zones map[string]float64) {
	for _, l := range d.base.Lines {
		if s, ok := zones[l.Name]; ok && l.Kind == piece.Level {
			d.addLevel(middle(l.Curve).Y, s)
		}
	}
	if len(d.field.levels) > 0 {
		d.field.rank = 0
	}
}

func (d *drawn) addLevel(y, s float64) {
	ks := d.field.levels
	i := sort.Search(len(ks), func(i int) bool { return ks[i].y >= y })
	if i < len(ks) && ks[i].y-y < 1 || i > 0 && y-ks[i-1].y < 1 {
		return // another level within a millimetre
	}
	ks = append(ks, knot{})
	copy(ks[i+1:], ks[i:])
	ks[i] = knot{y, s}
	d.field.levels = ks
}

// measuredEdge gives an edge at which a zone is measured (the waist, the hem)
// that zone's size all along. On a piece with level lines it counts as a level
// where it comes nearest to the others.
func (d *drawn) measuredEdge(r piece.Ref, s float64) {
	if d == nil {
		return
	}
	st, ok := d.stretch(r, false)
	if !ok || r.Inside {
		return
	}
	d.patch(st.edge, patch{st.from, st.to, func(float64) float64 { return s }, 0})
	if ks := d.field.levels; d.field.rank == 0 {
		lo, hi := d.edges[st.edge].heights()
		switch {
		case lo > ks[len(ks)-1].y:
			d.addLevel(lo, s)
		case hi < ks[0].y:
			d.addLevel(hi, s)
		}
	}
}

// patch adds a stretch with its own size, where none covers it yet.
func (d *drawn) patch(edge int, p patch) {
	for _, q := range d.field.over[edge] {
		if p.from < q.to-0.01 && p.to > q.from+0.01 {
			return
		}
	}
	d.field.over[edge] = append(d.field.over[edge], p)
}

// own makes the field of a piece with levels: smooth over the height, between
// neighbouring levels never outside their two sizes, constant beyond the
// outermost.
func (d *drawn) own() {
	ks := d.field.levels
	if len(ks) == 0 {
		return
	}
	ys, ss := make([]float64, len(ks)), make([]float64, len(ks))
	for i, k := range ks {
		ys[i], ss[i] = k.y, k.s
	}
	f := geom.Monotone(ys, ss)
	d.field.own = func(p geom.Pt) float64 { return f(p.Y) }
}

// reachLevels carries the size on beyond a piece's outermost level where the
// piece it is joined to goes further: a back below a yoke has no waist of its
// own, but its side seam meets the front's, which has.
func reachLevels(j joint) {
	for i, chain := range j.sides {
		for k, other := range j.sides {
			if k == i || !levelled(other) {
				continue
			}
			total, before := chainLength(chain), 0.0
			for _, s := range chain {
				if !s.ref.Inside && s.d.field.rank == 0 {
					s.reach(other, before/total, (before+s.length())/total)
				}
				before += s.length()
			}
		}
	}
}

func levelled(chain []stretch) bool {
	for _, s := range chain {
		if s.d.field.rank != 0 {
			return false
		}
	}
	return true
}

// reach adds a level at either end of the stretch that lies well beyond the
// piece's own, with the size found on the other side of the join.
func (s stretch) reach(other []stretch, u0, u1 float64) {
	const well = 5.0 // mm; nearer than that a level of its own is as good
	for _, end := range []struct{ u, walked float64 }{{u0, 0}, {u1, s.length()}} {
		y := s.d.edges[s.edge].at(s.along(end.walked)).Y
		if ks := s.d.field.levels; y < ks[0].y-well || y > ks[len(ks)-1].y+well {
			s.d.addLevel(y, sizeAlong(other, end.u))
			s.d.own()
		}
	}
}

// handOver hands sizes over each join that has a side all of whose pieces are of
// the given rank or nearer to the levels: the other sides take that side's
// size, point for point by arc length. Of several such sides the first gives.
func handOver(js []joint, rank int) {
	for _, j := range js {
		from := giver(j, rank)
		if from < 0 {
			continue
		}
		for i, chain := range j.sides {
			if i != from {
				take(chain, j.sides[from], rank)
			}
		}
	}
}

// giver returns the first side of a join whose worst piece has exactly the
// rank, provided no side is better: such a join was served before.
func giver(j joint, rank int) int {
	best, from := unknown, -1
	for i, chain := range j.sides {
		worst := 0
		for _, s := range chain {
			worst = max(worst, s.d.field.rank)
		}
		if worst < best {
			best, from = worst, i
		}
	}
	if best != rank {
		return -1
	}
	return from
}

// reading is how far apart, in mm, sizes are read off a join.
const reading = 6.0

// take gives the stretches of a chain the sizes of another. They are read off
// into a table at once: two edges that meet in two joins would otherwise ask
// each other for ever.
func take(chain, from []stretch, rank int) {
	if mirrored(chain, from) {
		return
	}
	total, before := chainLength(chain), 0.0
	for _, s := range chain {
		if !s.ref.Inside {
			arcs := s.d.readings(s)
			sizes := make([]float64, len(arcs))
			for k, arc := range arcs {
				sizes[k] = sizeAlong(from, (before+s.walked(s.from, s.to, arc))/total)
			}
			s.d.patch(s.edge, patch{s.from, s.to, geom.Monotone(arcs, sizes), rank + 1})
		}
		before += s.length()
	}
}

// readings lists the distances along a stretch's edge at which its size is
// read: the joints of its segments, the piece's levels, and evenly between.
func (d *drawn) readings(s stretch) []float64 {
	n := max(int(math.Ceil(s.length()/reading)), 4)
	out := make([]float64, 0, n+8)
	for k := range n + 1 {
		out = append(out, s.from+float64(s.length()*float64(k)/float64(n)))
	}
	var arc float64
	for _, seg := range d.base.Edges[s.edge].Curve {
		for _, k := range d.field.levels {
			if ts, ok := crossing([]geom.Seg{seg}, []float64{k.y}); ok {
				out = append(out, arc+seg.LengthTo(ts[0]))
			}
		}
		arc += seg.Length()
		out = append(out, arc)
	}
	out = slices.DeleteFunc(out, func(a float64) bool { return a < s.from || a > s.to })
	slices.Sort(out)
	return out
}

// mirrored reports a seam of edges with their own mirror image, which have
// nothing to take from each other.
func mirrored(a, b []stretch) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].d != b[i].d || a[i].edge != b[i].edge || a[i].ref.Inside != b[i].ref.Inside {
			return false
		}
	}
	return true
}
