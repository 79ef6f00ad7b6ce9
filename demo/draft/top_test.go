package main

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

func tops(t *testing.T) []draft {
	t.Helper()
	d, err := draftTops()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestTopChartAgrees compares the chart printed in pattern.yaml with the size
// table that the draft is drawn from.
func TestTopChartAgrees(t *testing.T) {
	text, err := os.ReadFile("../patterns/mooring/pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, values := range map[string][]float64{
		"bust": topBust, "waist": topWaist, "hip": topHip,
		"back-waist-length": topBackWaist, "arm-length": topArm, "upper-arm": topUpperArm,
	} {
		var words []string
		for _, v := range values {
			words = append(words, fmt.Sprintf("%g", v))
		}
		if row := fmt.Sprintf("\n  %s: [%s]\n", name, strings.Join(words, ", ")); !strings.Contains(string(text), row) {
			t.Errorf("pattern.yaml has no row%s", row)
		}
	}
}

// TestTopJoins measures every pair of chains that is sewn together, in every
// size, on the stitching line: equal, or longer by the ease that the pattern
// states.
func TestTopJoins(t *testing.T) {
	joins := []struct {
		a, b string
		ease float64
	}{
		{"front:shoulder", "back:shoulder", shoulderEase},
		{"front:side", "back:side", 0},
		{"front:armhole back:armhole", "sleeve:cap", capEase},
		{"sleeve:under-back", "sleeve:under-front", 0},
		{"sleeve:wrist", "sleeve-facing:wrist", 0},
		{"sleeve-facing:end-back", "sleeve-facing:end-front", 0},
		{"front:edge", "front-facing:edge", 0},
		{"front:neck", "front-facing:neck", 0},
		{"back:neck", "back-facing:neck", 0},
		{"front-facing:shoulder", "back-facing:shoulder", 0},
	}
	for i, d := range tops(t) {
		for _, j := range joins {
			var a, b float64
			for _, ref := range strings.Fields(j.a) {
				name, e, _ := strings.Cut(ref, ":")
				a += measured(edgeOf(t, d, name, e))
			}
			name, e, _ := strings.Cut(j.b, ":")
			b = measured(edgeOf(t, d, name, e))
			if off := b - a - j.ease; math.Abs(off) > 0.02 {
				t.Errorf("size %s: %s is %.3f mm longer than %s and %g mm of ease", topLabels[i], j.b, off, j.a, j.ease)
			}
		}
	}
}

// TestTopNotchesBalance: with the ease of the head shared along the armhole,
// the notches of sleeve and armhole lie at the same share of the seam.
func TestTopNotchesBalance(t *testing.T) {
	for i, d := range tops(t) {
		front, back := edgeOf(t, d, "front", "armhole").Length(), edgeOf(t, d, "back", "armhole").Length()
		cap := edgeOf(t, d, "sleeve", "cap").Length()
		for _, n := range []struct {
			on, name string
			at       float64 // from the front underarm
		}{
			{"front", "front-pitch", 0}, {"back", "back-pitch", front},
		} {
			m, ok := d[n.on].Notch("armhole", n.name)
			s, ok2 := d["sleeve"].Notch("cap", n.name)
			if !ok || !ok2 {
				t.Fatalf("no notch %s", n.name)
			}
			if a, b := (n.at+m.At)/(front+back), (cap-s.At)/cap; math.Abs(a-b)*cap > 0.05 {
				t.Errorf("size %s: %s lies at %.4f of the armhole and %.4f of the head", topLabels[i], n.name, a, b)
			}
		}
		for _, on := range []string{"front", "back"} {
			m, _ := d[on].Notch("side", "waist")
			if y := m.P.Y - newTopBlock(topSizes[i]).waistY; math.Abs(y) > 0.01 {
				t.Errorf("size %s: the waist notch of the %s lies %.3f mm off the waist", topLabels[i], on, y)
			}
		}
		if m, _ := d["sleeve"].Notch("cap", "crown"); math.Abs(m.P.X) > 3 {
			t.Errorf("size %s: the crown notch lies %.1f mm off the crown", topLabels[i], m.P.X)
		}
	}
}

// TestTopRunsOn checks the angles that meet when seams are joined: together
// they must be straight, or the garment has a point there (common practice:
// pieces are laid together and the edge is checked across the seam).
func TestTopRunsOn(t *testing.T) {
	for i, d := range tops(t) {
		near := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got-want) > 0.5 {
				t.Errorf("size %s: %s is %.2f degrees, want %.0f", topLabels[i], what, got, want)
			}
		}
		near("neck over the shoulder", corner(t, d, "front", "shoulder", "neck")+corner(t, d, "back", "neck", "shoulder"), 180)
		near("armhole over the shoulder", corner(t, d, "front", "armhole", "shoulder")+corner(t, d, "back", "shoulder", "armhole"), 180)
		near("armhole over the side seam", corner(t, d, "front", "side", "armhole")+corner(t, d, "back", "armhole", "side"), 180)
		near("sleeve head over the underarm seam", corner(t, d, "sleeve", "under-back", "cap")+corner(t, d, "sleeve", "cap", "under-front"), 180)
		near("hem over the side seam", corner(t, d, "front", "hem", "side")+corner(t, d, "back", "side", "hem"), 180)
		near("sleeve hem over the underarm seam", corner(t, d, "sleeve", "wrist", "under-back")+corner(t, d, "sleeve", "under-front", "wrist"), 180)
		near("neck at the front edge", corner(t, d, "front", "neck", "edge"), 90)
		near("neck at the centre back", corner(t, d, "back", "centre", "neck"), 90)
		near("free edge of the facing over its shoulder seam", corner(t, d, "front-facing", "shoulder", "free")+corner(t, d, "back-facing", "free", "shoulder"), 180)
	}
}

