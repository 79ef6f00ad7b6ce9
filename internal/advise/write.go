package advise

import "gusset/internal/docket"

// written is a step as it stands in a docket's list.
func written(s docket.Change) string { return "- " + docket.Written(s) }
