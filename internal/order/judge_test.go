package order

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/pattern"
)

// listed reads a list of steps.
func listed(t interface{ Fatal(...any) }, words ...string) []pattern.Step {
	var list []pattern.Step
	for _, w := range words {
		s, err := pattern.ParseStep(w)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, s)
	}
	return list
}

func ids(list []Step) []string {
	var out []string
	for _, s := range list {
		out = append(out, s.Op.ID)
	}
	return out
}

// Two seams one after the other: thread, iron and thread again for each, seven
// changes; two trips to the iron for two presses. The minutes are the guesses
// added by hand: lockstitch to 0.5, main thread 2, stitch 0.3, foot 0.7; iron 1;
// lockstitch 0.5, other thread 2; then again lockstitch is there, thread 2; iron
// 1; lockstitch 0.5, thread 2; six steps of 1.5, 1.5, 1 and as much again.
func TestTally(t *testing.T) {
	j, found := Judge("printed", listed(t, "a", "b"), twoSeams, nil, Times{})
	if len(found) > 0 {
		t.Errorf("%v", found.Codes())
	}
	got := j.Tally()
	want := Tally{Steps: 6, Changes: 7, Moves: 5, Trips: 2, Presses: 2}
	want.Changing = 3.5 + 1 + 2.5 + 2 + 1 + 2.5
	want.Minutes = want.Changing + 4*1.5 + 2*1
	if d := got.Minutes - want.Minutes; d > 1e-9 || d < -1e-9 {
		t.Errorf("%.2f minutes, want %.2f", got.Minutes, want.Minutes)
	}
	if d := got.Changing - want.Changing; d > 1e-9 || d < -1e-9 {
		t.Errorf("%.2f minutes changing, want %.2f", got.Changing, want.Changing)
	}
	got.Minutes, got.Changing, want.Minutes, want.Changing = 0, 0, 0, 0
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	own := TimesOf([]machine.Machine{{Kind: machine.Iron, Minutes: map[machine.Minute]float64{machine.To: 5, machine.Handling: 0}}})
	slow, _ := Judge("printed", listed(t, "a", "b"), twoSeams, nil, own)
	if d := slow.Tally().Minutes - j.Tally().Minutes - 2*4 + 2*1; d > 1e-9 || d < -1e-9 || !own.Timed() {
		t.Errorf("an iron 5 minutes away, pressing in none: %.2f minutes more, want 6", slow.Tally().Minutes-j.Tally().Minutes)
	}
}

// The fly of work trousers sewn in one seam, basted, unpicked (common
// practice): its curved outside line comes after the unpicking.
var bastedFly = []construct.Operation{
	op("fly.baste", "fly", machine.Lockstitch), op("fly.zip", "fly", machine.Lockstitch, "fly.baste"), op("fly.unpick", "fly", machine.Table, "fly.zip"),
	withWhy(top(op("fly.outside", "fly", machine.Lockstitch, "fly.unpick")), "fly.unpick", "the slider cannot be moved clear of the needle"),
	op("waist.sew", "waist", machine.Lockstitch, "fly.outside"),
}

func withWhy(o construct.Operation, id, why string) construct.Operation {
	o.Why = map[string]string{id: why}
	return o
}

