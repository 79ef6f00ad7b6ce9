package web

import (
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/source"
	"gusset/internal/store"
)

// workerEnv tells the test program to be a worker of the workroom it names.
const workerEnv = "GUSSET_WEB_WORKER"

func TestMain(m *testing.M) {
	if where := os.Getenv(workerEnv); where != "" {
		workForEver(where)
	}
	os.Exit(m.Run())
}

// briefly are options for a worker of a test: little is looked for at a time.
func briefly(out slog.Handler) Options {
	return Options{Now: time.Now, Log: slog.New(out), Searches: 1, Rounds: 2, Hold: 2 * time.Second}
}

func workForEver(where string) {
	s, err := store.Open(context.Background(), where, time.Now)
	if err != nil {
		fmt.Println("error", err)
		os.Exit(1)
	}
	Work(context.Background(), s, briefly(slog.NewTextHandler(os.Stdout, nil)))
}

// A worker that is killed in the middle of a search loses nothing of what it had
// found: another goes on from the passes and the lays that are in the store.
func TestWorkerKilled(t *testing.T) {
	ctx := context.Background()
	where := filepath.Join(t.TempDir(), "room")
	s, err := store.Open(ctx, where, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	change, _, err := s.TakeIn(ctx, "wren", laidOut(t, "quay-cropped"))
	if err != nil {
		t.Fatal(err)
	}
	data, _ := json.Marshal(wanted{Change: change, Key: "any"})
	if _, err := s.AskSearch(ctx, "quay-cropped", string(data), nil); err != nil {
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	w := exec.Command(self)
	w.Env = append(os.Environ(), workerEnv+"="+where)
	if err := w.Start(); err != nil {
		t.Fatal(err)
	}
	first := waitPasses(t, s, 1)
	if err := w.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = w.Wait()
	first = waitPasses(t, s, first.Passes) // what was acknowledged last
	before := lengthsFound(t, s, change)
	if before[cloth.Main] == 0 {
		t.Fatal("a pass was done and no lay kept")
	}
	next, end := context.WithCancel(ctx)
	done := make(chan struct{})
	go func() {
		Work(next, s, briefly(slog.NewTextHandler(testLog{t}, nil)))
		close(done)
	}()
	second := waitPasses(t, s, first.Passes+1)
	if err := s.StopSearch(ctx, "quay-cropped"); err != nil {
		t.Error(err)
	}
	for range 1200 {
		if x, _, err := s.SearchOf(ctx, "quay-cropped"); err != nil || x.Ended {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	end()
	<-done
	if x, _, err := s.SearchOf(ctx, "quay-cropped"); err != nil || !x.Ended {
		t.Errorf("stopped, and not ended: %+v, %v", x, err)
	}
	for role, length := range lengthsFound(t, s, change) {
		if length > before[role]+1e-6 {
			t.Errorf("%s: %.2f mm found before, %.2f after", role, before[role], length)
		}
	}
	t.Logf("killed after %d passes, gone on to %d", first.Passes, second.Passes)
}

func waitPasses(t *testing.T, s *store.Store, n int) reached {
	t.Helper()
	for range 6000 {
		x, ok, err := s.SearchOf(context.Background(), "quay-cropped")
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		st, err := reachedBy(x)
		if err != nil {
			t.Fatal(err)
		}
		if st.Passes >= n {
			return st
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("never %d passes", n)
	return reached{}
}

// lengthsFound are the lengths of the lays in the store, judged again.
func lengthsFound(t *testing.T, s *store.Store, change int64) map[cloth.Role]float64 {
	t.Helper()
	snap, err := s.At(context.Background(), change)
	if err != nil {
		t.Fatal(err)
	}
	in, _, err := making.Open(snap, docketPath("quay-cropped"))
	if err != nil {
		t.Fatal(err)
	}
	files, err := s.LaysFound(context.Background(), "quay-cropped")
	if err != nil {
		t.Fatal(err)
	}
	r := making.Run(context.Background(), in, making.Finish, making.Effort{}, nil)
	out := map[cloth.Role]float64{}
	for role, data := range files {
		f, found := lay.Load(source.File{Path: "lays/" + role + ".yaml", Data: data})
		l, judged := r.Written(in, f)
		if found.Stops() > 0 || judged.Stops() > 0 || len(l.Unplaced) > 0 {
			t.Errorf("%s: %v %v", role, found.Codes(), judged.Codes())
		}
		out[cloth.Role(role)] = l.Length
	}
	return out
}
