package method

import "gusset/internal/machine"

// The usual cautions of the sewing room, by a short word that method files may
// use in place of the sentence.
var cautions = map[string]string{
	"needle":  "needle: fingers clear, take pins out before they reach the foot, switch off before changing the needle",
	"knife":   "overlocker knife: keep fingers and pins clear of it, switch off before threading",
	"iron":    "hot iron: rest it on its heel, keep fingers clear of the steam, switch it off at the end",
	"blade":   "blade: cut away from yourself, keep the other hand behind the edge",
	"hole":    "cutting a buttonhole: a pin across each end, blade away from the hand",
	"ripper":  "seam ripper: push it away from yourself, never towards the hand that holds the cloth",
	"strike":  "striking a tool: eye protection, a solid base, fingers clear of the die",
	"hand":    "hand needle: use a thimble, count needles and pins at the end",
	"small":   "small part: for a child, sew it so that it cannot come off, and check your local code",
	"elastic": "elastic: for a child, leave no free ends or loops, and check your local code",
}

// CautionWords lists the short words.
func CautionWords() []string { return sortedKeys(cautions) }

// usual is the caution that goes without saying with a place of work, so that
// a method that names none is not without it.
var usual = map[machine.Kind]string{
	machine.Lockstitch: "needle",
	machine.Overlocker: "knife",
	machine.Iron:       "iron",
}

// caution is the sentence for what a file says: a short word, a sentence of its
// own, or nothing.
func caution(text string, at machine.Kind) string {
	if text == "" {
		text = usual[at]
	}
	if full, short := cautions[text]; short {
		return full
	}
	return text
}
