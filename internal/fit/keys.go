package fit

import (
	"maps"
	"slices"
)

// sortedKeys lists a map's keys in order, so that nothing depends on chance.
func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
