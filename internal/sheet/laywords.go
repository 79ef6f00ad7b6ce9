package sheet

import (
	"fmt"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

const tapeWords = "Rule a line square across the cloth %s inside its cut end: distances along are measured from this squared line. Distances across " +
	"are measured from the side drawn at the foot of the chart: from the outer edge of that selvedge, or from the fold. Pin each piece with both " +
	"ends of its grain line at the stated distances (the half of a piece: with its fold line on the fold); when both ends are equally far from the " +
	"side, the grain is true. Lay all pieces %s before the first cut, and cut them in the order of their numbers."

const bladeWords = "Caution: shears and rotary cutters cut fingers too. Cut away from yourself, keep the free hand off the line, close the blade when " +
	"you lay it down, and keep pins out of mouths. Where the law or the workroom has rules of its own, they come first."

const sectionTapeWords = "Rule a line square across the cloth %s beyond the squared line of the whole cloth: distances along are measured from there. " +
	"Everything of the sections before is cut by then; the cloth behind this one stays rolled."

// tapeText says how to lay with a tape, and the caution for blades.
func tapeText(u unit.Unit, l lay.Lay) string {
	all := ""
	if len(l.Sections) > 1 {
		all = "of a section"
	}
	return strings.ReplaceAll(fmt.Sprintf(tapeWords, unit.Format(lay.Squaring, u), all), "  ", " ") + "\n" + bladeWords
}

// sectionTape says from where a section's distances are measured.
func sectionTape(u unit.Unit, l lay.Lay, i int) string {
	if i == 0 {
		return "Distances along are measured from the squared line. The cloth behind this section stays rolled.\n" + bladeWords
	}
	return fmt.Sprintf(sectionTapeWords, fromSquared(u, l.Sections[i].From)) + "\n" + bladeWords
}

func layTitle(u unit.Unit, l lay.Lay) string {
	there := unit.Format(l.Cloth.UsableLength(), u)
	return fmt.Sprintf("%s, for %s, %s: takes %s of %s, %s wide between the selvedges; pieces cover %.0f %% of what it takes.",
		sentence(l.Cloth.Title), l.Role, l.Plan.Words(), unit.Format(l.Length, u), there, unit.Format(l.Cloth.UsableWidth(), u), 100*l.Density)
}

// clothWords says what must be known of the cloth before it is laid.
func clothWords(l lay.Lay) string {
	c, words := l.Cloth, ""
	if c.Direction == cloth.OneWay {
		words = "One-way cloth: the tops of all pieces point the same way. "
	}
	if n := len(c.Flaws); n == 1 {
		words += "One flaw is hatched: mark it on the cloth before laying. "
	} else if n > 1 {
		words += fmt.Sprintf("%d flaws are hatched: mark them on the cloth before laying. ", n)
	}
	if c.Remnant() {
		words += "What this remnant lacks of a whole width is hatched. "
	}
	if !c.Washed {
		words += "Not washed yet: lengths and widths here are what washing leaves. Wash, dry, press and measure it before laying."
	}
	return words
}

// lyingWords say how the cloth of a section lies.
var lyingWords = map[lay.Fold]string{
	lay.Flat:   "single layer, face up",
	lay.Along:  "folded selvedge to selvedge, right sides together, the fold drawn at the foot as a heavy line",
	lay.Across: "folded crosswise, right sides together, the fold drawn at the right as a heavy line",
	lay.Swung: "two layers, right sides together: fold crosswise at the right, cut along the fold, and turn the upper layer end for end, " +
		"so that the tops point one way in both",
}

// sectionWords says how a stretch of cloth is laid.
func sectionWords(u unit.Unit, s lay.Section) string {
	how := lyingWords[s.Fold]
	if s.Single() {
		how = fmt.Sprintf("the near selvedge folded over by %s, right sides together, the fold drawn at the foot as a heavy line; "+
			"beyond the layer folded over, whose edge is drawn dashed, the cloth is single, face up", unit.Format(s.Depth, u))
	}
	return fmt.Sprintf("From %s to %s beyond the squared line: %s.", fromSquared(u, s.From), fromSquared(u, s.To), how)
}

// fromSquared writes a distance along the cloth as it is measured once the end
// has been squared: the lay reckons from the end as it was cut.
func fromSquared(u unit.Unit, x float64) string { return tapeAlong(u, x-lay.Squaring) }

// tapeAlong writes a distance, and nothing less than nothing.
func tapeAlong(u unit.Unit, x float64) string {
	if x > 0.01 {
		return unit.Format(x, u)
	}
	return "0"
}

// pieceOf names a placed piece and its hand.
func pieceOf(p lay.Placed) string {
	if p.Layers > 1 && p.Cut.Pair != "" {
		return p.Cut.Title + ", pair"
	}
	return p.Cut.Name()
}

// howItLies says layers, the side of the paper that is up, and from which edge
// the tape measures.
func howItLies(l lay.Lay, p lay.Placed) string {
	// The paper of a pair shows the left hand, and a right hand is its back.
	side := "paper face up"
	if rightOfPair := p.Cut.Copy == piece.Right && p.Cut.Pair != ""; p.Flip != rightOfPair {
		side = "paper face down"
	}
	layers, from := "one layer", "from the selvedge"
	if p.Layers > 1 {
		layers = "two layers"
	}
	if p.Section >= 0 && p.Section < len(l.Sections) && l.Sections[p.Section].FromFold() {
		from = "from the fold"
	}
	if p.Cut.OnFold {
		from = "fold line on the fold"
	}
	return list(layers, side, from)
}
