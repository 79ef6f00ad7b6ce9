package source

import (
	"testing"

	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	keys := []string{"waist", "hip", "thigh", "knee", "back-length", "gusset", "size"}
	for word, want := range map[string]string{
		"wiast": "waist", "wast": "waist", "waists": "waist", "Waist": "waist", "hipp": "hip", "hp": "hip",
		"tigh": "thigh", "back_length": "back-length", "back length": "back-length", "backlenght": "back-length",
		"sizes": "size", "": "", "x": "", "shoulder": "", "bust": "", "knees": "knee",
	} {
		if got := Nearest(word, keys); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
	if Nearest("waist", nil) != "" || Nearest("ab", []string{"cd"}) != "" {
		t.Error("nothing is near nothing")
	}
}

// Textbook distances (Wagner and Fischer, "The string-to-string correction
// problem", 1974, counts kitten to sitting as 3; the restricted form counts ca
// to abc as 3, the unrestricted one as 2; from memory).
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"ca", "abc", 3}, {"ab", "ba", 1}, {"", "abc", 3}, {"abc", "", 3}, {"saturday", "sunday", 3}} {
		if got := distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("distance(%s, %s) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// slowDistance follows the definition, without a table.
func slowDistance(a, b []rune) int {
	if len(a) == 0 || len(b) == 0 {
		return len(a) + len(b)
	}
	cost := 1
	if a[0] == b[0] {
		cost = 0
	}
	d := min(slowDistance(a[1:], b)+1, slowDistance(a, b[1:])+1, slowDistance(a[1:], b[1:])+cost)
	if len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] {
		d = min(d, slowDistance(a[2:], b[2:])+1)
	}
	return d
}

func TestDistanceAgainstDefinition(t *testing.T) {
	letters := rapid.SliceOfN(rapid.SampledFrom([]rune("abc")), 0, 6)
	rapid.Check(t, func(t *rapid.T) {
		a, b := letters.Draw(t, "a"), letters.Draw(t, "b")
		if got, want := distance(a, b), slowDistance(a, b); got != want {
			t.Fatalf("distance(%s, %s) = %d, want %d", string(a), string(b), got, want)
		}
		if distance(a, b) != distance(b, a) || distance(a, a) != 0 {
			t.Fatalf("distance is not a symmetric distance for %s, %s", string(a), string(b))
		}
	})
}
