package pattern

import (
	"fmt"
	"regexp"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/piece"
)

// Step names work in a list of steps: an item with all its operations
// ("outseam"), one operation of it ("fly.outside"), either on one hand
// ("outseam.sew@left") or on both.
type Step struct {
	Item      string
	Operation string     // empty for all of the item
	Hand      piece.Copy // Both for no hand in particular
	Place     finding.Place
}

// StepPattern is the form of a step, as a regular expression.
const StepPattern = `^([a-z0-9][a-z0-9-]*)(?:\.([a-z][a-z0-9-]*))?(?:@(left|right))?$`

var stepForm = regexp.MustCompile(StepPattern)

// ParseStep reads a step; an error says what is wrong with its form.
func ParseStep(text string) (Step, error) {
	m := stepForm.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return Step{}, fmt.Errorf("%q is not a step: write an item, or item.operation, and @left or @right where one hand is meant", text)
	}
	return Step{Item: m[1], Operation: m[2], Hand: piece.Copy(m[3])}, nil
}

// String writes the step as it is read.
func (s Step) String() string {
	text := s.Item
	if s.Operation != "" {
		text += "." + s.Operation
	}
	if s.Hand != piece.Both {
		text += "@" + string(s.Hand)
	}
	return text
}
