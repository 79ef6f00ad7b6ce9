package lay

import (
	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/nest"
)

// work is one run of Make.
type work struct {
	cloth     cloth.Cloth
	role      cloth.Role
	opts      Options
	cuts      []ready
	out       []string    // unfit for any lay
	width     int64       // usable, micrometres
	selvedge  int64       // micrometres
	hazards   [][]geom.Pt // on the flat cloth
	onFlat    map[string]bool
	firsts    map[string]nest.Layout // first layouts by what was laid
	roughs    map[string]nest.Layout // the same, roughly drawn
	bonds     []group                // of pieces that the cloth's repeat binds
	unmatched []Unmatched
	found     finding.List
	failed    map[string]bool // errors of the search already told
	quiet     bool            // reports nothing
	rough     bool            // draws pieces with few corners, to compare plans quickly
	hand      *hand           // what is written down; nil when everything is searched
}

// ready is a cut that can be laid.
type ready struct {
	cut  finish.Cut
	open finish.Cut // cut, or the whole piece when it is half of one
	// twin is the index of the exact mirror image cut with it, or -1.
	twin int
}

func newWork(c cloth.Cloth, role cloth.Role, cuts []finish.Cut, o Options) *work {
	w := &work{
		cloth: c, role: role, opts: o, width: micron(c.UsableWidth()),
		selvedge: micron(c.Selvedge.MM() * (1 - c.ShrinkWeft)), hazards: hazards(c),
		onFlat: map[string]bool{}, firsts: map[string]nest.Layout{}, roughs: map[string]nest.Layout{}, failed: map[string]bool{},
	}
	for _, k := range cuts {
		if k.Cloth != role {
			continue
		}
		if r, bad := w.prepare(k); len(bad) > 0 {
			w.found = append(w.found, bad...)
			w.out = append(w.out, k.ID)
		} else {
			w.cuts = append(w.cuts, r)
		}
	}
	for i := range w.cuts {
		w.cuts[i].twin = w.twin(i)
	}
	w.bind()
	return w
}

func (w *work) prepare(k finish.Cut) (ready, finding.List) {
	place := finding.Place{}.OnPiece(k.Piece, string(k.Copy), "")
	if pts := millimetres(k.Outline); len(pts) < 3 || geom.Area(pts) <= 0 || crosses(pts) {
		return ready{}, finding.List{badOutline.At(place, k.ID)}
	}
	r := ready{cut: k, open: k}
	if k.OnFold {
		whole, ok := opened(k)
		if !ok {
			return r, finding.List{badFold.At(place, k.ID)}
		}
		r.open = whole
	}
	if lo, hi := across(r.open); hi-lo > w.width {
		return r, finding.List{tooWide.At(place, k.ID, w.say(float64(hi-lo)/1e3), w.cloth.Title, w.say(float64(w.width)/1e3))}
	}
	return r, nil
}

func crosses(pts []geom.Pt) bool {
	_, _, _, found := geom.SelfCrossing(pts)
	return found
}

// across is how far a cut reaches across the cloth, in its own x.
func across(k finish.Cut) (lo, hi int64) {
	lo, hi = k.Outline[0].X, k.Outline[0].X
	for _, p := range k.Outline {
		lo, hi = min(lo, p.X), max(hi, p.X)
	}
	return lo, hi
}