// TestTopCurves: armhole and neck are hollow all the way; the sleeve head is
// hollow at both feet and round between, with no more bends than those.
func TestTopCurves(t *testing.T) {
	for i, d := range tops(t) {
		for _, ref := range []string{"front:armhole", "back:armhole", "front:neck", "back:neck"} {
			name, e, _ := strings.Cut(ref, ":")
			if n, first := bendsOf(edgeOf(t, d, name, e)); n != 0 || first > 0 {
				t.Errorf("size %s: %s bends both ways", topLabels[i], ref)
			}
		}
		if n, first := bendsOf(edgeOf(t, d, "sleeve", "cap")); n != 2 || first > 0 {
			t.Errorf("size %s: the sleeve head changes its bend %d times, want 2", topLabels[i], n)
		}
	}
}

// bendsOf counts how often a curve changes the way it bends, and says which way
// it bends first: 1 to the left.
func bendsOf(c geom.Curve) (changes int, first float64) {
	way := 0.0
	for at := 0.0; at < c.Length()-2; at += 2 {
		turn := c.TangentAt(at).Cross(c.TangentAt(at + 2))
		if math.Abs(turn) < 1e-7 {
			continue
		}
		s := math.Copysign(1, turn)
		if way == 0 {
			first = s
		} else if s != way {
			changes++
		}
		way = s
	}
	return changes, first
}

// TestTopEase measures the overshirt against its own chart. The least ease is
// the CWU Costume Text's, chapter 16: bust 1 1/2 to 2 in, hip 2 to 2 3/4 in; at
// the upper arm 1 1/2 to 2 in (from memory). An overshirt goes over other
// clothes, so it has more; the paper promises 15 cm at the bust line.
func TestTopEase(t *testing.T) {
	for i, d := range tops(t) {
		s := topSizes[i]
		round := func(level string) float64 {
			return 2*(levelWidth(t, d["front"], level)-topOverlap) + 2*levelWidth(t, d["back"], level)
		}
		for _, c := range []struct {
			at            string
			has, min, max float64
		}{
			{"bust", round("bust") - s.bust, 5.5 * inch, 6 * inch},
			{"hip", round("hip") - s.hip, 2.75 * inch, 5 * inch},
			{"waist", round("waist") - 10*topWaist[i], 1 * inch, 14 * inch},
			{"upper arm", levelWidth(t, d["sleeve"], "upper-arm") - s.upperArm, 2 * inch, 5 * inch},
		} {
			if c.has < c.min || c.has > c.max {
				t.Errorf("size %s: %s ease %.1f mm, want %.1f to %.1f", s.label, c.at, c.has, c.min, c.max)
			}
		}
		// The shoulder seam runs on past the bone, and the centre front stands far
		// enough from the edge for a 20 mm button (published: three quarters of it).
		if got := edgeOf(t, d, "front", "shoulder").Length(); got < s.bust/20+78 {
			t.Errorf("size %s: shoulder seam %.1f mm", s.label, got)
		}
	}
	if topOverlap < 0.75*20 {
		t.Error("the overlap is too narrow for the button")
	}
}

