package referee

import (
	"slices"

	"gusset/internal/finding"
	"gusset/internal/lay"
)

// sections: each one of this cloth, of this plan, and behind the one before.
func (j *judge) sections() {
	end := int64(0)
	for i, s := range j.lay.Sections {
		wrong := j.sectionFault(s, end)
		if wrong != "" {
			j.found = append(j.found, section.At(finding.Place{}, i+1, s.From, s.To, s.Width, wrong))
		}
		end = max(end, endOf(s))
		j.reach = max(j.reach, endOf(s))
	}
}

// endOf is where the cloth of a section ends: folded crosswise, as far beyond
// the fold as it lies before it.
func endOf(s lay.Section) int64 {
	from, to := micron(s.From), micron(s.To)
	if s.Fold == lay.Across || s.Fold == lay.Swung {
		return to + (to - from)
	}
	return to
}

func (j *judge) sectionFault(s lay.Section, end int64) string {
	from, to := micron(s.From), micron(s.To)
	switch {
	case !slices.Contains(lay.Folds, s.Fold):
		return "there is no such fold"
	case from < end:
		return "it begins before the one before it ends"
	case to < from:
		return "it ends before it begins"
	case endOf(s) > j.length:
		return "it ends beyond the cloth"
	case s.Fold != lay.Flat && !slices.Contains(planned[j.lay.Plan], s.Fold):
		return "it is folded otherwise than was planned"
	}
	return j.widthFault(s)
}

// planned are the folds of each plan.
var planned = map[lay.Plan][]lay.Fold{
	lay.Lengthwise: {lay.Along}, lay.PartFold: {lay.Along}, lay.Crosswise: {lay.Across}, lay.Turned: {lay.Swung},
	lay.TwoFolds: {lay.Along, lay.Across, lay.Swung},
}

func (j *judge) widthFault(s lay.Section) string {
	width, depth := micron(s.Width), micron(s.Depth)
	if s.Fold != lay.Along {
		switch {
		case depth != 0:
			return "it has no lengthwise fold to be so deep"
		case width > j.width:
			return "it is too wide"
		}
		return ""
	}
	switch {
	case depth <= 0 || depth > j.width/2:
		return "the fold is deeper than half the cloth, or not at all"
	case width != j.width-depth && (width != depth || depth != j.width/2):
		return "folded so deep the cloth has another width"
	case j.lay.Plan == lay.Lengthwise && depth != j.width/2:
		return "it was to be folded selvedge to selvedge"
	}
	return ""
}
