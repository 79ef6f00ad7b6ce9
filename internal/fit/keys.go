package fit

import (
	"cmp"
	"maps"
	"slices"
)

// sortedKeys lists a map's keys in order, so that nothing depends on chance.
func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
