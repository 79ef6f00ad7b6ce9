package store

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// writerEnv tells the test program to be a writer of the workroom it names.
const writerEnv = "GUSSET_STORE_WRITER"

// writeForEver adds to a workroom and prints the number of each change once it
// is acknowledged, until it is killed.
func writeForEver() {
	s, err := Open(context.Background(), os.Getenv(writerEnv), time.Now)
	if err != nil {
		fmt.Println("error", err)
		os.Exit(1)
	}
	for {
		head, err := s.Head(context.Background())
		if err != nil {
			fmt.Println("error", err)
			os.Exit(1)
		}
		next := head + 1
		n, err := s.Save(context.Background(), "writer", "", editsOf(next)...)
		if err != nil || n != next {
			fmt.Println("error", n, err)
			os.Exit(1)
		}
		fmt.Println(n)
	}
}

// editsOf are the edits that make the change of a number: two files, so that
// half a change would show, large enough for several pages of the database.
func editsOf(n int64) []Edit {
	data := []byte(strings.Repeat(fmt.Sprintf("%d\n", n), 500+int(n%700)))
	return []Edit{{Path: fmt.Sprintf("a/%d", n), Data: data}, {Path: fmt.Sprintf("b/%d", n), Data: data}}
}

// Killed at 200 random moments while it writes, a workroom has every change
// that was acknowledged, whole, and goes on from there.
func TestKilled(t *testing.T) {
	onBoth(t, func(t *testing.T, where string) {
		times := 200
		if os.Getenv("GUSSET_QUICK") != "" || strings.HasPrefix(where, "postgres") {
			times = 20 // it is the client that is killed there, not the server
		}
		random := rand.New(rand.NewPCG(1, 2))
		s := open(t, where)
		var acknowledged int64
		for range times {
			acknowledged = max(acknowledged, killOne(t, where, random))
			head, err := s.Head(ctx)
			if err != nil || head < acknowledged {
				t.Fatalf("change %d was acknowledged, the workroom is at %d, %v", acknowledged, head, err)
			}
		}
		whole(t, s, acknowledged)
		t.Logf("%d changes acknowledged over %d kills", acknowledged, times)
	})
}

// killOne starts a writer, kills it at a random moment after its first change,
// and gives the last change that it acknowledged.
func killOne(t *testing.T, where string, random *rand.Rand) int64 {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	w := exec.Command(self)
	w.Env = append(os.Environ(), writerEnv+"="+where)
	out, err := w.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Start(); err != nil {
		t.Fatal(err)
	}
	var last int64
	lines := bufio.NewScanner(out)
	for first := true; lines.Scan(); first = false {
		n, err := strconv.ParseInt(lines.Text(), 10, 64)
		if err != nil {
			t.Errorf("the writer says %s", lines.Text())
			break
		}
		last = n
		if first {
			time.AfterFunc(time.Duration(random.Float64()*30*float64(time.Millisecond)), func() { _ = w.Process.Kill() })
		}
	}
	_ = w.Process.Kill()
	_ = w.Wait()
	return last
}

// whole checks that the changes from the first to the last are there as they
// were made, both files of each.
func whole(t *testing.T, s *Store, acknowledged int64) {
	t.Helper()
	head, err := s.Head(ctx)
	if err != nil || head == 0 || head < acknowledged {
		t.Fatal(head, err)
	}
	snap, err := s.At(ctx, head)
	if err != nil {
		t.Fatal(err)
	}
	if got := len(snap.Paths()); got != 2*int(head) {
		t.Fatalf("%d files after %d changes of two", got, head)
	}
	for n := int64(1); n <= head; n++ {
		for _, e := range editsOf(n) {
			if data, err := snap.ReadFile(e.Path); err != nil || string(data) != string(e.Data) {
				t.Fatalf("%s is not what was acknowledged: %v", e.Path, err)
			}
		}
	}
	if !strings.HasPrefix(s.kind.driver, "sqlite") {
		return
	}
	var verdict string
	if err := s.db.QueryRow("PRAGMA integrity_check").Scan(&verdict); err != nil || verdict != "ok" {
		t.Errorf("integrity: %s, %v", verdict, err)
	}
}