func TestOutOfTurn(t *testing.T) {
	pocket := []construct.Operation{op("pocket.set", "pocket", machine.Table), op("side.sew", "side", machine.Table, "pocket.set"), op("side.press", "side", machine.Iron, "side.sew")}
	for name, c := range map[string]struct {
		ops             []construct.Operation
		list            []string
		code, text, say string
		written, mended []string
	}{
		"in turn": {pocket, []string{"pocket", "side"}, "", "", "", []string{"pocket.set", "side.sew", "side.press"}, []string{"pocket.set", "side.sew", "side.press"}},
		"a pocket after the side seam": {
			pocket, []string{"side", "pocket"}, "order.out-of-turn",
			"step 1 of the printed order does side.sew before pocket.set: it needs that done",
			"move pocket.set to before side.sew, which saves 1 change of set-up; or follow the order given here",
			[]string{"side.sew", "side.press", "pocket.set"}, []string{"pocket.set", "side.sew", "side.press"},
		},
		"the outside line while basted shut": {
			bastedFly, []string{"fly.baste", "fly.zip", "fly.outside", "fly.unpick", "waist"}, "order.out-of-turn",
			"step 3 of the printed order does fly.outside before fly.unpick: the slider cannot be moved clear of the needle",
			"move fly.unpick to before fly.outside, which costs no change of set-up; or follow the order given here",
			[]string{"fly.baste", "fly.zip", "fly.outside", "fly.unpick", "waist.sew"}, []string{"fly.baste", "fly.zip", "fly.unpick", "fly.outside", "waist.sew"},
		},
		"an operation apart from its item": {
			bastedFly, []string{"fly.unpick", "fly", "waist"}, "order.out-of-turn",
			"step 1 of the printed order does fly.unpick before fly.zip: it works on what that leaves",
			"move fly.unpick to after fly.zip, which is 1 change of set-up more; or follow the order given here",
			[]string{"fly.unpick", "fly.baste", "fly.zip", "fly.outside", "waist.sew"}, []string{"fly.baste", "fly.zip", "fly.unpick", "fly.outside", "waist.sew"},
		},
		"what is not listed is done when it is needed": {
			bastedFly, []string{"fly.outside", "waist"}, "", "", "", ids0(bastedFly), ids0(bastedFly),
		},
		"a step that is none": {
			pocket, []string{"pocket", "raw-edge", "pocket.flap", "side"}, "order.step-unknown", "the printed order names pocket.flap, which this making has not; it is left out",
			"name an operation of the item's method", ids0(pocket), ids0(pocket),
		},
	} {
		j, found := Judge("printed", listed(t, c.list...), c.ops, nil, Times{})
		switch {
		case c.code == "" && len(found) > 0, c.code != "" && len(found) != 1:
			t.Errorf("%s: %v", name, found.Codes())
			continue
		case c.code != "":
			if f := found[0]; f.Code() != c.code || f.Text() != c.text || f.Mend() != c.say {
				t.Errorf("%s: %s\n%s\n%s", name, f.Code(), f.Text(), f.Mend())
			}
		}
		if got := ids(j.Written()); !slices.Equal(got, c.written) {
			t.Errorf("%s: written %v", name, got)
		}
		if got := ids(j.Mended()); !slices.Equal(got, c.mended) {
			t.Errorf("%s: mended %v", name, got)
		}
	}
}

func ids0(ops []construct.Operation) []string {
	var out []string
	for _, o := range ops {
		out = append(out, o.ID)
	}
	return out
}

// Belt loops are caught in the waist seam and tacked after it: no list of
// whole items could have that right, so the list is not blamed; but a list that
// names the tacking before the waist is.
func TestWovenItemsWait(t *testing.T) {
	ops := []construct.Operation{
		op("loops.baste", "loops", machine.Table), op("waist.sew", "waist", machine.Lockstitch, "loops.baste"),
		op("loops.tack", "loops", machine.Lockstitch, "waist.sew"),
	}
	for _, list := range [][]string{{"loops", "waist"}, {"waist", "loops"}, {"loops.baste", "waist", "loops.tack"}} {
		j, found := Judge("printed", listed(t, list...), ops, nil, Times{})
		if len(found) > 0 || !slices.Equal(ids(j.Written()), ids0(ops)) {
			t.Errorf("%v: %v %v", list, found.Codes(), ids(j.Written()))
		}
	}
	if j, _ := Judge("printed", listed(t, "loops", "loops.tack", "waist"), ops, nil, Times{}); len(j.Late()) != 1 {
		t.Errorf("tacked before the waist: %+v", j.Late())
	}
}

// Whatever the list, every operation is written once; the mended order is one
// that can be done; and steps are blamed exactly when the written one cannot.
func TestJudgeAnyList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(1, 30).Draw(t, "n"))
		var words []string
		for _, o := range ops {
			if rapid.Bool().Draw(t, "by operation") {
				words = append(words, stem(o.ID))
			} else {
				words = append(words, o.Item)
			}
		}
		slices.Sort(words)
		words = rapid.Permutation(slices.Compact(words)).Draw(t, "list")
		words = words[:rapid.IntRange(1, len(words)).Draw(t, "listed")]
		j, _ := Judge("own", listed(t, words...), ops, nil, Times{})
		valid(t, ids(j.Mended()), ops)
		written := ids(j.Written())
		if len(written) != len(ops) || len(slices.Compact(slices.Sorted(slices.Values(written)))) != len(ops) {
			t.Fatalf("written %v", written)
		}
		sound := true
		for n, s := range j.Written() {
			for _, id := range s.Op.After {
				sound = sound && slices.Contains(written[:n], id)
			}
		}
		if sound != (len(j.Late()) == 0) {
			t.Fatalf("%d steps blamed", len(j.Late()))
		}
		for _, l := range j.Late() {
			if !slices.Contains(l.Op.After, l.Need.ID) || slices.Index(written, l.Op.ID) > slices.Index(written, l.Need.ID) {
				t.Fatalf("%s blamed for %s", l.Op.ID, l.Need.ID)
			}
		}
	})
}

func TestBatches(t *testing.T) {
	s, _ := Plan(twoSeams, nil, nil, Costs{})
	var got []string
	for _, b := range Batches(s.Steps()) {
		got = append(got, b.Heading())
	}
	want := []string{"now everything for the lockstitch, steps 1 to 2", "now everything for the iron, steps 3 to 4", "now everything for the lockstitch, steps 5 to 6"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}
