package advise

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gusset/internal/docket"
)

// fields writes what a change says, in the order of the loader.
var fields = map[docket.ChangeKind]func(docket.Change) string{
	docket.HemGirth: func(s docket.Change) string { return fmt.Sprintf("edge: %s, to: %s, from: %s", s.Edge, s.To, s.From) },
	docket.MoveHem:  func(s docket.Change) string { return fmt.Sprintf("edge: %s, by: %s", s.Edge, s.By) },
	docket.CutFrom:  func(s docket.Change) string { return fmt.Sprintf("piece: %s, cloth: %s", s.Piece, s.Cloth) },
	docket.Divide:   func(s docket.Change) string { return fmt.Sprintf("piece: %s, at: %s", s.Piece, s.Where) },
	docket.SetFinish: func(s docket.Change) string {
		var values []string
		for _, name := range slices.Sorted(maps.Keys(s.Values)) {
			values = append(values, fmt.Sprintf("%s: %s", name, s.Values[name]))
		}
		return fmt.Sprintf("item: %s, values: {%s}", s.Item, strings.Join(values, ", "))
	},
}

// written is a step as it stands in a docket.
func written(s docket.Change) string {
	return fmt.Sprintf("- {id: %s, %s: {%s}}", s.ID, s.Kind, fields[s.Kind](s))
}
