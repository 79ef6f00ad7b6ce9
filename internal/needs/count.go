package needs

import (
	"gusset/internal/construct"
	"gusset/internal/finding"
)

// Count adds up what the operations and notions take and what the options say
// of cloth and buttons. It finds stitches whose thread is not known, rows of
// unknown length, and cloth that is too short.
func Count(ops []construct.Operation, notions []construct.Notion, o Options) (List, finding.List) {
	var l List
	var out, found finding.List
	l.threads, found = threads(ops)
	out = append(out, found...)
	l.spools = spools(l.threads, o.Colours)
	l.items, found = cloths(o.Cloths)
	out = append(out, found...)
	l.items = append(l.items, notionItems(notions, o.Button)...)
	l.items = append(l.items, needles(ops)...)
	return l, out
}
