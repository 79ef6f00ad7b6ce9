package pattern

import (
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/piece"
)

// checkJoin sets Each and refuses joins that cannot be: hands half named, an
// edge sewn to itself.
func (v *viewLoader) checkJoin(j *Join) {
	named, open := 0, 0
	seen := map[piece.Ref]bool{}
	for _, side := range j.Sides {
		for _, r := range side {
			same := r
			same.Reversed = false
			if seen[same] {
				v.tell(selfJoin, j.Place, j.ID, r.String())
			}
			seen[same] = true
			if u, _ := v.use(r.Piece); len(u.CopyList()) < 2 {
				continue
			}
			if r.Copy == piece.Both {
				open++
			} else {
				named++
			}
		}
	}
	if named > 0 && open > 0 {
		v.tell(mixedHands, j.Place, j.ID)
	}
	j.Each = named == 0
	v.checkNotches(*j)
}

// checkNotches wants every notch of a join on each of its sides.
func (v *viewLoader) checkNotches(j Join) {
	for _, name := range j.EaseBetween {
		if len(j.EaseBetween) != 2 || j.EaseBetween[0] == j.EaseBetween[1] || !slices.Contains(j.Notches, name) {
			v.tell(easeWhere, j.Place, j.ID, strings.Join(j.Notches, ", "))
			break
		}
	}
	for _, name := range j.Notches {
		for _, side := range j.Sides {
			if !slices.ContainsFunc(side, func(r piece.Ref) bool {
				_, ok := v.p.Pieces[r.Piece].In[0].Notch(r.Edge, name)
				return ok
			}) {
				v.tell(badRef, j.Place, "join "+j.ID+": side "+side[0].String()+" has no notch called "+name)
			}
		}
	}
}

// checkNames refuses two items of one name: the docket speaks of joins,
// finishes, closures and parts alike by their names.
func (v *viewLoader) checkNames() {
	first := map[string]finding.Place{}
	once := func(id string, at finding.Place) {
		if p, twice := first[id]; twice {
			*v.out = append(*v.out, itemTwice.At(at, v.v.Name, id).Note(p, "the first is here"))
		}
		first[id] = at
	}
	for _, j := range v.v.Joins {
		once(j.ID, j.Place)
	}
	for _, f := range v.v.Finishes {
		once(f.ID, f.Place)
	}
	for _, c := range v.v.Closures {
		once(c.ID, c.Place)
	}
	for _, p := range v.v.Parts {
		once(p.ID, p.Place)
	}
	for _, f := range v.v.Fittings {
		once(f.ID, f.Place)
	}
}

// checkRings refuses pieces that are set on each other in a ring.
func (v *viewLoader) checkRings() {
	on := map[string][]string{}
	for _, j := range v.v.Joins {
		for _, side := range j.Sides {
			for _, r := range side {
				if !r.Inside {
					continue
				}
				for _, other := range j.Sides {
					for _, s := range other {
						if !s.Inside {
							on[s.Piece] = append(on[s.Piece], r.Piece)
						}
					}
				}
			}
		}
	}
	for _, j := range v.v.Joins {
		for _, side := range j.Sides {
			for _, r := range side {
				if r.Inside && slices.Contains(on[r.Piece], first(j, r.Piece)) {
					v.tell(ringJoin, j.Place, r.Piece, first(j, r.Piece))
				}
			}
		}
	}
}

// first is the piece of a join that is set on the named one.
func first(j Join, base string) string {
	for _, side := range j.Sides {
		for _, r := range side {
			if !r.Inside && r.Piece != base {
				return r.Piece
			}
		}
	}
	return ""
}