// TestTopGradingRises checks that every edge that is not meant to stay the same
// grows from size to size, and never by more than 16 mm.
func TestTopGradingRises(t *testing.T) {
	same := []string{
		"front-facing:hem", "sleeve-facing:end-back", "sleeve-facing:end-front", "front-facing:shoulder", "back-facing:shoulder",
		"back-facing:centre", "breast-pocket:corner-in", "breast-pocket:corner-out", "hip-pocket:corner-in", "hip-pocket:corner-out",
	}
	all := tops(t)
	for i := 1; i < len(all); i++ {
		for name, p := range all[i] {
			for _, e := range p.Edges {
				grows := e.Curve.Length() - edgeOf(t, all[i-1], name, e.Name).Length()
				ok := grows > 0.05 && grows < 30
				if isIn(same, name+":"+e.Name) {
					ok = math.Abs(grows) < 0.05
				}
				if !ok {
					t.Errorf("size %s: %s:%s grows by %.2f mm", topLabels[i], name, e.Name, grows)
				}
			}
		}
	}
}

func isIn(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}

// TestTopPocketsFitTheirPlace compares each patch pocket's sewn edges with the
// placement line, corner by corner, and keeps them on the front, clear of the
// facing and of each other.
func TestTopPocketsFitTheirPlace(t *testing.T) {
	for i, d := range tops(t) {
		for pocket, line := range map[string]string{"hip-pocket": "hip-pocket", "breast-pocket": "breast"} {
			place, _ := d["front"].Line(piece.Placement, line)
			sewn := d[pocket].Edges[1:]
			shift := place.Curve.Start().Sub(sewn[0].Curve.Start())
			for k, e := range sewn {
				if off := e.Curve.End().Add(shift).Dist(place.Curve[k].End()); off > 0.02 {
					t.Errorf("size %s: %s:%s ends %.3f mm off its place", topLabels[i], pocket, e.Name, off)
				}
			}
			for _, p := range place.Curve.Flatten(1) {
				if !geom.Inside(d["front"].Outline(0.1), p) || p.X < facingWidth-topOverlap+10 {
					t.Errorf("size %s: the %s leaves the front or lies on the facing at %.0f %.0f", topLabels[i], pocket, p.X, p.Y)
				}
			}
		}
	}
}

// TestTopPrints looks for corners inside the edges that are one line to the eye
// and samples the cutting lines, in every size.
func TestTopPrints(t *testing.T) {
	for i, d := range tops(t) {
		for name, p := range d {
			printed, err := printPiece(p)
			if err != nil {
				t.Fatal(err)
			}
			for k, e := range p.Edges {
				if at := e.Curve.Kinks(1e-9); len(at) > 0 {
					t.Errorf("size %s: %s:%s has a corner at %.1f mm", topLabels[i], name, e.Name, at)
				}
				if at := printed.cut[k].Kinks(1e-6); len(at) > 0 {
					t.Errorf("size %s: the printed %s:%s has a corner at %.1f mm", topLabels[i], name, e.Name, at)
				}
				for _, s := range e.Curve {
					for u := 0.0; u <= 1; u += 0.125 {
						q := outside(s, u, e.Printed)
						if _, off := printed.cut[k].Nearest(q); off > 0.01 && geom.Inside(flat(printed), q) {
							t.Errorf("size %s: %s:%s is printed %.3f mm off", topLabels[i], name, e.Name, off)
						}
					}
				}
			}
		}
	}
}
