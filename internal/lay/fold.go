package lay

import (
	"math"
	"slices"

	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// foldable tells whether cut i can be laid on a lengthwise fold of some depth:
// half of a piece, or one of a pair, and no wider.
func (w *work) foldable(i int, depth int64) bool {
	r := w.cuts[i]
	lo, hi := across(r.cut)
	return (r.cut.OnFold || r.twin >= 0) && hi-lo <= depth
}

// twin finds the mirror image of cut i: its pair, when that is an exact mirror
// image. After a change to one side only, the two are cut singly.
func (w *work) twin(i int) int {
	a := w.cuts[i].cut
	k := slices.IndexFunc(w.cuts, func(r ready) bool { return a.Pair != "" && r.cut.ID == a.Pair })
	if k < 0 || k == i || w.cuts[k].cut.Pair != a.ID || !images(a.Outline, w.cuts[k].cut.Outline) {
		return -1
	}
	return k
}

// images tells whether two outlines, point by point, are mirror images; they
// may stand in different places.
func images(a, b []finish.Micron) bool {
	n := len(a)
	if n != len(b) {
		return false
	}
	for start := range n {
		if imagesFrom(a, b, start) {
			return true
		}
	}
	return false
}

// imagesFrom: the last point of a goes with point start of b.
func imagesFrom(a, b []finish.Micron, start int) bool {
	n := len(a)
	sumX, y := a[n-1].X+b[start].X, b[start].Y-a[n-1].Y
	for k := range n {
		p, q := a[n-1-k], b[(start+k)%n]
		if p.X+q.X != sumX || q.Y-p.Y != y {
			return false
		}
	}
	return true
}

// opened is the whole piece of which k is half; false when the fold line is
// not upright along one side of it. Its inside lines stay those of the half.
// Where the half has no grain line, since it is laid by its fold, the whole one
// has its middle line for it.
func opened(k finish.Cut) (finish.Cut, bool) {
	fold := millimetres(k.Fold[:])
	x := k.Fold[0].X
	if k.Fold[1].X != x || k.Fold[0].Y == k.Fold[1].Y {
		return k, false
	}
	fine := make([]geom.Pt, len(k.Outline)) // whole micrometres, exact in float64
	for i, m := range k.Outline {
		fine[i] = geom.Pt{X: float64(m.X), Y: float64(m.Y)}
	}
	whole, ok := openedLoop(fine, float64(x), 0)
	if !ok {
		return k, false
	}
	out := k
	out.OnFold, out.Fold = false, [2]finish.Micron{}
	out.Outline = make([]finish.Micron, len(whole))
	for i, p := range whole {
		out.Outline[i] = finish.Micron{X: int64(p.X), Y: int64(p.Y)}
	}
	if len(k.Exact) > 0 {
		if out.Exact, ok = openedLoop(k.Exact, fold[0].X, 0.02); !ok {
			return k, false
		}
	}
	if _, _, drawn := drawnGrain(k); !drawn {
		out.Sewn.Lines = append(slices.Clone(k.Sewn.Lines), piece.Line{Kind: piece.Grain, Curve: geom.Polyline(fold...)})
	}
	out.Notches = slices.Clone(k.Notches)
	for _, n := range k.Notches {
		out.Notches = append(out.Notches, [2]geom.Pt{mirrored(n[0], fold[0].X), mirrored(n[1], fold[0].X)})
	}
	return out, true
}

func mirrored(p geom.Pt, x float64) geom.Pt { return geom.Pt{X: 2*x - p.X, Y: p.Y} }

// openedLoop mirrors a loop about the upright line at x that it runs along
// once, to within tol, and leaves that stretch out.
func openedLoop(loop []geom.Pt, x, tol float64) ([]geom.Pt, bool) {
	n := len(loop)
	on := func(i int) bool { return math.Abs(loop[i%n].X-x) <= tol }
	var leaves []int
	beyond := [2]bool{}
	for i := range n {
		if on(i) && !on(i+1) {
			leaves = append(leaves, i)
		}
		beyond[0] = beyond[0] || !on(i) && loop[i].X < x
		beyond[1] = beyond[1] || !on(i) && loop[i].X > x
	}
	if len(leaves) != 1 || beyond[0] == beyond[1] || !on(leaves[0]+n-1) {
		return nil, false
	}
	var half []geom.Pt
	i := leaves[0] + 1
	for ; !on(i); i++ {
		half = append(half, loop[i%n])
	}
	out := append([]geom.Pt{{X: x, Y: loop[leaves[0]].Y}}, half...)
	out = append(out, geom.Pt{X: x, Y: loop[i%n].Y})
	for k := range half {
		out = append(out, mirrored(half[len(half)-1-k], x))
	}
	return out, true
}
