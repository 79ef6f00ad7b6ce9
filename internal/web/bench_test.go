package web

import (
	"context"
	"html"
	"io/fs"
	"math"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gusset/demo"
	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/source"
)

// laidOut is the demo's workroom with lays of a docket kept in it, so that they
// need not be looked for.
func laidOut(t testing.TB, docket string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(demo.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo.Files, name)
		out[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	in, _, err := making.Open(out, docketPath(docket))
	if err != nil {
		t.Fatal(err)
	}
	r := making.Run(context.Background(), in, making.Lay, making.Effort{Rounds: 1, Seed: 1, Plans: map[cloth.Role]lay.Plan{cloth.Main: lay.Open}}, nil)
	for name, data := range making.Keep(in, r) {
		out[name] = &fstest.MapFile{Data: data}
	}
	return out
}

// wholly waits until everything of a docket is made.
func wholly(t testing.TB, web *Server, docket string) made {
	t.Helper()
	for range 6000 {
		m, err := web.desk.table(docket).at()
		if err != nil {
			t.Fatal(err)
		}
		if busy, _, _ := web.desk.table(docket).working(); !busy && m.whole && !m.stale {
			m, _ = web.desk.table(docket).at()
			return m
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("never made")
	return made{}
}

var textField = regexp.MustCompile(`name="text" value="([^"]*)"`)

// onHand is the lay that a page has in its hand.
func onHand(t testing.TB, body string) lay.File {
	t.Helper()
	m := textField.FindStringSubmatch(body)
	if m == nil {
		t.Fatalf("no lay on the page:\n%.1500s", body)
	}
	f, found := lay.Load(source.File{Path: "lays/x.yaml", Data: []byte(html.UnescapeString(m[1]))})
	if found.Stops() > 0 {
		t.Fatal(found[0].Text())
	}
	return f
}

// handForm is a lay as its form is sent.
func handForm(f lay.File, do string) url.Values {
	return url.Values{"text": {string(f.YAML())}, "do": {do}}
}

// A piece moved by hand is judged by the referee as it moves; what must not be
// cut is not kept; what may is kept as a lay file, pins and all, and used.
func TestBench(t *testing.T) {
	web, srv := room(t, laidOut(t, "quay-cropped"))
	const at = "/docket/quay-cropped/cloth/main"
	wholly(t, web, "quay-cropped")
	resp, body := get(t, srv.URL+at)
	if resp.StatusCode != 200 || !strings.Contains(body, "May be cut as it lies") || !strings.Contains(body, `data-layer="laid:back-cropped@left"`) {
		t.Fatalf("%d\n%.2000s", resp.StatusCode, body)
	}
	f := onHand(t, body)
	k := -1
	for i, p := range f.Pieces {
		if p.ID == "back-cropped@left" {
			k = i
		}
	}
	n := strconv.Itoa(k)
	over := handForm(f, "judge")
	over.Set("along."+n, f.Pieces[(k+1)%len(f.Pieces)].Along.String())
	over.Set("across."+n, f.Pieces[(k+1)%len(f.Pieces)].Across.String())
	over.Set("only", "judged")
	status, body := post(t, srv, at, over)
	if status != 200 || !strings.Contains(body, "Must not be cut like this") || !strings.Contains(body, "share cloth") || strings.Contains(body, "<path") {
		t.Errorf("one upon the other: %d\n%.1500s", status, body)
	}
	over.Set("do", "keep")
	if status, body := post(t, srv, at, over); status != 422 || !strings.Contains(body, "A lay is kept when") {
		t.Errorf("kept what must not be cut: %d", status)
	}
	for _, wrong := range []string{"far", "-3 cm", "1e99 m"} {
		v := handForm(f, "judge")
		v.Set("along."+n, wrong)
		v.Set("across."+n, "3 cm")
		if status, body := post(t, srv, at, v); status != 422 || onHand(t, body).Pieces[k].Along != f.Pieces[k].Along {
			t.Errorf("along %s: %d", wrong, status)
		}
	}
	if status, body := post(t, srv, at, handForm(f, "turn."+n)); status != 200 || onHand(t, body).Pieces[k].Turned == f.Pieces[k].Turned {
		t.Errorf("not turned: %d", status)
	}
	_, body = post(t, srv, at, handForm(f, "pin."+n))
	pinned := onHand(t, body)
	if !pinned.Pieces[k].Pinned || pinned.Pieces[k].Along != f.Pieces[k].Along {
		t.Errorf("pinned: %+v", pinned.Pieces[k])
	}
	if status, _ := post(t, srv, at, handForm(pinned, "keep")); status != 200 {
		t.Errorf("not kept: %d", status)
	}
	kept, found := lay.Load(source.File{Path: "lays/quay-cropped-main.yaml", Data: []byte(textOf(t, web, "lays/quay-cropped-main.yaml"))})
	if found.Stops() > 0 || !kept.Holds("back-cropped@left") || kept.Digest == "" {
		t.Errorf("kept: %+v", kept)
	}
	m := wholly(t, web, "quay-cropped")
	if l := m.full.Lays[0]; l.Source != lay.FromKept || !making.InHand(m.in, l).Holds("back-cropped@left") {
		t.Errorf("the lay that is used: %q", l.Source)
	}
	others(t, srv, at)
}

// others are requests that the page never makes.
func others(t *testing.T, srv *httptest.Server, at string) {
	for _, v := range []url.Values{{"do": {"keep"}}, {"text": {"gusset: lay/1"}, "do": {"judge"}}, {"text": {strings.Repeat("- {", 100)}}} {
		if status, _ := post(t, srv, at, v); status != 422 {
			t.Errorf("%v: %d", v, status)
		}
	}
	if resp, _ := get(t, srv.URL+strings.TrimSuffix(at, "main")+"hat"); resp.StatusCode != 404 {
		t.Errorf("a cloth that is not there: %d", resp.StatusCode)
	}
}

// With a piece pinned, better places are looked for around it: it stays where it
// is to the micrometre, and what is found is there when the workroom is opened
// again.
func TestLookAroundPins(t *testing.T) {
	web, srv := room(t, laidOut(t, "quay-cropped"))
	const at = "/docket/quay-cropped/cloth/main"
	before := wholly(t, web, "quay-cropped").full.Lays[0]
	_, body := get(t, srv.URL+at)
	f := onHand(t, body)
	f.Pieces[1].Pinned = true
	wait := listen(t, srv.URL+"/docket/quay-cropped/events")
	if status, body := post(t, srv, at, handForm(f, "look")); status != 200 {
		t.Fatalf("%d\n%.1500s", status, body)
	}
	wait("look")
	post(t, srv, "/docket/quay-cropped/look", url.Values{"do": {"stop"}})
	wait("made")
	m := wholly(t, web, "quay-cropped")
	l := m.full.Lays[0]
	if l.Length > before.Length+1e-6 || l.Source == lay.FromKept {
		t.Errorf("found %.1f mm from %q, it was %.1f", l.Length, l.Source, before.Length)
	}
	now := making.InHand(m.in, l)
	for _, p := range now.Pieces {
		if p.ID == f.Pieces[1].ID && (!p.Pinned || math.Abs(p.Along.MM()-f.Pieces[1].Along.MM()) > 0.0011 || math.Abs(p.Across.MM()-f.Pieces[1].Across.MM()) > 0.0011) {
			t.Errorf("pinned at %v %v, lies at %v %v", f.Pieces[1].Along, f.Pieces[1].Across, p.Along, p.Across)
		}
	}
	ctx, shut := context.WithCancel(context.Background())
	again := newDesk(ctx, web.store, Options{Now: time.Now, Log: web.log})
	in, err := laysFound(ctx, again.store, "quay-cropped")
	shut()
	again.works.Wait() // else it looks for searches in a workroom that is closed
	if err != nil || in[cloth.Main].Digest == "" {
		t.Errorf("found, and not there again: %+v, %v", in[cloth.Main], err)
	}
}
