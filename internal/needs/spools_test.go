package needs

import (
	"slices"
	"testing"
)

// Needle and bobbin of one thread are one spool; the sum is kept.
func TestSpools(t *testing.T) {
	got := spools([]Thread{{Name: mainNeedle, Length: 100}, {Name: mainBobbin, Length: 150}, {Name: topNeedle, Length: 40}, {Name: overNeedle, Length: 10}, {Name: overLoopers, Length: 30}, {Name: handThread, Length: 5}},
		map[string]string{"main": "rust", "topstitch": "straw"})
	want := []struct {
		title  string
		length float64
		parts  []string
	}{
		{"main thread, rust", 250, []string{"needle", "bobbin"}}, {"topstitch thread, straw", 40, []string{"needle"}},
		{"overlock thread", 40, []string{"needle", "loopers"}}, {"hand thread", 5, nil},
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		if got[i].Title() != w.title || !slices.Equal(got[i].Parts, w.parts) {
			t.Errorf("%+v, want %+v", got[i], w)
		}
		near(t, w.title, got[i].Length, w.length, 1e-12)
	}
}
