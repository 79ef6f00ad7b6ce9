package web

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"gusset/demo"
	"gusset/internal/store"
)

// A seam that does not fit leads to the drawing of its piece, and its number is on
// the edges that are sewn together there, though nothing can be cut yet.
func TestFindingMarked(t *testing.T) {
	web, srv := room(t, demo.Files)
	ctx := context.Background()
	snap, _ := web.store.Now(ctx)
	const file = "patterns/quay/pattern.yaml"
	text, _ := snap.ReadFile(file)
	v, _ := snap.Version(file)
	slip := strings.ReplaceAll(string(text), "ease: [0 mm]", "ease: [40 mm]")
	docket := docketPath("quay-cropped")
	was, _ := snap.ReadFile(docket)
	d, _ := snap.Version(docket)
	unchanged := regexp.MustCompile(`changes:\n(  - .*\n)+`).ReplaceAllString(string(was), "")
	if _, err := web.store.Save(ctx, "wren", "", store.Edit{Path: file, Data: []byte(slip), Base: v.Change}, store.Edit{Path: docket, Data: []byte(unchanged), Base: d.Change}); err != nil {
		t.Fatal(err)
	}
	_, body := get(t, srv.URL+"/docket/quay-cropped")
	marked := regexp.MustCompile(`class="found stop".*?href="#(piece-[^"]+)" data-mark="(\d+)"[^>]*>([^<]*does not fit[^<]*)<`).FindAllStringSubmatch(body, -1)
	if len(marked) == 0 {
		t.Fatalf("no gap is marked:\n%s", body[strings.Index(body, `data-part="findings"`):][:3000])
	}
	for _, m := range marked {
		if !strings.Contains(body, `id="`+m[1]+`"`) {
			t.Errorf("%s leads nowhere", m[1])
		}
		if n := strings.Count(body, `data-layer="found:`+m[2]+`"`); n < 2 {
			t.Errorf("%q is marked at %d places, want both sides", m[3], n)
		}
	}
}
