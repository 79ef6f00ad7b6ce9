package store

import (
	"context"
	"errors"
	"os"
	"testing"
	"testing/fstest"
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

// What is ticked goes out with the files and comes in again, as it was; a later
// word that is there already stays. A file that is none is left aside.
func TestTicksInFolders(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		save(t, s, Edit{Path: "dockets/quay.yaml", Data: []byte("gusset: docket/1\n")})
		at := time.Date(2023, 5, 6, 7, 8, 9, 123e6, time.UTC)
		if err := s.Tick(ctx, "quay", Tick{"seat, \"long\".sew@left", true, at}, Tick{"hem", false, at}); err != nil {
			t.Fatal(err)
		}
		ticks, err := s.AllTicks(ctx)
		if err != nil {
			t.Fatal(err)
		}
		snap, err := s.Now(ctx)
		if err != nil {
			t.Fatal(err)
		}
		folder := t.TempDir()
		if err := WriteOut(snap, ticks, folder); err != nil {
			t.Fatal(err)
		}
		other, err := Open(context.Background(), t.TempDir()+"/other", time.Now)
		if err != nil {
			t.Fatal(err)
		}
		defer other.Close()
		later := Tick{"hem", true, at.Add(time.Hour)}
		if err := other.Tick(ctx, "quay", later); err != nil {
			t.Fatal(err)
		}
		if _, aside, err := other.TakeIn(ctx, "wren", os.DirFS(folder)); err != nil || len(aside) > 0 {
			t.Fatal(aside, err)
		}
		got, err := other.Ticks(ctx, "quay")
		if err != nil || len(got) != 2 || got["hem"] != later || got["seat, \"long\".sew@left"] != (Tick{"seat, \"long\".sew@left", true, at}) {
			t.Errorf("%v, %v", got, err)
		}
		for _, bad := range []string{"", "docket,step\n", "docket,step,done,at\nquay,hem,perhaps,2024-05-06T07:08:09Z\n", "docket,step,done,at\nquay,hem,yes,noon\n"} {
			_, aside, err := other.TakeIn(ctx, "wren", fstest.MapFS{TicksFile: {Data: []byte(bad)}})
			if err != nil || len(aside) != 1 {
				t.Errorf("%q: %v, %v", bad, aside, err)
			}
		}
		if _, err := s.Save(ctx, "wren", "", Edit{Path: TicksFile}); !errors.Is(err, ErrPath) {
			t.Errorf("ticks as a file of the workroom: %v", err)
		}
	})
}
