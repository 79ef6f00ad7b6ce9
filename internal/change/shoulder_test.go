package change

import (
	"math"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/unit"
)

func shoulder(k docket.ChangeKind, by float64) docket.Change {
	return docket.Change{Kind: k, Item: "shoulder", Edge: "armhole", By: unit.MM(by)}
}

// A shoulder made squarer turns about the neck point: it keeps its length, its
// tip and the foot of the armhole rise by the amount, the neck stays and so does
// the length of the armhole (identities of a hinge and of a shift; handbooks:
// raise the underarm as much as the shoulder tip). The facing's shoulder still
// lies on the front's.
func TestShoulderSlope(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{10, -12} {
			c, _ := apply(t, g, shoulder(docket.ShoulderSlope, by))
			now := c.Garment()
			for _, on := range []string{"front", "back"} {
				seam, was := edgeOn(t, now, on, "shoulder"), edgeOn(t, g, on, "shoulder")
				hole, old := edgeOn(t, now, on, "armhole"), edgeOn(t, g, on, "armhole")
				same(t, size+" "+on+" shoulder", seam.Length(), was.Length(), 0.1)
				same(t, size+" "+on+" armhole", hole.Length(), old.Length(), 0.5)
				tip, oldTip, foot, oldFoot := hole.End(), old.End(), hole.Start(), old.Start()
				if on == "back" {
					tip, foot, oldTip, oldFoot = foot, tip, oldFoot, oldTip
				}
				same(t, size+" "+on+" tip", tip.Y-oldTip.Y, by, 0.1)
				same(t, size+" "+on+" foot", foot.Y-oldFoot.Y, by, 0.1)
				same(t, size+" "+on+" neck", edgeOn(t, now, on, "neck").Length(), edgeOn(t, g, on, "neck").Length(), 0.05)
			}
			facing, front := edgeOn(t, now, "front-facing", "shoulder"), edgeOn(t, now, "front", "shoulder")
			turn := front.EndTangent()
			same(t, size+" slope of the facing's shoulder", math.Abs(facing.StartTangent().Y), math.Abs(turn.Y), 1e-3)
		}
	}
}

// A wider shoulder is longer by the amount along its own line; the armhole's
// foot and the neck stay. What the truing of the armhole shares out is within a
// fifth of a millimetre.
func TestShoulderWidth(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{10, -14} {
			c, _ := apply(t, g, shoulder(docket.ShoulderWidth, by))
			now := c.Garment()
			for _, on := range []string{"front", "back"} {
				seam, was := edgeOn(t, now, on, "shoulder"), edgeOn(t, g, on, "shoulder")
				same(t, size+" "+on+" shoulder", seam.Length(), was.Length()+by, 0.2)
				same(t, size+" "+on+" slope", seam.StartTangent().Cross(was.StartTangent()), 0, 2e-3)
			}
		}
	}
}

// An upper back made longer: the centre is longer by the amount and stays
// upright, the armhole keeps its length about the hinge, and the facing's neck
// is the back's new one.
func TestRoundBack(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{12, -8} {
			c, _ := apply(t, g, docket.Change{Kind: docket.RoundBack, At: "blade", Edge: "armhole", By: unit.MM(by)})
			now := c.Garment()
			centre := edgeOn(t, now, "back", "centre")
			same(t, size+" centre back", centre.Length(), edgeOn(t, g, "back", "centre").Length()+by, 0.05)
			same(t, size+" lean of the centre back", centre.Start().X, centre.End().X, 1e-6)
			same(t, size+" armhole", edgeOn(t, now, "back", "armhole").Length(), edgeOn(t, g, "back", "armhole").Length(), 0.1*math.Abs(by))
			same(t, size+" facing neck", edgeOn(t, now, "back-facing", "neck").Length(), edgeOn(t, now, "back", "neck").Length(), 0.5)
			same(t, size+" back side", edgeOn(t, now, "back", "side").Length(), edgeOn(t, g, "back", "side").Length(), 0.2)
		}
	}
}
