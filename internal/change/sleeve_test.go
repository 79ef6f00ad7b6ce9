package change

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// A fuller upper arm is wider by the amount at its level and as wide as before
// at the wrist; the head keeps its length (identity of spreading about the
// crown), so the armhole needs no change.
func TestUpperArm(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{30, -25} {
			c, _ := apply(t, g, docket.Change{Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(by)})
			now := c.Garment()
			l, _ := now.Pieces["sleeve"].Line(piece.Level, "upper-arm")
			y := height(l.Curve)
			same(t, size+" upper arm", widthAt(now.Pieces["sleeve"], y), widthAt(g.Pieces["sleeve"], y)+by, 0.05)
			same(t, size+" wrist", edgeOn(t, now, "sleeve", "wrist").Length(), edgeOn(t, g, "sleeve", "wrist").Length(), 0.02)
			same(t, size+" head", edgeOn(t, now, "sleeve", "cap").Length(), edgeOn(t, g, "sleeve", "cap").Length(), 0.02)
			if by > 0 == (edgeOn(t, now, "sleeve", "cap").At(200).Y > edgeOn(t, g, "sleeve", "cap").At(200).Y) {
				t.Errorf("size %s: the crown of a wider sleeve does not come down", size)
			}
		}
	}
}

// A deeper armhole: the foot goes down by the amount on front and back, the tip
// and the hollow stay, the underarm seam is shorter by about the amount, and the
// sleeve is eased as before (identity: the head gains what the armhole gains).
func TestArmholeDepth(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{12, -10} {
			c, _ := apply(t, g, shoulder(docket.ArmholeDepth, by))
			now := c.Garment()
			var hole, old float64
			for _, on := range []string{"front", "back"} {
				a, b := edgeOn(t, now, on, "armhole"), edgeOn(t, g, on, "armhole")
				foot, was := a.Start(), b.Start()
				if on == "back" {
					foot, was = a.End(), b.End()
				}
				same(t, size+" foot", was.Y-foot.Y, by, 0.1)
				same(t, size+" "+on+" shoulder", edgeOn(t, now, on, "shoulder").Length(), edgeOn(t, g, on, "shoulder").Length(), 0.05)
				hole, old = hole+a.Length(), old+b.Length()
			}
			same(t, size+" ease of the head", edgeOn(t, now, "sleeve", "cap").Length()-hole, edgeOn(t, g, "sleeve", "cap").Length()-old, 0.05)
			same(t, size+" underarm", edgeOn(t, now, "sleeve", "under-back").Length(), edgeOn(t, g, "sleeve", "under-back").Length()-by, 0.2*math.Abs(by))
			if turns := edgeOn(t, now, "front", "armhole").Kinks(1e-3); len(turns) > 0 {
				t.Errorf("size %s: the armhole has a corner at %v", size, turns)
			}
		}
	}
}

// A longer sleeve gains the amount at both underarm edges and keeps its head and
// its wrist.
func TestSleeveLength(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{25, -25} {
			c, _ := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "arm", By: unit.MM(by)})
			now := c.Garment()
			for _, e := range []string{"cap", "wrist"} {
				same(t, size+" "+e, edgeOn(t, now, "sleeve", e).Length(), edgeOn(t, g, "sleeve", e).Length(), 0.02)
			}
			same(t, size+" underarm", edgeOn(t, now, "sleeve", "under-back").Length(), edgeOn(t, g, "sleeve", "under-back").Length()+by, 0.05*math.Abs(by))
		}
	}
}
