package order

import (
	"slices"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/reach"
)

// A leg seam topstitched when the other is sewn: the digest's worked leg, a tube
// of 38 cm, 37 cm deep, an arm of 28 cm round and 17 cm long: awkward, the mend
// to do it before the seam that closes the leg.
func TestHardToReach(t *testing.T) {
	ops := []construct.Operation{
		op("outseam.sew", "outseam", machine.Lockstitch), op("inseam.sew", "inseam", machine.Lockstitch),
		top(op("outseam.top", "outseam", machine.Lockstitch, "outseam.sew")),
	}
	leg := reach.Access{Level: reach.Awkward, Girth: 380, Depth: 370, Machine: reach.Machine{ArmGirth: 280, ArmLength: 170}}
	c := []reach.Condition{{Op: "outseam.top", Closers: []string{"inseam.sew"}, When: []reach.Access{{}, leg}}}
	j, found := Judge("printed", listed(t, "outseam.sew", "inseam", "outseam.top"), ops, c, Times{})
	if len(j.Hard()) != 1 || len(found) != 1 || len(j.Late()) != 0 {
		t.Fatalf("%+v %v", j.Hard(), found.Codes())
	}
	f := found[0]
	want := "step 3 of the printed order does outseam.top after inseam.sew: awkward, since it then lies in a tube of 38 cm, 37 cm deep, " +
		"and the machine's arm is 28 cm round and 17 cm long"
	if f.Code() != "order.reach" || f.Text() != want || f.Mend() != "move outseam.top to before inseam.sew; or follow the order given here" {
		t.Errorf("%s\n%s\n%s", f.Code(), f.Text(), f.Mend())
	}
	if j, found := Judge("printed", listed(t, "outseam", "inseam"), ops, c, Times{}); len(j.Hard()) != 0 || len(found) != 0 {
		t.Errorf("before the inseam: %+v", j.Hard())
	}
}

// With two seams together in the way, one alone is no fault and both are named.
func TestBeforeTheLastOfThese(t *testing.T) {
	ops := []construct.Operation{op("a.sew", "a", machine.Lockstitch), op("b.sew", "b", machine.Lockstitch), op("c.top", "c", machine.Lockstitch)}
	c := []reach.Condition{{Op: "c.top", Closers: []string{"a.sew", "b.sew"}, When: []reach.Access{{}, {}, {}, {Level: reach.ByHand}}}}
	for _, order := range [][]string{{"a", "c", "b"}, {"c", "b", "a"}} {
		if j, _ := Judge("printed", listed(t, order...), ops, c, Times{}); len(j.Hard()) != 0 {
			t.Errorf("%v: %+v", order, j.Hard())
		}
	}
	j, _ := Judge("printed", listed(t, "a", "b", "c"), ops, c, Times{})
	if len(j.Hard()) != 1 || !slices.Equal(j.Hard()[0].Blockers, []string{"a.sew", "b.sew"}) || j.Hard()[0].Mend() != "move c.top to before the last of a.sew and b.sew" {
		t.Errorf("%+v", j.Hard())
	}
}
