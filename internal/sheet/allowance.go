package sheet

import (
	"slices"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// allowances tells the allowances of a seam or hem, once for each: with the
// step that begins it.
type allowances struct {
	plan construct.Plan
	told map[string]bool // by item and hand
}

// first returns the allowances of the item that an operation belongs to: one
// width where all edges have the same, otherwise each width with its pieces.
// It returns nothing when they were told before.
func (a allowances) first(u unit.Unit, op construct.Operation) string {
	key := op.Item + "@" + string(op.Copy)
	if a.told[key] {
		return ""
	}
	a.told[key] = true
	var widths []string
	pieces := map[string][]string{}
	for _, d := range a.plan.Demands() {
		if d.Source != op.Item || !sameHand(d.Copy, op.Copy) || d.Width <= 0 {
			continue
		}
		w := unit.Format(d.Width, u) + foldWords(u, d)
		if _, ok := pieces[w]; !ok {
			widths = append(widths, w)
		}
		if title := a.title(d.Piece); !slices.Contains(pieces[w], title) {
			pieces[w] = append(pieces[w], title)
		}
	}
	switch len(widths) {
	case 0:
		return ""
	case 1:
		return "allowance " + widths[0]
	}
	for i, w := range widths {
		widths[i] = w + " on " + strings.Join(pieces[w], ", ")
	}
	return "allowance " + strings.Join(widths, "; ")
}

// foldWords says how a hem's allowance is turned.
func foldWords(u unit.Unit, d construct.Demand) string {
	if d.Kind != construct.ForHem || len(d.Folds) < 2 {
		return ""
	}
	var folds []string
	for _, f := range d.Folds {
		folds = append(folds, unit.Format(f, u))
	}
	return " (turned " + strings.Join(folds, " and ") + ")"
}

// sameHand reports whether work on one hand, or on no hand in particular,
// touches a copy.
func sameHand(c, work piece.Copy) bool {
	return work == piece.Both || c == work || c != piece.Left && c != piece.Right
}

// title names a piece as the operations do.
func (a allowances) title(name string) string {
	if t := a.plan.Garment().Pieces[name].Title; t != "" {
		return strings.ToLower(t)
	}
	return name
}
