package advise

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/making"
	"gusset/internal/pattern"
)

// mostCloths is how many other cloths are tried for hidden pieces.
const mostCloths = 3

const otherWarning = "take a cloth that washes as the first one does and is no heavier; its edge may show where the garment opens"

// otherCloth cuts the pieces that do not show from another cloth: first one
// that the docket has already, then others of the workroom that are no thicker.
func (c *counsel) otherCloth() []way {
	hidden := c.hidden()
	if len(hidden) == 0 || c.lay.Role == cloth.Interfacing {
		return nil
	}
	var w way
	for _, role := range docket.CutRoles() {
		if k, ok := c.in.Cloths[role]; ok && role != c.lay.Role && k.Name != c.lay.Cloth.Name {
			w = append(w, c.fromCloth(hidden, role, k))
		}
	}
	if _, taken := c.in.Cloths[cloth.Contrast]; !taken {
		for _, k := range c.spareCloths() {
			w = append(w, c.fromCloth(hidden, cloth.Contrast, k))
		}
	}
	return []way{w[:min(len(w), mostCloths)]}
}

// hidden are the pieces that do not show and are cut from the short cloth.
func (c *counsel) hidden() []pattern.Use {
	var out []pattern.Use
	for _, u := range c.base.Garment().View.Uses {
		if u.Hidden && slices.Contains(u.Cloths, c.lay.Role) {
			out = append(out, u)
		}
	}
	return out
}

// spareCloths are the cloths of the workroom that the docket does not name and
// that are no thicker, the nearest in thickness first.
func (c *counsel) spareCloths() []cloth.Cloth {
	var out []cloth.Cloth
	for _, k := range c.opts.Others {
		used := k.Name == c.lay.Cloth.Name
		for _, other := range c.in.Cloths {
			used = used || other.Name == k.Name
		}
		if !used && k.Thickness.MM() <= c.lay.Cloth.Thickness.MM() {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b cloth.Cloth) int {
		return cmp.Or(cmp.Compare(b.Thickness.MM(), a.Thickness.MM()), cmp.Compare(a.Name, b.Name))
	})
	return out
}

func (c *counsel) fromCloth(hidden []pattern.Use, role cloth.Role, k cloth.Cloth) edit {
	var titles, lines []string
	var steps []docket.Change
	for _, u := range hidden {
		s := docket.Change{ID: c.free(u.Piece + "-cloth"), Kind: docket.CutFrom, Piece: u.Piece, Cloth: role}
		steps = append(steps, s)
		lines = append(lines, written(s))
		titles = append(titles, strings.ToLower(c.base.Garment().Pieces[u.Piece].Title))
	}
	write := "changes: " + strings.Join(lines, "\n         ")
	if _, named := c.in.Cloths[role]; !named {
		write = fmt.Sprintf("cloths: {..., %s: %s}\n", role, k.Name) + write
	}
	return edit{
		step: Step{
			Way: "cloth", Text: fmt.Sprintf("%s cut from %s", strings.Join(titles, " and "), k.Title), Warning: otherWarning,
			File: c.docketFile(), Write: write,
		},
		apply: func(in *making.Inputs) {
			in.Cloths[role], in.Docket.Cloths[role] = k, k.Name
			in.Docket.Changes = append(in.Docket.Changes, steps...)
		},
	}
}
