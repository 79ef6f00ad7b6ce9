package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"pgregory.net/rapid"

	"gusset/demo"
	"gusset/internal/making"
)

var ctx = context.Background()

// clock counts seconds, so that changes are dated in their order.
func clock() func() time.Time {
	var at int64
	var lock sync.Mutex
	return func() time.Time {
		lock.Lock()
		defer lock.Unlock()
		at++
		return time.Unix(1_700_000_000+at, 0)
	}
}

// onBoth runs a test on each kind of database.
func onBoth(t *testing.T, test func(t *testing.T, where string)) {
	t.Run("sqlite", func(t *testing.T) { test(t, filepath.Join(t.TempDir(), "room?#% .db")) })
	t.Run("postgres", func(t *testing.T) { test(t, place(t)) })
}

func open(t testing.TB, where string) *Store {
	t.Helper()
	s, err := Open(ctx, where, clock())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func save(t testing.TB, s *Store, edits ...Edit) int64 {
	t.Helper()
	n, err := s.Save(ctx, "wren", "test", edits...)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func read(t testing.TB, s *Store, change int64, path string) string {
	t.Helper()
	snap, err := s.At(ctx, change)
	if err != nil {
		t.Fatal(err)
	}
	data, err := snap.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "-"
	}
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Every change is a new version; every earlier state can still be read; an edit
// of something else than what is there is refused and says what is there.
func TestVersions(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		if n, err := s.Head(ctx); n != 0 || err != nil {
			t.Fatalf("an empty workroom is at change %d, %v", n, err)
		}
		one := save(t, s, Edit{Path: "cloths/a.yaml", Data: []byte("one")}, Edit{Path: "notes/x", Data: nil})
		two := save(t, s, Edit{Path: "cloths/a.yaml", Data: []byte("two"), Base: one})
		if again := save(t, s, Edit{Path: "cloths/a.yaml", Data: []byte("two"), Base: two}); again != two {
			t.Errorf("writing the same makes change %d", again)
		}
		three := save(t, s, Edit{Path: "cloths/a.yaml", Gone: true, Base: two})
		four := save(t, s, Edit{Path: "cloths/a.yaml", Data: []byte("four")})
		for n, want := range map[int64]string{0: "-", one: "one", two: "two", three: "-", four: "four"} {
			if got := read(t, s, n, "cloths/a.yaml"); got != want {
				t.Errorf("at change %d: %q, want %q", n, got, want)
			}
		}
		if got := read(t, s, four, "notes/x"); got != "" {
			t.Errorf("an empty file reads %q", got)
		}
		refused := []Edit{
			{Path: "cloths/a.yaml", Data: []byte("x"), Base: two},
			{Path: "cloths/a.yaml", Data: []byte("x")},
			{Path: "cloths/b.yaml", Data: []byte("x"), Base: two},
			{Path: "cloths/a.yaml", Gone: true, Base: one},
		}
		for _, e := range refused {
			_, err := s.Save(ctx, "tarn", "late", Edit{Path: "other", Data: []byte("x")}, e)
			var c *Conflict
			if !errors.As(err, &c) || c.Path != e.Path {
				t.Errorf("%s on %d: %v, want a conflict", e.Path, e.Base, err)
			}
		}
		if n, _ := s.Head(ctx); n != four || read(t, s, four, "other") != "-" {
			t.Errorf("a refused change left something: head %d", n)
		}
	})
}

// Paths that name no file of a workroom, and files too large, are refused.
func TestRefused(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "room"))
	for _, p := range []string{"", ".", "/a", "../a", "a/../b", "a//b", "a/", "a\\b", "a\nb", string(bytes.Repeat([]byte("a"), maxPath+1))} {
		if _, err := s.Save(ctx, "wren", "", Edit{Path: p}); !errors.Is(err, ErrPath) {
			t.Errorf("%q: %v", p, err)
		}
	}
	if _, err := s.Save(ctx, "wren", "", Edit{Path: "a", Data: make([]byte, MaxFile+1)}); !errors.Is(err, ErrSize) {
		t.Errorf("a large file: %v", err)
	}
	if _, err := s.Save(ctx, "wren", "", Edit{Path: "a"}, Edit{Path: "a"}); !errors.Is(err, ErrTwice) {
		t.Errorf("the same file twice: %v", err)
	}
	if _, err := s.At(ctx, 1); !errors.Is(err, ErrNoChange) {
		t.Errorf("a change to come: %v", err)
	}
	if _, err := s.Undo(ctx, "wren", 7); !errors.Is(err, ErrNoChange) {
		t.Errorf("undoing no change: %v", err)
	}
}

