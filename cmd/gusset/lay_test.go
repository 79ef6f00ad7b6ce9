package main

import (
	"bytes"
	"context"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
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
	for _, want := range []string{"slate serge", "chosen: no other takes less", "grain: top", picture} {
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
