package needs

import (
	"math"
	"testing"
)

const inch = 25.4

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s: got %g, want %g within %g", what, got, want, tolerance)
	}
}

// Published worked numbers, inches of thread per inch of seam.
func TestRatioFigures(t *testing.T) {
	for _, c := range []struct {
		stitch          string
		perInch         float64
		thickness, want float64 // in
		source          string
	}{
		{"301", 10, 0.010, 2.20, "textilecalculations.com, worked example"},
		{"101", 9, 0.005, 3.09, "textileblog.com, worked example"},
		{"401", 8, 0.055, 4.88, "401 chart, thread maker's bulletin"},
		{"401", 8, 0.060, 4.96, "the same"},
		{"401", 8, 0.065, 5.04, "the same"},
		{"401", 8, 0.070, 5.12, "the same"},
		{"401", 8, 0.075, 5.20, "the same"},
	} {
		r, ok := RatioOf(c.stitch, inch/c.perInch, c.thickness*inch)
		if !ok {
			t.Fatalf("%s is not known", c.stitch)
		}
		near(t, c.stitch+" after "+c.source, r.Total(), c.want, 1e-9)
	}
}

// The overedge figure lies near the published ratio of 14 for two plies of
// drill (a soft check: the constant of the figure is not confirmed).
func TestOveredgeFigureIsNearItsRatio(t *testing.T) {
	r, _ := RatioOf("504", 2.5, 1.2)
	near(t, "504", r.Total(), 14, 2)
}

// A published worked example: 220 cm of 401 at the ratio 5.5 take 1210 cm,
// 302.5 on the needle, 907.5 on the looper; 220 cm of 301 at 2.5 take 275 each.
func TestRatioSplit(t *testing.T) {
	r, _ := RatioOf("401", 0, 0)
	near(t, "401 total", 220*r.Total(), 1210, 1e-9)
	near(t, "401 needle", 220*r.Needle, 302.5, 1e-9)
	near(t, "401 looper", 220*r.Under, 907.5, 1e-9)
	r, _ = RatioOf("301", 0, 0)
	near(t, "301 needle", 220*r.Needle, 275, 1e-9)
	near(t, "301 bobbin", 220*r.Under, 275, 1e-9)
	if _, ok := RatioOf("209", 2.5, 1); ok {
		t.Error("a ratio is given for 209, of which none was found")
	}
}