// Undo restores what was there, undoing that does the change again, and what
// was written since is not lost.
func TestUndo(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		one := save(t, s, Edit{Path: "a", Data: []byte("one")}, Edit{Path: "b", Data: []byte("b")})
		two := save(t, s, Edit{Path: "a", Data: []byte("two"), Base: one}, Edit{Path: "b", Gone: true, Base: one}, Edit{Path: "c", Data: []byte("c")})
		state := func(n int64) string { return read(t, s, n, "a") + read(t, s, n, "b") + read(t, s, n, "c") }
		three, err := s.Undo(ctx, "tarn", two)
		if err != nil || state(three) != "oneb-" {
			t.Fatalf("undone: %q, %v", state(three), err)
		}
		four, err := s.Undo(ctx, "tarn", three)
		if err != nil || state(four) != "two-c" {
			t.Fatalf("done again: %q, %v", state(four), err)
		}
		five := save(t, s, Edit{Path: "a", Data: []byte("five"), Base: four})
		_, err = s.Undo(ctx, "tarn", four)
		var c *Conflict
		if !errors.As(err, &c) || c.Path != "a" || c.By != "wren" || c.Now.Change != five {
			t.Errorf("undoing what was overwritten: %v, want a conflict about a", err)
		}
		list, err := s.History(ctx, "a", 0, 10)
		if err != nil || len(list) != 5 || list[0].Number != five || list[1].By != "tarn" || len(list[3].Files) != 3 {
			t.Errorf("history of a: %+v, %v", list, err)
		}
		if list, _ := s.History(ctx, "", three, 1); len(list) != 1 || list[0].Number != two {
			t.Errorf("before %d: %+v", three, list)
		}
	})
}

// A snapshot is a file system like any other: the standard library's own test
// of file systems holds.
func TestSnapshotFS(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		if _, aside, err := s.TakeIn(ctx, "wren", demo.Files); err != nil || len(aside) > 0 {
			t.Fatal(aside, err)
		}
		snap, err := s.Now(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if err := fstest.TestFS(snap, "README.md", "dockets/quay-long.yaml", "patterns/quay/pattern.yaml"); err != nil {
			t.Error(err)
		}
		empty, _ := s.At(ctx, 0)
		if err := fstest.TestFS(empty); err != nil {
			t.Error(err)
		}
	})
}

// A workroom goes in and out byte for byte, and a make opened from the store is
// the make opened from the folder.
func TestFolderBothWays(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		s := open(t, where)
		folder := t.TempDir()
		for name, data := range map[string]string{
			"bodies/a.yaml": "a\r\nb\x00\xff", "empty": "", "deep/er/still/x": "x", ".hidden/y": "no", "out/z": "no", "big": "",
		} {
			p := filepath.Join(folder, name)
			os.MkdirAll(filepath.Dir(p), 0o755)
			if name == "big" {
				data = string(make([]byte, MaxFile+1))
			}
			if err := os.WriteFile(p, []byte(data), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		os.Symlink("/etc/hostname", filepath.Join(folder, "link"))
		_, aside, err := s.TakeIn(ctx, "wren", os.DirFS(folder))
		if want := []string{".hidden", "big", "link", "out"}; err != nil || !slices.Equal(aside, want) {
			t.Fatalf("left aside %q, want %q; %v", aside, want, err)
		}
		if _, _, err := s.TakeIn(ctx, "wren", demo.Files); err != nil {
			t.Fatal(err)
		}
		snap, _ := s.Now(ctx)
		back := t.TempDir()
		if err := WriteOut(snap, nil, back); err != nil {
			t.Fatal(err)
		}
		for _, p := range aside {
			os.RemoveAll(filepath.Join(folder, p))
		}
		if err := os.CopyFS(folder, demo.Files); err != nil {
			t.Fatal(err)
		}
		if a, b := contents(t, os.DirFS(folder)), contents(t, os.DirFS(back)); !mapsEqual(a, b) {
			t.Errorf("went in %d files, came out %d, or not the same", len(a), len(b))
		}
		if err := WriteOut(snap, nil, back); err != nil {
			t.Errorf("writing out again: %v", err)
		}
		os.WriteFile(filepath.Join(back, "empty"), []byte("mine"), 0o644)
		if err := WriteOut(snap, nil, back); !errors.Is(err, ErrThere) {
			t.Errorf("writing over another file: %v", err)
		}
		in, _, err := making.Open(snap, "dockets/quay-long.yaml")
		want, _, _ := making.Open(demo.Files, "dockets/quay-long.yaml")
		a := making.Run(ctx, in, making.Finish, making.Effort{}, nil)
		b := making.Run(ctx, want, making.Finish, making.Effort{}, nil)
		if err != nil || a.Digest != b.Digest || a.Reached != making.Finish {
			t.Errorf("from the store %s, from the folder %s, %v", a.Digest, b.Digest, err)
		}
	})
}

