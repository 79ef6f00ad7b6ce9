package main

import (
	"bytes"
	"context"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gusset/internal/lay"
	"gusset/internal/unit"
)

// stopper stops the work when it is told of a look after the first, whose pieces
// have all found a place.
type stopper struct {
	bytes.Buffer
	stop func()
}

func (s *stopper) Write(p []byte) (int, error) {
	if bytes.HasPrefix(p, []byte("look ")) {
		s.stop()
	}
	return s.Buffer.Write(p)
}

// Looking without end stops when it is told to, as by Ctrl-C, and then prints
// the best lays so far, judged, with every plan that was tried.
func TestKeepLooking(t *testing.T) {
	room := filepath.Join(t.TempDir(), "room")
	if code := run(context.Background(), []string{"new", room}, &bytes.Buffer{}, os.Stderr); code != 0 {
		t.Fatal("no workroom")
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var out bytes.Buffer
	told := &stopper{stop: stop}
	picture := filepath.Join(room, "lay.png")
	args := []string{"lay", filepath.Join(room, "dockets", "quay-cropped.yaml"), "--rounds", "1", "--keep-looking", "--picture", picture}
	if code := run(ctx, args, &out, told); code != 0 {
		t.Fatalf("exit code %d\n%s%s", code, out.String(), told.String())
	}
	for _, want := range []string{"slate serge", "chosen: none that was tried takes less", "grain: top", picture} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, out.String())
		}
	}
	if strings.Contains(out.String(), "stop ") {
		t.Errorf("found\n%s", out.String())
	}
	f, err := os.Open(picture)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if im, err := png.Decode(f); err != nil || im.Bounds().Dx() < 500 {
		t.Errorf("picture %v, %v", im, err)
	}
}

// Every plan tried is told with its length, how it compares, and how long it was
// searched where that was not to the end; one that a cutter would rather have is
// said to be handier when it takes little more.
func TestPlanLines(t *testing.T) {
	l := lay.Lay{Plan: lay.PartFold, Length: 800, Tried: []lay.Attempt{
		{Plan: lay.Lengthwise, Length: 812, Rounds: 200},
		{Plan: lay.Open, Length: 800.4, Rounds: 200},
		{Plan: lay.PartFold, Length: 800, Rounds: 200},
		{Plan: lay.Crosswise, Length: 800.4, Rounds: 200},
		{Plan: lay.TwoFolds, Length: 950, Rounds: 50},
		{Plan: lay.Turned, Unplaced: 2, Rounds: 50},
	}}
	want := []string{
		"1.2 cm more, and handier to cut",
		"hardly more, and handier to cut",
		"chosen: none that was tried takes less",
		"no more, but less handy to cut",
		"15 cm more after 50 of 200 rounds, too far behind to go on",
		"no place for 2 pieces",
	}
	if line := clothLine(l); strings.Count(line, "given up") != 1 || !strings.Contains(line, "(two-folds: 950 mm, given up)") {
		t.Errorf("%q", line)
	}
	lines := planLines(l, unit.Centimetre)
	if len(lines) != len(want) {
		t.Fatalf("%d lines: %q", len(lines), lines)
	}
	for i, line := range lines {
		if !strings.HasSuffix(line, "  "+want[i]) {
			t.Errorf("%s: %q, want %q", l.Tried[i].Plan, line, want[i])
		}
	}
}
