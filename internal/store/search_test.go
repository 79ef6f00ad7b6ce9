package store

import (
	"errors"
	"sync"
	"testing"
	"time"
)

const short, long = 40 * time.Millisecond, time.Hour

func takes(t *testing.T, s *Store, who string, hold time.Duration) (Search, bool) {
	t.Helper()
	x, ok, err := s.TakeSearch(ctx, who, hold)
	if err != nil {
		t.Fatal(err)
	}
	return x, ok
}

// A search is held by one at a time; whoever lets the time run out loses it to
// the next, who goes on from the state and the lays that were kept last; a search
// that was asked for anew, or ended, cannot be kept to any more.
func TestSearchHeld(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		if _, ok := takes(t, s, "a", long); ok {
			t.Fatal("taken before any was asked for")
		}
		if _, err := s.AskSearch(ctx, "quay", "first", nil); err != nil {
			t.Fatal(err)
		}
		a, ok := takes(t, s, "a", long)
		if !ok || a.Asked != "first" || a.State != "" || a.Docket != "quay" {
			t.Fatalf("%+v, %t", a, ok)
		}
		if _, ok := takes(t, s, "b", long); ok {
			t.Error("held by a, taken by b")
		}
		a.State = "pass 1"
		if stop, err := s.KeepSearch(ctx, a, "a", short, map[string][]byte{"main": []byte("lay 1")}); stop || err != nil {
			t.Fatal(stop, err)
		}
		time.Sleep(2 * short) // a has died
		b, ok := takes(t, open(t, where), "b", long)
		if !ok || b.State != "pass 1" || b.Number != a.Number {
			t.Fatalf("taken over as %+v, %t", b, ok)
		}
		a.State = "pass 2 of the dead"
		if _, err := s.KeepSearch(ctx, a, "a", long, map[string][]byte{"main": []byte("late")}); !errors.Is(err, ErrLost) {
			t.Errorf("kept by one who had lost it: %v", err)
		}
		lays, err := s.LaysFound(ctx, "quay")
		if err != nil || string(lays["main"]) != "lay 1" || len(lays) != 1 {
			t.Errorf("found: %q, %v", lays, err)
		}
		if err := s.StopSearch(ctx, "quay"); err != nil {
			t.Fatal(err)
		}
		if stop, err := s.KeepSearch(ctx, b, "b", long, nil); !stop || err != nil {
			t.Errorf("told to stop: %t, %v", stop, err)
		}
		if err := s.LeaveSearch(ctx, b, "b", true); err != nil {
			t.Fatal(err)
		}
		if x, ok, err := s.SearchOf(ctx, "quay"); err != nil || !ok || !x.Ended {
			t.Errorf("ended: %+v, %t, %v", x, ok, err)
		}
		if _, ok := takes(t, s, "c", long); ok {
			t.Error("ended, and taken")
		}
		again, err := s.AskSearch(ctx, "quay", "second", nil)
		if err != nil || again.Number != b.Number+1 {
			t.Errorf("asked again: %+v, %v", again, err)
		}
		if _, err := s.KeepSearch(ctx, b, "b", long, nil); !errors.Is(err, ErrLost) {
			t.Errorf("the first search is kept to: %v", err)
		}
		if err := s.StopSearch(ctx, "quay"); err != nil {
			t.Fatal(err)
		}
		if _, ok := takes(t, s, "c", long); ok {
			t.Error("stopped before anybody worked at it, and taken")
		}
		if err := s.DropLay(ctx, "quay", "main"); err != nil {
			t.Fatal(err)
		}
		if lays, _ := s.LaysFound(ctx, "quay"); len(lays) != 0 {
			t.Errorf("dropped, and there: %q", lays)
		}
	})
}

// Of many who reach for searches at once, each gets another, and nobody one that
// is held; one that is left is there again.
func TestSearchTakenOnce(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		for _, d := range []string{"a", "b", "c"} {
			if _, err := s.AskSearch(ctx, d, "look", nil); err != nil {
				t.Fatal(err)
			}
		}
		var lock sync.Mutex
		got := map[string]int{}
		var all sync.WaitGroup
		for i := range 8 {
			all.Go(func() {
				x, ok, err := s.TakeSearch(ctx, string(rune('p'+i)), long)
				lock.Lock()
				defer lock.Unlock()
				if err != nil {
					t.Error(err)
				}
				if ok {
					got[x.Docket]++
				}
			})
		}
		all.Wait()
		if len(got) != 3 || got["a"] != 1 || got["b"] != 1 || got["c"] != 1 {
			t.Errorf("taken: %v", got)
		}
		x, err := s.AskSearch(ctx, "d", "look", nil)
		if err != nil {
			t.Fatal(err)
		}
		takes(t, s, "z", long)
		if err := s.LeaveSearch(ctx, x, "z", false); err != nil {
			t.Fatal(err)
		}
		if y, ok := takes(t, s, "y", long); !ok || y.Docket != "d" {
			t.Errorf("left, and taken as %+v, %t", y, ok)
		}
	})
}
