package lay

import (
	"context"
	"fmt"
	"math"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/nest"
)

// lanes are the passes that the search tries side by side; fixed, because the
// lay found depends on it.
const lanes = 2

// bed is a stretch about to be laid: what goes on it, and the strips it may be
// laid in, one for each section. More than one is needed only where sections
// are bounded by the table.
type bed struct {
	stretch
	jobs   []job
	strips []strip
	phases map[int]float64 // by group, of those that lie already
	held   []Placed        // pinned pieces that lie there already
}

// strip is a section to be: where it begins, micrometres along the cloth, and
// how long it may get, mm; 0 as long as it needs.
type strip struct {
	from int64
	most float64
	held bool // begins at from, and folded crosswise ends at from+most, whatever lies before
}

// wide is what lies before the cutter on a stretch, mm across.
func (w *work) wide(s stretch) float64 {
	if s.fold == Along && 2*s.depth+1 >= w.width {
		return float64(s.depth) / 1000
	}
	return float64(w.width-s.depth) / 1000
}

// problem states a bed for the search.
func (w *work) problem(b bed) nest.Problem {
	var p nest.Problem
	for k, st := range b.strips {
		p.Containers = append(p.Containers, nest.Container{Width: w.wide(b.stretch), MaxLength: st.most, Origin: w.origin(b.stretch, st)})
		p.Hazards = append(p.Hazards, w.walls(b, k)...)
	}
	for _, j := range b.jobs {
		part := nest.Part{Poses: j.poses, Pins: j.pins, Tilt: j.tilt, Across: w.band(b.stretch, j)}
		outline := millimetres(j.cut.Outline)
		if w.rough {
			outline = roughly(outline)
		}
		for _, q := range outline {
			part.Shape = append(part.Shape, nest.Pt(q))
		}
		p.Parts = append(p.Parts, part)
	}
	w.tieUp(&p, b)
	return p
}

// band is the part of the width that a piece must keep to beside a part fold.
func (w *work) band(s stretch, j job) [2]float64 {
	if s.fold != Along || 2*s.depth+1 >= w.width {
		return [2]float64{}
	}
	if j.layers == 2 {
		return [2]float64{0, float64(s.depth) / 1000}
	}
	lo, hi := w.singleBand(s.depth)
	return [2]float64{float64(lo) / 1000, float64(hi) / 1000}
}

// search arranges a bed. First layouts of the same pieces on the same stretch
// are remembered where nothing else bears on them.
func (w *work) search(ctx context.Context, b bed, rounds int, start *nest.Layout, report func(nest.Layout)) (nest.Layout, error) {
	if len(b.jobs) == 0 { // all of it is pinned
		return nest.Layout{Lengths: make([]float64, len(b.strips))}, nil
	}
	key := ""
	if rounds == 0 && len(w.hazards)+len(b.held) == 0 && len(b.strips) == 1 && b.strips[0].most == 0 {
		key = b.key() + w.inStep(b)
		if known, ok := w.firsts[key]; ok {
			return known, nil
		}
	}
	budget := nest.Budget{Rounds: rounds, Lanes: lanes, Seed: w.opts.Seed, Within: w.opts.Within}
	done := func() {}
	if !w.quiet {
		budget.Told, done = w.course.search(len(b.jobs), rounds)
	}
	best, _, err := nest.Search(ctx, w.problem(b), budget, start, func(n nest.Layout, _ nest.Stats) {
		if report != nil && len(n.Unplaced) == 0 {
			report(n)
		}
	})
	done()
	if err == nil && key != "" && ctx.Err() == nil {
		w.firsts[key] = best
	}
	return best, err
}

// again tells the course of a further search of a bed.
func (w *work) again(b bed, rounds int) {
	if !w.quiet {
		w.course.more(len(b.jobs), rounds)
	}
}

func (b bed) key() string {
	var s strings.Builder
	fmt.Fprint(&s, b.fold, b.depth)
	for _, j := range b.jobs {
		fmt.Fprint(&s, " ", j.layers, j.ids[0])
	}
	return s.String()
}

// put takes over what the search placed in a strip of a bed, on whole
// micrometres.
func (w *work) put(b bed, best nest.Layout, k int) []Placed {
	var out []Placed
	for _, pl := range best.Placements {
		if pl.Container != k {
			continue
		}
		j := b.jobs[pl.Part]
		flip, degrees := onCloth(nest.Orientation{Degrees: pl.Degrees, Flip: pl.Flip})
		p := Placed{
			Cut: j.cut, Layers: j.layers, Flip: flip, Degrees: degrees,
			AtX: b.strips[k].from + micron(pl.At.X), AtY: micron(pl.At.Y),
		}
		if !p.square() {
			w.nudge(&p, b.strips[k].from, w.band(b.stretch, j), micron(w.wide(b.stretch)))
		}
		out = append(out, p)
	}
	return out
}

// nudge moves a tilted piece in by the micrometre that rounding its corners may
// have put it out.
func (w *work) nudge(p *Placed, from int64, band [2]float64, wide int64) {
	low, high := int64(0), wide
	if band != [2]float64{} {
		low, high = micron(band[0]), micron(band[1])
	}
	lo, hi := p.box()
	p.AtX += max(0, from-lo.X)
	p.AtY += max(0, low-lo.Y) - max(0, hi.Y-high)
}

func micron(mm float64) int64 { return int64(math.Round(mm * 1000)) }

func density(l Lay) float64 {
	if l.Length == 0 {
		return 0
	}
	var cut float64
	for _, p := range l.Placed {
		cut += geom.Area(millimetres(p.Cut.Outline)) * float64(p.Layers)
	}
	return cut / (l.Cloth.UsableWidth() * l.Length)
}
