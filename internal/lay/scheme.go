package lay

import (
	"cmp"
	"slices"

	"gusset/internal/cloth"
)

// stretch is how one section is to lie.
type stretch struct {
	fold  Fold
	depth int64 // of a lengthwise fold, micrometres
}

// scheme is a plan made definite: its stretches one behind the other, the last
// of them open.
type scheme struct {
	plan      Plan
	stretches []stretch
}

// home says where a cut is laid: on which stretch, and whether through both
// layers there.
type home struct {
	stretch int
	double  bool
}

// mostDepths bounds how many depths of a part fold are tried.
const mostDepths = 5

// schemes lists what to try, in the order of Plans.
func (w *work) schemes() []scheme {
	flat, half := stretch{fold: Flat}, stretch{Along, w.width / 2}
	across := stretch{fold: Across}
	var list []scheme
	for _, p := range w.plans() {
		add := func(folds ...stretch) { list = append(list, scheme{p, append(folds, flat)}) }
		switch p {
		case Open:
			add()
		case Lengthwise:
			add(half)
		case PartFold:
			for _, d := range w.depths() {
				add(stretch{Along, d})
			}
		case Crosswise:
			add(across)
		case Turned:
			add(stretch{fold: Swung})
		case TwoFolds:
			if w.cloth.Direction == cloth.OneWay {
				across.fold = Swung
			}
			add(half, across)
			for _, d := range w.depths() {
				add(half, stretch{Along, d})
			}
		}
	}
	return list
}

// plans lists the plans to try. A fold is worth nothing where no two pieces
// are cut alike, a fold across none without pairs. A remnant is folded only
// when that is asked for, and one-way cloth never crosswise.
func (w *work) plans() []Plan {
	if p := Plan(w.opts.Fold); slices.Contains(Plans, p) {
		if p == Crosswise && w.cloth.Direction == cloth.OneWay {
			w.found = append(w.found, oneWay.At(w.cloth.Place, w.cloth.Title))
			return []Plan{Turned}
		}
		return []Plan{p}
	}
	pairs, folds := false, false
	for i, r := range w.cuts {
		pairs = pairs || r.twin >= 0
		folds = folds || w.foldable(i, w.width/2)
	}
	return slices.DeleteFunc(slices.Clone(Plans), func(p Plan) bool {
		switch p {
		case Open:
			return false
		case Crosswise:
			return !pairs || w.cloth.Remnant() || w.cloth.Direction == cloth.OneWay
		case Turned:
			return !pairs || w.cloth.Remnant() || w.cloth.Direction != cloth.OneWay
		case TwoFolds:
			return !pairs || !folds || w.cloth.Remnant()
		}
		return !folds || w.cloth.Remnant()
	})
}

// depths are the depths of a part fold worth trying: as deep as some piece, or
// two beside each other, are wide, and leaving room for a single piece beside
// the layer folded over. The deepest come first, since they take most.
func (w *work) depths() []int64 {
	var widths, out []int64
	narrowest := w.width
	for i, r := range w.cuts {
		lo, hi := across(r.open)
		narrowest = min(narrowest, hi-lo)
		if w.foldable(i, w.width/2) && (r.twin < 0 || i < r.twin) {
			lo, hi := across(r.cut)
			widths = append(widths, hi-lo)
		}
	}
	for i, a := range widths {
		for _, d := range append([]int64{a}, sums(a, widths[i:])...) {
			if lo, hi := w.singleBand(d + room); hi-lo >= narrowest && d >= leastDepth {
				out = append(out, d+room)
			}
		}
	}
	slices.SortFunc(out, func(a, b int64) int { return cmp.Compare(b, a) })
	return spread(thinned(out), mostDepths)
}

// leastDepth is the narrowest part fold tried, micrometres: a narrower one does
// not lie true (common practice).
const leastDepth = 100_000

// room is added to a fold's depth, micrometres, so that a piece as wide as that
// has more than the search's clearance.
const room = 100

func sums(a int64, with []int64) []int64 {
	out := make([]int64, len(with))
	for i, b := range with {
		out[i] = a + b
	}
	return out
}

// thinned leaves out depths within a finger's breadth of a deeper one kept:
// they serve alike.
func thinned(depths []int64) []int64 {
	var out []int64
	for _, d := range depths {
		if len(out) == 0 || out[len(out)-1]-d > 10_000 {
			out = append(out, d)
		}
	}
	return out
}

// spread picks at most n of a list, evenly.
func spread(list []int64, n int) []int64 {
	if len(list) <= n {
		return list
	}
	out := make([]int64, n)
	for i := range out {
		out[i] = list[i*(len(list)-1)/(n-1)]
	}
	return out
}

// singleBand is where single pieces may lie beside a fold of some depth: from
// beyond the selvedge folded over to the far border. Micrometres.
func (w *work) singleBand(depth int64) (lo, hi int64) {
	return depth + w.selvedge, w.width - depth
}

// homes lists where cut i may be laid, the preferred first: double before
// single, on an earlier stretch before a later one.
func (w *work) homes(s scheme, i int) []home {
	var double, single []home
	lo, hi := across(w.cuts[i].open)
	for k, t := range s.stretches {
		switch t.fold {
		case Flat:
			single = append(single, home{k, false})
			continue
		case Along:
			if w.foldable(i, t.depth) {
				double = append(double, home{k, true})
			}
			if low, high := w.singleBand(t.depth); hi-lo <= high-low {
				single = append(single, home{k, false})
			}
		case Across, Swung:
			if w.cuts[i].twin >= 0 {
				double = append(double, home{k, true})
			}
		}
	}
	if w.onFlat[w.cuts[i].cut.ID] {
		return single
	}
	return append(double, single...)
}
