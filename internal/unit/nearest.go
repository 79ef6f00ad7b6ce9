package unit

import "sort"

// nearest gives the unit whose spelling is one slip away from word (one
// letter wrong, missing or too many, or two neighbours swapped), "" if none.
// Between several, swapped neighbours are preferred, then one with the same
// first letter, then the longer spelling, then the alphabet.
func nearest(word string) Unit {
	var found []string
	for name := range names {
		if oneSlip(word, name) {
			found = append(found, name)
		}
	}
	if len(found) == 0 {
		return ""
	}
	sort.Slice(found, func(i, j int) bool {
		a, b := found[i], found[j]
		if sa, sb := swapped(word, a), swapped(word, b); sa != sb {
			return sa
		}
		if sa, sb := a[0] == word[0], b[0] == word[0]; sa != sb {
			return sa
		}
		if len(a) != len(b) {
			return len(a) > len(b)
		}
		return a < b
	})
	return names[found[0]]
}

// oneSlip reports whether one typing slip turns a into b.
func oneSlip(a, b string) bool {
	if len(a) < len(b) {
		a, b = b, a
	}
	if len(a)-len(b) > 1 || len(b) == 0 {
		return false
	}
	i := 0
	for i < len(b) && a[i] == b[i] {
		i++
	}
	if len(a) > len(b) {
		return a[i+1:] == b[i:]
	}
	if i == len(a) {
		return false
	}
	if a[i+1:] == b[i+1:] {
		return true
	}
	return swapped(a, b)
}

// swapped reports whether b is a with two neighbours swapped.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range len(a) - 1 {
		if a[i] != b[i] {
			return a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		}
	}
	return false
}
