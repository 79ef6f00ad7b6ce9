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

// Allowance is a width of allowance of a seam or hem, in mm, with the depths that
// it is turned by where it is turned more than once, and the titles of the
// pieces that have it.
type Allowance struct {
	Width  float64
	Folds  []float64
	Pieces []string
}

// first returns the allowances of the item that an operation belongs to, each
// width as it reads in u once. It returns none when they were told before.
func (a allowances) first(u unit.Unit, op construct.Operation) []Allowance {
	key := op.Item + "@" + string(op.Copy)
	if a.told[key] {
		return nil
	}
	a.told[key] = true
	var out []Allowance
	for _, d := range a.plan.Demands() {
		if d.Source != op.Item || !sameHand(d.Copy, op.Copy) || d.Width <= 0 {
			continue
		}
		one := Allowance{Width: d.Width}
		if d.Kind == construct.ForHem && len(d.Folds) > 1 {
			one.Folds = d.Folds
		}
		i := slices.IndexFunc(out, func(o Allowance) bool { return o.words(u) == one.words(u) })
		if i < 0 {
			i = len(out)
			out = append(out, one)
		}
		if title := a.title(d.Piece); !slices.Contains(out[i].Pieces, title) {
			out[i].Pieces = append(out[i].Pieces, title)
		}
	}
	return out
}

// words are the width and how it is turned.
func (a Allowance) words(u unit.Unit) string {
	width := unit.Format(a.Width, u)
	if len(a.Folds) == 0 {
		return width
	}
	var folds []string
	for _, f := range a.Folds {
		folds = append(folds, unit.Format(f, u))
	}
	return width + " (turned " + strings.Join(folds, " and ") + ")"
}

// allowanceWords says allowances: one width where all edges have the same,
// otherwise each width with its pieces.
func allowanceWords(u unit.Unit, list []Allowance) string {
	var widths []string
	for _, a := range list {
		w := a.words(u)
		if len(list) > 1 {
			w += " on " + strings.Join(a.Pieces, ", ")
		}
		widths = append(widths, w)
	}
	if len(widths) == 0 {
		return ""
	}
	return "allowance " + strings.Join(widths, "; ")
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