func contents(t *testing.T, f fs.FS) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(f, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(f, p)
		out[p] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func mapsEqual(a, b map[string]string) bool {
	for k, v := range a {
		if w, ok := b[k]; !ok || v != w {
			return false
		}
	}
	return len(a) == len(b)
}

// Of many who edit the same file at once, with nothing but their own counts,
// none loses what they wrote: each one's edits are all there, in their order.
func TestManyAtOnce(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		const people, each = 6, 8
		first := open(t, where)
		save(t, first, Edit{Path: "list", Data: nil})
		var all sync.WaitGroup
		told := make([]int, people)
		for p := range people {
			s := first
			if p%2 == 1 { // half of them by a program of their own
				s = open(t, where)
			}
			all.Go(func() {
				for n := 0; n < each; {
					snap, err := s.Now(ctx)
					if err != nil {
						t.Error(err)
						return
					}
					v, _ := snap.Version("list")
					data, _ := snap.ReadFile("list")
					_, err = s.Save(ctx, "p", "", Edit{Path: "list", Data: fmt.Appendf(data, "%d.%d ", p, n), Base: v.Change})
					var c *Conflict
					switch {
					case err == nil:
						n++
					case errors.As(err, &c):
						told[p]++
					default:
						t.Error(err)
						return
					}
				}
			})
		}
		all.Wait()
		head, _ := first.Head(ctx)
		text := read(t, first, head, "list")
		for p := range people {
			last := -1
			for n := range each {
				at := bytes.Index([]byte(text), fmt.Appendf(nil, "%d.%d ", p, n))
				if at <= last {
					t.Errorf("edit %d of %d is lost or out of order in %q", n, p, text)
				}
				last = at
			}
		}
		if head != people*each+1 {
			t.Errorf("%d changes, want %d", head, people*each+1)
		}
		t.Logf("conflicts told: %v", told)
	})
}

// Any run of edits leaves what a plain map would hold after each of them, and
// undoing them all from the last to the first comes back to nothing.
func TestAgainstMap(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "room"))
	rapid.Check(t, func(rt *rapid.T) {
		now, _ := s.Now(ctx)
		var wipe []Edit
		for _, p := range now.Paths() {
			v, _ := now.Version(p)
			wipe = append(wipe, Edit{Path: p, Gone: true, Base: v.Change})
		}
		save(t, s, wipe...)
		plain := map[string]string{}
		states := map[int64]map[string]string{}
		var made []int64
		for range rapid.IntRange(1, 8).Draw(rt, "edits") {
			p := rapid.SampledFrom([]string{"a", "b/c", "b/d"}).Draw(rt, "path")
			e := Edit{Path: p, Data: []byte(rapid.SampledFrom([]string{"", "x", "y"}).Draw(rt, "data")), Gone: rapid.Bool().Draw(rt, "gone")}
			snap, _ := s.Now(ctx)
			if v, ok := snap.Version(p); ok {
				e.Base = v.Change
			}
			before, _ := s.Head(ctx)
			n := save(t, s, e)
			if n != before {
				made = append(made, n)
			}
			if e.Gone {
				delete(plain, p)
			} else {
				plain[p] = string(e.Data)
			}
			states[n] = map[string]string{}
			for k, v := range plain {
				states[n][k] = v
			}
		}
		for n, want := range states {
			snap, err := s.At(ctx, n)
			if err != nil || !mapsEqual(contents(t, snap), want) {
				rt.Fatalf("change %d: %v, want %v, %v", n, contents(t, snap), want, err)
			}
		}
		slices.Reverse(made)
		for _, n := range made {
			if _, err := s.Undo(ctx, "wren", n); err != nil {
				rt.Fatal(err)
			}
		}
		if end, _ := s.Now(ctx); len(end.Paths()) > 0 {
			rt.Fatalf("all undone, and there is %v", end.Paths())
		}
	})
}
