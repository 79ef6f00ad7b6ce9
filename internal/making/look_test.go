package making

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"gusset/internal/referee"
)

// Looking on never loses what was found: every lay is as short as before or
// shorter, no plan's least length grows, and the referee passes each. The same
// passes give the same lays; a context that has ended changes nothing.
func TestLook(t *testing.T) {
	in := openDemo(t, demoDockets[1])
	e := Effort{Rounds: 2, Seed: 1}
	first := Run(context.Background(), in, Lay, e, nil)
	var passes []Pass
	look := func(ctx context.Context) Result {
		return Look(ctx, in, first, e, 2, func(p Pass) { passes = append(passes, p) })
	}
	r := look(context.Background())
	if len(passes) != 2 || passes[1].Rounds != 8 || passes[1].Seed != 3 {
		t.Errorf("passes %+v", passes)
	}
	if len(r.Lays) != len(first.Lays) || r.Digest == first.Digest {
		t.Fatalf("%d lays, then %d; digest %s", len(first.Lays), len(r.Lays), r.Digest)
	}
	gained := false
	for i, l := range r.Lays {
		was := first.Lays[i]
		if l.Role != was.Role || l.Length > was.Length || len(l.Unplaced) > 0 || len(l.Tried) != len(was.Tried) {
			t.Errorf("%s: %.1f mm, then %.1f mm; %d left", l.Role, was.Length, l.Length, len(l.Unplaced))
		}
		gained = gained || l.Length < was.Length
		for k, tried := range l.Tried {
			if tried.Length > was.Tried[k].Length || tried.Length < l.Length {
				t.Errorf("%s, %s: %.1f mm, then %.1f mm, and %.1f mm was chosen", l.Role, tried.Plan, was.Tried[k].Length, tried.Length, l.Length)
			}
		}
		if told := referee.Check(ofRole(r.Cut.Pieces(), l.Role), l.Cloth, l); told.Stops() > 0 {
			t.Error(told.Codes())
		}
	}
	if !gained {
		t.Error("14 rounds find nothing better than 2")
	}
	if again := look(context.Background()); again.Digest != r.Digest {
		t.Error("the same passes give another lay")
	}
	over, cancel := context.WithCancel(context.Background())
	cancel()
	if still := look(over); still.Lays[0].Length != first.Lays[0].Length || len(still.Findings) != len(first.Findings) {
		t.Error("a context that has ended changes the lays")
	}
}

// Going on from a make gives what making it in one go gives; after a look the
// needs count the cloth of the lays found.
func TestOn(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	in.Docket.Fold = "open" // one plan tells as much as all
	ctx := context.Background()
	laid := Run(ctx, in, Lay, Effort{Seed: 1}, nil)
	whole, on := Run(ctx, in, Needs, Effort{Seed: 1}, nil), laid.On(ctx, in, Needs)
	if on.Digest != whole.Digest || on.Reached != Needs || !slices.Equal(on.Findings.Codes(), whole.Findings.Codes()) ||
		!reflect.DeepEqual(on.Needs.Items(), whole.Needs.Items()) {
		t.Errorf("gone on: %s, in one go: %s", on.Digest, whole.Digest)
	}
	looked := Look(ctx, in, laid, Effort{Rounds: 4, Seed: 1}, 1, nil)
	after := looked.On(ctx, in, Needs)
	if len(after.Lays) == 0 || after.Lays[0].Length != looked.Lays[0].Length || after.Digest == whole.Digest {
		t.Errorf("the lays found are not those gone on with")
	}
	broken := in
	broken.Docket.Size.All = "99"
	if r := Run(ctx, broken, Fit, Effort{}, nil); r.On(ctx, broken, Needs).Reached != Fit {
		t.Error("gone on after a stop")
	}
}
