package construct

import (
	"slices"

	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
)

// run is edges that lie one after the other round the garment.
type run struct {
	chain []Stretch
	names []piece.Ref // as a join names them
	each  bool        // there is one for each hand; the chain is the left one
	ring  bool
}

// refs is the run as a join names it.
func (r run) refs() []piece.Ref {
	out := slices.Clone(r.names)
	for i, s := range r.chain {
		if out[i].Copy = s.Copy; r.each || s.Copy == piece.Single {
			out[i].Copy = piece.Both
		}
	}
	return out
}

// edgeOn is a stretch with the reference it was named by.
type edgeOn struct {
	Stretch
	ref piece.Ref
}

// runs puts the edges of a finish in the order in which they lie round the
// garment, walked with the outlines. A run on the left whose like is on the
// right stands for both.
func (o *outfitter) runs(refs []piece.Ref) []run {
	u := o.glue()
	rest := o.edgesOn(forward(refs))
	var out []run
	for len(rest) > 0 {
		first := startOf(u, rest)
		r := run{chain: []Stretch{rest[first].Stretch}, names: []piece.Ref{rest[first].ref}}
		rest = slices.Delete(rest, first, first+1)
		for {
			_, to := u.ends(r.chain[len(r.chain)-1])
			i := slices.IndexFunc(rest, func(e edgeOn) bool { from, _ := u.ends(e.Stretch); return u.find(from) == u.find(to) })
			if i < 0 {
				break
			}
			r.chain, r.names = append(r.chain, rest[i].Stretch), append(r.names, rest[i].ref)
			rest = slices.Delete(rest, i, i+1)
		}
		if r.ring = joined(u, r.chain); r.ring {
			r = o.fromCentre(r)
		}
		out = append(out, r)
	}
	return oneForBoth(out)
}

// edgesOn resolves references on every copy that they mean.
func (o *outfitter) edgesOn(refs []piece.Ref) []edgeOn {
	var out []edgeOn
	for _, r := range refs {
		copies := []piece.Copy{r.Copy}
		if u, ok := o.g.Use(r.Piece); ok && r.Copy == piece.Both {
			copies = u.CopyList()
		}
		for _, c := range copies {
			if s, err := seam.ResolveRef(o.g, r, c, false); err == nil {
				out = append(out, edgeOn{s, r})
			}
		}
	}
	return out
}

// startOf is the edge that a run begins with: one that follows no other, else
// the first.
func startOf(u *glue, all []edgeOn) int {
	for i, e := range all {
		from, _ := u.ends(e.Stretch)
		if !slices.ContainsFunc(all, func(x edgeOn) bool { _, to := u.ends(x.Stretch); return u.find(to) == u.find(from) }) {
			return i
		}
	}
	return 0
}

// joined reports whether a chain ends where it begins.
func joined(u *glue, chain []Stretch) bool {
	from, _ := u.ends(chain[0])
	_, to := u.ends(chain[len(chain)-1])
	return u.find(from) == u.find(to)
}

// fromCentre lets a ring begin where a piece meets its own other hand, at the
// last such piece of the view: the seam of a waistband lies at the centre back
// (common practice).
func (o *outfitter) fromCentre(r run) run {
	best, last := 0, -1
	for i, s := range r.chain {
		before := r.chain[(i+len(r.chain)-1)%len(r.chain)]
		at := slices.IndexFunc(o.g.View.Uses, func(u pattern.Use) bool { return u.Piece == s.Piece })
		if before.Piece == s.Piece && before.Copy != s.Copy && at > last {
			best, last = i, at
		}
	}
	r.chain = slices.Concat(r.chain[best:], r.chain[:best])
	r.names = slices.Concat(r.names[best:], r.names[:best])
	return r
}

// oneForBoth lets a run on the left stand for its like on the right.
func oneForBoth(all []run) []run {
	on := func(r run, c piece.Copy) bool {
		return !slices.ContainsFunc(r.chain, func(s Stretch) bool { return s.Copy != c })
	}
	alike := func(a, b run) bool {
		return len(a.chain) == len(b.chain) && !slices.ContainsFunc(a.chain, func(s Stretch) bool {
			return !slices.ContainsFunc(b.chain, func(t Stretch) bool { return s.Piece == t.Piece && s.Edge == t.Edge })
		})
	}
	var out []run
	used := map[int]bool{}
	for i, r := range all {
		if used[i] {
			continue
		}
		for k, q := range all {
			if k != i && !used[k] && on(r, piece.Left) && on(q, piece.Right) && alike(r, q) {
				r.each, used[k] = true, true
				break
			}
		}
		out = append(out, r)
	}
	return out
}

// glue brings together what the garment's joins sew together as it is now.
func (o *outfitter) glue() *glue {
	seams, _ := seam.Resolve(o.g)
	var sewn []Seam
	byID := map[string]pattern.Join{}
	for _, j := range o.g.View.Joins {
		byID[j.ID] = j
	}
	for _, s := range seams {
		m, _ := o.methods.Find(byID[s.Join].Method)
		sewn = append(sewn, Seam{Seam: s, Method: m})
	}
	return newGlue(o.g, sewn, func(s Seam, i int) bool {
		it := item{takes: method.Join, method: s.Method}
		return it.covers(sideName(i))
	})
}
