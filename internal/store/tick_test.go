package store

import (
	"testing"
	"time"
)

// The tick that was said last holds, in whatever order ticks come in; none is
// said later than now.
func TestTicks(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		at := func(sec int64) time.Time { return time.Unix(1_700_000_000+sec, 0) }
		for _, k := range []Tick{{"hem", true, at(-50)}, {"hem", false, at(-90)}, {"seat", true, at(-80)}, {"seat", false, at(-40)}, {"fly", true, at(1e6)}} {
			if err := s.Tick(ctx, "quay", k); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Tick(ctx, "other", Tick{"hem", false, at(-1)}); err != nil {
			t.Fatal(err)
		}
		got, err := s.Ticks(ctx, "quay")
		if err != nil || len(got) != 3 || !got["hem"].Done || got["seat"].Done || !got["fly"].Done {
			t.Errorf("%v, %v", got, err)
		}
		if late := got["fly"].At; late.After(at(1000)) {
			t.Errorf("a tick of the future is kept at %s", late)
		}
		if err := s.Tick(ctx, "quay", Tick{"", true, at(0)}); err == nil {
			t.Error("a tick for no step")
		}
	})
}
