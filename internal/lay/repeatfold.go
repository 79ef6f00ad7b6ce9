package lay

import (
	"math"
	"slices"

	"gusset/internal/finding"
)

// onRepeat drops the schemes with a fold on which the layers of a repeating
// cloth would not show the same, and says why. Open cloth is always right.
func (w *work) onRepeat(list []scheme) []scheme {
	if !w.cloth.Repeat.Exists() {
		return list
	}
	asked := slices.Contains(Plans, Plan(w.opts.Fold))
	told := false
	list = slices.DeleteFunc(list, func(s scheme) bool {
		for _, t := range s.stretches {
			why, mend := w.refusal(t)
			if why == "" {
				continue
			}
			if !told && (asked || s.plan == Lengthwise) {
				told = true
				kind := unfolded
				if asked {
					kind.Severity = finding.Warn
				}
				w.found = append(w.found, kind.At(w.cloth.Repeat.Place, w.cloth.Title, foldWords[t.fold], why, mend))
			}
			return true
		}
		return false
	})
	if len(list) == 0 {
		list = append(list, scheme{Open, []stretch{{fold: Flat}}})
	}
	return list
}

var foldWords = map[Fold]string{Along: "lengthwise", Across: "crosswise", Swung: "crosswise and turned"}

// refusal says why a stretch of repeating cloth is not laid so, and what would
// mend it; empty when it may.
func (w *work) refusal(s stretch) (why, mend string) {
	along, across := w.cloth.Periods()
	switch s.fold {
	case Across:
		if along > 0 {
			return "the fold would have to fall on a bar that runs across, wherever the pieces end", "lay it open or folded lengthwise"
		}
	case Swung:
		if along > 0 || across > 0 {
			return "the layer that is turned would not show the same as the one below", "lay it open"
		}
	case Along:
		beside, ok := w.cloth.FoldsAt(float64(s.depth) / 1000)
		switch {
		case ok:
		case !w.cloth.Repeat.Even:
			return "its repeat across is uneven, so the two layers would not show the same", "lay it open: each piece is cut singly, face up"
		case !w.cloth.Repeat.Known:
			return "where the bars lie that run along it is not told, so nothing says that a fold falls on one", "measure where a bar lies: bar: 3 cm"
		default:
			return "the fold would lie " + w.say(beside) + " beside the middle of a bar or of a space", "lay it open"
		}
	}
	return "", ""
}

// ontoBars makes depths of a fold deeper, until they fall on a line of symmetry
// of the repeat across; depths for which there is none are left out.
func (w *work) ontoBars(depths []int64) []int64 {
	_, across := w.cloth.Periods()
	if across == 0 {
		return depths
	}
	if !w.cloth.Centred() {
		return nil
	}
	var out []int64
	for _, d := range depths {
		bar, half := w.cloth.Bar(), across/2
		on := micron(bar + float64(math.Ceil((float64(d)/1000-bar)/half-1e-9)*half))
		if on < w.width/2 && !slices.Contains(out, on) {
			out = append(out, on)
		}
	}
	return out
}
