package needs

import (
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
)

// A published worked example: a seam of 42 in at 3.0 in needle and 2.67 in
// looper thread an inch takes 6.63 yd, with 15 % wastage 7.62 yd (its own
// rounding is 0.02 yd).
func TestWaste(t *testing.T) {
	sewn := 42 * (3.0 + 2.67) / 36
	near(t, "sewn, yd", sewn, 6.63, 0.02)
	near(t, "with wastage, yd", withWaste(sewn), 7.62, 0.02)
	near(t, "with wastage after the printed 6.63, yd", withWaste(6.63), 7.62, 0.01)
}

// One seam of each kind, counted by hand: 1000 mm of lockstitch 2.5 mm long
// through 1 mm is 2.8 to 1, half on the needle (textilecalculations.com
// formula in metric); topstitching shares the bobbin.
func TestThreadsByKind(t *testing.T) {
	ops := []construct.Operation{
		{ID: "a.sew", Machine: machine.Lockstitch, Stitch: "301", StitchLength: 2.5, Thread: "main", Rows: 1, Length: 1000, Thickness: 1},
		{ID: "a.top", Machine: machine.Lockstitch, Stitch: "301", StitchLength: 2.5, Thread: "topstitch", Rows: 2, Length: 500, Thickness: 1},
		{ID: "a.over", Machine: machine.Overlocker, Stitch: "504", StitchLength: 2.5, Thread: "main", Rows: 1, Length: 1000},
		{ID: "a.tack", Machine: machine.Lockstitch, Stitch: "304", StitchLength: 0.5, Thread: "topstitch", Rows: 1},
		{ID: "a.catch", Machine: machine.Hand, Stitch: "209", Length: 100},
		{ID: "a.press", Machine: machine.Iron},
	}
	threads, found := threads(ops)
	want := map[string]float64{
		mainNeedle:  1400*1.15 + 60,
		mainBobbin:  2*1400*1.15 + 60 + 120 + 60,
		topNeedle:   1400*1.15 + 120 + 60,
		overNeedle:  0.2*14000*1.15 + 60,
		overLoopers: 0.8*14000*1.15 + 120,
	}
	if len(threads) != len(want) {
		t.Errorf("%d kinds of thread, want %d: %v", len(threads), len(want), threads)
	}
	for _, th := range threads {
		near(t, th.Name, th.Length, want[th.Name], 1e-6)
	}
	if !found.Has("needs.no-ratio") || !found.Has("needs.unmeasured") || len(found) != 2 {
		t.Errorf("findings: %v", found.Codes())
	}
	for _, u := range threads[1].Uses {
		if u.Source == "" {
			t.Errorf("%s: a use without a source", u.Stitch)
		}
	}
}
