package main

import (
	"bytes"
	"context"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Looking without end stops when it is told to, as by Ctrl-C, and then prints
// the best lays so far, judged, with every plan that was tried.
func TestKeepLooking(t *testing.T) {
	room := filepath.Join(t.TempDir(), "room")
	if code := run(context.Background(), []string{"new", room}, &bytes.Buffer{}, os.Stderr); code != 0 {
		t.Fatal("no workroom")
	}
	ctx, stop := context.WithTimeout(context.Background(), 3*time.Second)
	defer stop()
	var out, told bytes.Buffer
	picture := filepath.Join(room, "lay.png")
	args := []string{"lay", filepath.Join(room, "dockets", "quay-cropped.yaml"), "--rounds", "1", "--keep-looking", "--picture", picture}
	if code := run(ctx, args, &out, &told); code != 0 {
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
	if !strings.Contains(told.String(), "look") {
		t.Errorf("nothing was told on the way: %q", told.String())
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
