package change

import (
	"fmt"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/source"
)

// cutFrom cuts a piece from the cloth of another role: a facing or a pocket bag
// that does not show, from a thinner or cheaper cloth. Interfacing that the
// piece has besides stays.
func cutFrom(j *job) string {
	v := &j.g.View
	v.Uses = slices.Clone(v.Uses)
	var names []string
	for i := range v.Uses {
		u := &v.Uses[i]
		if names = append(names, u.Piece); u.Piece != j.step.Piece {
			continue
		}
		k := slices.IndexFunc(u.Cloths, func(r cloth.Role) bool { return r != cloth.Interfacing })
		if k < 0 {
			j.tell(noShell, u.Piece)
			return ""
		}
		title := j.g.Pieces[u.Piece].Title
		if slices.Contains(u.Cloths, j.step.Cloth) {
			j.tell(nothing, fmt.Sprintf("%s is cut from %s", title, j.step.Cloth))
			return ""
		}
		u.Cloths = slices.Clone(u.Cloths)
		u.Cloths[k] = j.step.Cloth
		return fmt.Sprintf("%s from %s", title, j.step.Cloth)
	}
	j.tell(noPiece, j.step.Piece, source.Nearest(j.step.Piece, names))
	return ""
}
