package order

import (
	"slices"
	"testing"

	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/machine"
)

func op(id, item string, m machine.Kind, after ...string) construct.Operation {
	o := construct.Operation{ID: id, Item: item, Machine: m, After: after}
	switch m {
	case machine.Lockstitch:
		o.Stitch, o.Thread, o.Needle, o.Foot = "301", "main", "90", "standard"
	case machine.Overlocker:
		o.Stitch, o.Thread = "504", "main"
	}
	return o
}

func top(o construct.Operation) construct.Operation {
	o.Thread, o.Needle = "topstitch", "100"
	return o
}

// Two seams sewn, pressed and topstitched. Seam by seam this is at best to the
// iron, to the lockstitch, another thread, the first thread, to the iron, and
// so on; together it is to the iron, back, another thread.
var twoSeams = []construct.Operation{
	op("a.sew", "a", machine.Lockstitch), op("a.press", "a", machine.Iron, "a.sew"), top(op("a.top", "a", machine.Lockstitch, "a.press")),
	op("b.sew", "b", machine.Lockstitch), op("b.press", "b", machine.Iron, "b.sew"), top(op("b.top", "b", machine.Lockstitch, "b.press")),
}

func TestPlanBundlesWork(t *testing.T) {
	s, found := Plan(twoSeams, nil, []machine.Machine{{Kind: machine.Lockstitch, Stitches: []string{"301"}}}, Costs{})
	if len(found) > 0 {
		t.Errorf("findings: %v", found.Codes())
	}
	if s.Changes() != 3 || s.Least() != 3 {
		t.Errorf("%d changes, at least %d; want 3, 3", s.Changes(), s.Least())
	}
	want := []string{
		"a.sew: to the lockstitch; threaded with main thread, needle 90; set stitch 301; standard foot",
		"b.sew: ",
		"b.press: to the iron",
		"a.press: ",
		"a.top: to the lockstitch; change to topstitch thread, needle 100",
		"b.top: ",
	}
	var got []string
	for _, step := range s.Steps() {
		got = append(got, step.Op.ID+": "+step.Setup)
	}
	if !slices.Equal(got, want) {
		t.Errorf("steps:\n%q\nwant\n%q", got, want)
	}
}

func TestFindings(t *testing.T) {
	lockstitch := machine.Machine{Title: "the lockstitch at the window", Kind: machine.Lockstitch, Stitches: []string{"301", "304"}}
	plain := lockstitch
	plain.Stitches = []string{"301"}
	overlock := []construct.Operation{op("a.over", "a", machine.Overlocker)}
	tack := op("a.tack", "a", machine.Lockstitch)
	tack.Stitch = "304"
	for name, c := range map[string]struct {
		ops      []construct.Operation
		machines []machine.Machine
		code     string
		text     string
		mend     string
	}{
		"cycle": {
			[]construct.Operation{op("a.sew", "a", machine.Table, "b.sew"), op("b.sew", "b", machine.Table, "a.sew"), op("c.sew", "c", machine.Table, "b.sew")},
			nil, "order.cycle",
			"no order of work exists, since these wait for each other: a, b (a.sew after b.sew after a.sew)",
			"choose another method for one of them, or join them in another way",
		},
		"unknown": {
			[]construct.Operation{op("a.sew", "a", machine.Table, "b.sew")}, nil,
			"order.unknown-after", "a.sew comes after b.sew, which nobody does", "correct the name in the method's after",
		},
		"twice": {
			[]construct.Operation{op("a.sew", "a", machine.Table), op("a.sew", "a", machine.Table)}, nil,
			"order.operation-twice", "two operations are called a.sew", "give each a name of its own",
		},
		"no overlocker, zigzag": {
			overlock, []machine.Machine{lockstitch}, "order.machine-missing",
			"no overlocker is among the machines, though a.over needs one (operations affected: 1)",
			"zigzag over the raw edges (stitch 304) on the lockstitch at the window",
		},
		"no overlocker, no zigzag": {
			overlock, []machine.Machine{plain}, "order.machine-missing",
			"no overlocker is among the machines, though a.over needs one (operations affected: 1)",
			"overcast the raw edges by hand, or choose methods that enclose them, such as a felled seam",
		},
		"no zigzag": {
			[]construct.Operation{tack}, []machine.Machine{plain}, "order.stitch-missing",
			"no lockstitch among the machines makes stitch 304, which a.tack needs (operations affected: 1)",
			"sew it by hand, or choose a method without it",
		},
	} {
		s, found := Plan(c.ops, nil, c.machines, Costs{})
		if len(found) != 1 {
			t.Errorf("%s: %v", name, found.Codes())
			continue
		}
		f := found[0]
		if f.Code() != c.code || f.Text() != c.text || f.Mend() != c.mend {
			t.Errorf("%s: %s\n%s\n%s", name, f.Code(), f.Text(), f.Mend())
		}
		if stops := f.Severity() == finding.Stop; stops != (len(s.Steps()) == 0) {
			t.Errorf("%s: %d steps", name, len(s.Steps()))
		}
	}
	for _, k := range []finding.Kind{cyclic, unknownAfter, operationTwice, outOfTurn, hardToReach, stepUnknown, badStep, pinUnknown, pinImpossible, machineMissing, stitchMissing} {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}

func TestNothingToDo(t *testing.T) {
	if s, found := Plan(nil, nil, nil, Costs{}); len(s.Steps()) != 0 || len(found) != 0 {
		t.Errorf("%d steps, %v", len(s.Steps()), found.Codes())
	}
}
