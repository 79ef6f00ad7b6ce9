package fit

import (
	"math"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// longest is how long a curved segment may be, in mm, before it is cut for the
// field of sizes to bend it; segments are cut at the levels besides.
const longest = 40.0

// outline makes the closed path of a piece, with curved segments cut finer
// where the size changes along them. Cutting a cubic changes nothing of its
// line; it gives the field more nodes to work on.
func (d *drawn) outline() *path {
	p := &path{closed: true, sizes: make([][]geom.Seg, len(d.sizes))}
	heights := d.levelHeights()
	for e := range d.base.Edges {
		p.first = append(p.first, len(p.edge))
		var arc float64
		for k, base := range d.base.Edges[e].Curve {
			segs := make([]geom.Seg, len(d.sizes))
			for i := range segs {
				segs[i] = d.sizes[i].Edges[e].Curve[k]
			}
			l := base.Length()
			parts := [][]geom.Seg{segs}
			if d.varies(e, arc, l) && !allStraight(segs) {
				parts = cut(segs, cuts(segs, heights, l))
			}
			arc = p.appendParts(e, arc, parts, len(d.sizes)/2)
		}
	}
	p.first = append(p.first, len(p.edge))
	return p
}

func (p *path) appendParts(edge int, arc float64, parts [][]geom.Seg, base int) float64 {
	for _, part := range parts {
		for i, s := range part {
			p.sizes[i] = append(p.sizes[i], s)
		}
		l := part[base].Length()
		p.edge, p.arc, p.length = append(p.edge, edge), append(p.arc, arc), append(p.length, l)
		arc += l
	}
	return arc
}

// levelHeights returns, for each level line, its height in every size.
func (d *drawn) levelHeights() [][]float64 {
	var out [][]float64
	for j, l := range d.base.Lines {
		if l.Kind != piece.Level {
			continue
		}
		ys := make([]float64, len(d.sizes))
		for i := range ys {
			ys[i] = middle(d.sizes[i].Lines[j].Curve).Y
		}
		out = append(out, ys)
	}
	return out
}

// varies reports whether the size changes along a stretch of an edge.
func (d *drawn) varies(edge int, arc, l float64) bool {
	first := d.edgeSize(edge, arc)
	for k := 1; k <= 8; k++ {
		if math.Abs(d.edgeSize(edge, arc+float64(l*float64(k)/8))-first) > 1e-6 {
			return true
		}
	}
	return false
}

func allStraight(segs []geom.Seg) bool {
	for _, s := range segs {
		if !s.Straight {
			return false
		}
	}
	return true
}

// cuts returns the parameters at which to cut a segment, for each cut one per
// size: where it crosses a level of its own size, and evenly between.
func cuts(segs []geom.Seg, heights [][]float64, length float64) [][]float64 {
	n, base := len(segs), len(segs)/2
	marks := [][]float64{every(0, n), every(1, n)}
	for _, ys := range heights {
		if ts, ok := crossing(segs, ys); ok {
			marks = append(marks, ts)
		}
	}
	slices.SortFunc(marks, func(a, b []float64) int {
		switch {
		case a[base] < b[base]:
			return -1
		case a[base] > b[base]:
			return 1
		}
		return 0
	})
	marks = inOrder(marks)
	var out [][]float64
	for k := 1; k < len(marks); k++ {
		a, b := marks[k-1], marks[k]
		parts := int(math.Ceil(length * (b[base] - a[base]) / longest))
		for j := 1; j <= parts; j++ {
			ts := make([]float64, n)
			for i := range ts {
				ts[i] = a[i] + float64((b[i]-a[i])*float64(j)/float64(parts))
			}
			out = append(out, ts)
		}
	}
	return out[:len(out)-1] // the last is the segment's end
}

func every(v float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// inOrder drops cuts that do not follow the one before in every size, with
// some room.
func inOrder(marks [][]float64) [][]float64 {
	const room = 0.03
	kept := marks[:1]
	last := marks[len(marks)-1]
	for _, m := range marks[1 : len(marks)-1] {
		fits := true
		for i, t := range m {
			fits = fits && t > kept[len(kept)-1][i]+room && t < last[i]-room
		}
		if fits {
			kept = append(kept, m)
		}
	}
	return append(kept, last)
}

// crossing returns where the segment crosses the height of each size; false
// when it does not in every size.
func crossing(segs []geom.Seg, ys []float64) ([]float64, bool) {
	ts := make([]float64, len(segs))
	for i, s := range segs {
		lo, hi := 0.0, 1.0
		below := s.P[0].Y < ys[i]
		if below == (s.P[3].Y < ys[i]) {
			return nil, false
		}
		for range 50 {
			mid := (lo + hi) / 2
			if (s.At(mid).Y < ys[i]) == below {
				lo = mid
			} else {
				hi = mid
			}
		}
		ts[i] = (lo + hi) / 2
	}
	return ts, true
}

// cut splits a segment in every size at the given parameters.
func cut(segs []geom.Seg, at [][]float64) [][]geom.Seg {
	var out [][]geom.Seg
	rest := slices.Clone(segs)
	done := make([]float64, len(segs))
	for _, ts := range at {
		part := make([]geom.Seg, len(segs))
		for i, t := range ts {
			part[i], rest[i] = rest[i].Split((t - done[i]) / (1 - done[i]))
			done[i] = t
		}
		out = append(out, part)
	}
	return append(out, rest)
}
