package order

import (
	"strings"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/piece"
)

// made is one item of a garment and the method it is made by, once or for both
// hands, with the items that must be finished before it starts.
type made struct {
	item, method string
	hands        bool
	after        []string
	pieces       []string
}

// trousers is a pair of trousers in the order a printed sheet would give.
var trousers = []made{
	{"front-pocket-top", "self-facing", true, nil, []string{"front-pocket"}},
	{"front-pocket", "patch-pocket", true, []string{"front-pocket-top"}, []string{"front-pocket", "front"}},
	{"back-pocket-top", "self-facing", true, nil, []string{"back-pocket"}},
	{"back-pocket", "patch-pocket", true, []string{"back-pocket-top"}, []string{"back-pocket", "back"}},
	{"yoke", "felled-seam", true, nil, []string{"back", "yoke"}},
	{"seat", "felled-seam", false, []string{"yoke", "back-pocket"}, []string{"back", "yoke"}},
	{"fly-facing", "enclosed", false, nil, []string{"front", "facing"}},
	{"fly", "fly-zip", false, []string{"fly-facing"}, []string{"front", "facing", "shield"}},
	{"front-rise", "felled-seam", false, []string{"fly"}, []string{"front"}},
	{"outseam", "felled-seam", true, []string{"front-pocket", "back-pocket", "yoke"}, []string{"front", "back", "yoke"}},
	{"inseam", "plain-overlocked", false, []string{"outseam", "seat", "front-rise"}, []string{"front", "back"}},
	{"loops", "belt-loops", false, nil, []string{"loops"}},
	{"waist", "waistband", false, []string{"inseam"}, []string{"band", "front", "yoke"}},
	{"band-end", "band-end", false, []string{"waist"}, []string{"band"}},
	{"band-inside", "band-inside", false, []string{"band-end"}, []string{"band"}},
	{"hem", "double-hem", true, []string{"inseam"}, []string{"front", "back"}},
}

// operations makes the trousers' operations from the methods that come with the
// program.
func operations(t testing.TB) []construct.Operation {
	library, found := method.Builtin()
	if len(found) > 0 {
		t.Fatal(found[0].Text())
	}
	var ops []construct.Operation
	ids := map[string][]string{}
	for _, m := range trousers {
		way, ok := library.Find(m.method)
		if !ok {
			t.Fatalf("no method %s", m.method)
		}
		hands := []piece.Copy{""}
		if m.hands {
			hands = []piece.Copy{piece.Left, piece.Right}
		}
		for _, o := range way.Operations {
			for _, h := range hands {
				ops = append(ops, anchor(m, o, h, ids))
			}
		}
		for _, o := range ops {
			if o.Item == m.item {
				ids[m.item] = append(ids[m.item], o.ID)
			}
		}
	}
	for i, o := range ops { // the loops are caught in the waist seam and tacked when the band is done
		switch o.ID {
		case "waist.sew":
			ops[i].After = append(o.After, "loops.cut")
		case "loops.tack":
			ops[i].After = append(o.After, "band-inside.topstitch")
		}
	}
	return ops
}

func anchor(m made, o method.Operation, h piece.Copy, ids map[string][]string) construct.Operation {
	name := func(op string) string {
		if h == "" {
			return m.item + "." + op
		}
		return m.item + "." + op + "@" + string(h)
	}
	c := construct.Operation{
		ID: name(o.ID), Item: m.item, Copy: h, Machine: o.Machine, Stitch: o.Stitch,
		Thread: o.Thread, Foot: o.Foot, Needle: o.Needle, Pieces: m.pieces,
	}
	for _, a := range o.After {
		c.After = append(c.After, name(a))
	}
	if len(o.After) == 0 {
		for _, item := range m.after {
			for _, id := range ids[item] {
				if h == "" || !strings.Contains(id, "@") || strings.HasSuffix(id, "@"+string(h)) {
					c.After = append(c.After, id)
				}
			}
		}
	}
	return c
}

// A whole pair of trousers is ordered as well as can be, with clearly fewer
// changes than item by item, and nothing in the printed list is too late.
func TestTrousers(t *testing.T) {
	ops := operations(t)
	var printed []string
	for _, m := range trousers {
		printed = append(printed, m.item)
	}
	j, late := Judge("printed", listed(t, printed...), ops, nil, Times{})
	machines := []machine.Machine{
		{Kind: machine.Lockstitch, Stitches: []string{"301", "304"}},
		{Kind: machine.Overlocker, Stitches: []string{"504"}},
	}
	s, found := Plan(ops, nil, machines, Costs{})
	for _, f := range append(found, late...) {
		t.Errorf("%s: %s", f.Code(), f.Text())
	}
	if s.Changes() != s.Least() || s.Changes() >= j.Tally().Changes {
		t.Errorf("%d operations: %d changes, at least %d, as printed %d", len(ops), s.Changes(), s.Least(), j.Tally().Changes)
	}
	if ours, theirs := TallyOf(s.Steps(), Times{}), j.Tally(); ours.Presses != theirs.Presses || ours.Fittings != theirs.Fittings || ours.Minutes >= theirs.Minutes {
		t.Errorf("planned %+v, printed %+v", ours, theirs)
	}
	t.Logf("%d operations: %d changes, proved least; %d as printed", len(ops), s.Changes(), j.Tally().Changes)
	for _, step := range s.Steps() {
		t.Logf("%3d %-32s %s", step.Number, step.Op.ID, step.Setup)
	}
}
