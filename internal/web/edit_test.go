package web

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"gusset/demo"
	"gusset/internal/docket"
)

// post sends a form and follows to the page it leads to.
func post(t testing.TB, srv *httptest.Server, path string, form url.Values) (int, string) {
	t.Helper()
	resp, err := http.PostForm(srv.URL+path, form)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

var baseForm = regexp.MustCompile(`name="base" value="([0-9]+)"`)

func baseOf(t testing.TB, srv *httptest.Server, path string) string {
	t.Helper()
	_, body := get(t, srv.URL+path)
	return baseIn(t, body)
}

// baseIn is the version that the forms of a page are for.
func baseIn(t testing.TB, body string) string {
	t.Helper()
	m := baseForm.FindStringSubmatch(body)
	if m == nil {
		t.Fatal("the page has no form")
	}
	return m[1]
}

func textOf(t testing.TB, web *Server, file string) string {
	t.Helper()
	snap, err := web.store.Now(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	data, err := snap.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

const quay = "dockets/quay-long.yaml"

// Every form of a docket changes what it says and no other line; what is not
// sound, or made for an older version, changes nothing and says so.
func TestEdits(t *testing.T) {
	web, srv := room(t, demo.Files)
	rows := []struct {
		form, name string
		values     url.Values
		status     int
		line       string // the docket then has this line, or the page this word
	}{
		{"size", "one size", url.Values{"zone.waist": {"14"}, "zone.hip": {"14"}}, 200, "size: \"14\""},
		{"size", "a size for each zone", url.Values{"zone.waist": {"14.6"}, "zone.hip": {"16"}, "zone.knee": {"auto"}}, 200, `size: {hip: "16", waist: "14.6"}`},
		{"size", "left to the chart", url.Values{"zone.waist": {""}, "zone.hip": {"auto"}}, 200, "size: auto"},
		{"change", "a number", url.Values{"step": {"narrow"}, "to": {"45 cm"}}, 200, "  - {id: narrow, hem-girth: {edge: hem, to: 45 cm, from: knee}}"},
		{"change", "no length", url.Values{"step": {"narrow"}, "to": {"wide"}}, 422, "Nothing was changed"},
		{"change", "a step that is not there", url.Values{"step": {"hat"}, "to": {"45 cm"}}, 422, "Nothing was changed"},
		{"change", "moved up", url.Values{"step": {"narrow"}, "do": {"up"}}, 200, "changes:\n  - {id: narrow"},
		{"change", "taken out", url.Values{"step": {"narrow"}, "do": {"out"}}, 200, "changes:\n  - {id: legs, lengthen: {at: leg, by: 2.5 cm}}\ntable"},
		{"add", "added", url.Values{"kind": {"move-hem"}, "edge": {""}, "by": {"-1 cm"}}, 200, "  - {id: move-hem, move-hem: {by: -1 cm}}"},
		{"add", "of no kind", url.Values{"kind": {"hat"}}, 422, "Nothing was changed"},
		{"cloths", "another cloth", url.Values{"cloths.main": {"slate-serge"}}, 200, "cloths: {main: slate-serge, pocketing: calico, interfacing: woven-fusible}"},
		{"basics", "the table", url.Values{"table": {"2 m"}, "threads.hand": {"grey, dark"}}, 200, `threads: {main: rust, topstitch: straw, overlock: rust, hand: "grey, dark"}`},
		{"basics", "no length", url.Values{"table": {"long"}}, 422, "Nothing was changed"},
	}
	for _, r := range rows {
		before := textOf(t, web, quay)
		r.values.Set("base", baseOf(t, srv, "/docket/quay-long"))
		status, body := post(t, srv, "/docket/quay-long/edit/"+r.form, r.values)
		after := textOf(t, web, quay)
		if status != r.status {
			t.Errorf("%s, %s: %d, want %d", r.form, r.name, status, r.status)
		}
		if r.status != 200 {
			if before != after || !strings.Contains(body, r.line) {
				t.Errorf("%s, %s: changed or not told", r.form, r.name)
			}
			continue
		}
		if !strings.Contains(after, r.line) {
			t.Errorf("%s, %s: no %q in\n%s", r.form, r.name, r.line, after)
		}
		if !strings.Contains(body, `id="notes"`) {
			t.Errorf("%s, %s: not led back to the docket", r.form, r.name)
		}
	}
	if status, body := post(t, srv, "/docket/quay-long/edit/size", url.Values{"base": {"1"}, "zone.waist": {"12"}}); status != http.StatusConflict || !strings.Contains(body, "has changed this docket") {
		t.Errorf("an edit of an old version: %d", status)
	}
	if status, _ := post(t, srv, "/docket/quay-long/edit/hat", url.Values{"base": {"1"}}); status != http.StatusNotFound {
		t.Errorf("a form that is not there: %d", status)
	}
}

// A file is written as it was typed; of two who write it the second is told,
// keeps what they typed and sees what the other wrote; undo brings it back.
func TestFiles(t *testing.T) {
	web, srv := room(t, demo.Files)
	const file = "/file/cloths/rust-drill.yaml"
	first := baseOf(t, srv, file)
	old := textOf(t, web, "cloths/rust-drill.yaml")
	text := strings.Replace(old, "2.60 m", "3 m", 1)
	if status, body := post(t, srv, file, url.Values{"base": {first}, "text": {strings.ReplaceAll(text, "\n", "\r\n")}}); status != 200 || !strings.Contains(body, "length: 3 m") {
		t.Errorf("written: %d", status)
	}
	if got := textOf(t, web, "cloths/rust-drill.yaml"); got != text {
		t.Errorf("typed %q, kept %q", text, got)
	}
	status, body := post(t, srv, file, url.Values{"base": {first}, "text": {"mine alone"}})
	if status != http.StatusConflict || !strings.Contains(body, "mine alone") || !strings.Contains(body, "length: 3 m") {
		t.Errorf("the second to write: %d\n%s", status, body)
	}
	if status, _ := post(t, srv, "/undo", url.Values{"change": {"2"}, "here": {file}}); status != 200 || textOf(t, web, "cloths/rust-drill.yaml") != old {
		t.Errorf("undone: %d", status)
	}
	form := url.Values{"base": {baseOf(t, srv, file)}, "by": {"form"}, "width": {"58 1/4 in"}, "weight": {"275"}, "washed": {"no"}, "shrink.warp": {"3 %"}, "shrink.weft": {"2 %"}}
	if status, _ := post(t, srv, file, form); status != 200 {
		t.Errorf("by its form: %d", status)
	}
	want := strings.NewReplacer("148 cm", "58 1/4 in", "260", "275", "washed: yes", "washed: no").Replace(old) + "shrink: {warp: 3 %, weft: 2 %}\n"
	if got := textOf(t, web, "cloths/rust-drill.yaml"); got != want {
		t.Errorf("by its form:\n%s\nwant\n%s", got, want)
	}
	_, page := get(t, srv.URL+file)
	if strings.Contains(page, `class="found stop"`) {
		t.Errorf("what the form wrote is not sound:\n%s", page)
	}
	for _, bad := range []string{"/file/cloths/hat.yaml", "/file/..%2fhat", "/file/"} {
		if resp, _ := get(t, srv.URL+bad); resp.StatusCode != http.StatusNotFound {
			t.Errorf("%s: %d", bad, resp.StatusCode)
		}
	}
}

// Measures are written by their form, readings of one measure as a list.
func TestBodyForm(t *testing.T) {
	web, srv := room(t, demo.Files)
	form := url.Values{"base": {baseOf(t, srv, "/file/bodies/wren.yaml")}, "by": {"form"}, "measures.waist": {"80 cm; 81 cm"}, "measures.knee": {"38,5 cm"}}
	if status, _ := post(t, srv, "/file/bodies/wren.yaml", form); status != 200 {
		t.Errorf("%d", status)
	}
	got := textOf(t, web, "bodies/wren.yaml")
	for _, want := range []string{"\n  waist: [80 cm, 81 cm]\n", "\n  knee: \"38,5 cm\"\n", "\n  hip: [\"98,5 cm\", \"98,5 cm\"]\n", "# Wren, stage carpenter"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// A new docket, body and cloth begin sound, and none takes the place of another.
func TestBegin(t *testing.T) {
	_, srv := room(t, demo.Files)
	for _, r := range []struct {
		form   url.Values
		status int
	}{
		{url.Values{"folder": {"bodies"}, "name": {"Finch Ö"}, "waist-at": {"natural"}, "measures.waist": {"80 cm"}, "measures.hip": {"102 cm; 101 cm"}}, 200},
		{url.Values{"folder": {"cloths"}, "name": {"sail canvas"}, "width": {"150 cm"}, "length": {"3 m"}, "direction": {"two-way"}, "thickness": {"0.8 mm"}, "washed": {"yes"}}, 200},
		{url.Values{"folder": {"cloths"}, "name": {"of no size"}}, 422},
		{url.Values{"folder": {"dockets"}, "name": {"Quay for Finch"}, "body": {"wren"}, "pattern": {"quay/long"}}, 200},
		{url.Values{"folder": {"dockets"}, "name": {"Quay for Finch"}, "body": {"wren"}, "pattern": {"quay/long"}}, 409},
		{url.Values{"folder": {"dockets"}, "name": {"hat"}, "body": {"wren"}, "pattern": {"../hat"}}, 422},
		{url.Values{"folder": {"etc"}, "name": {"hat"}}, 422},
		{url.Values{"folder": {"bodies"}, "name": {"./.."}}, 422},
	} {
		status, body := post(t, srv, "/new", r.form)
		if status != r.status || status == 200 && strings.Contains(body, `class="found stop"`) {
			t.Errorf("%v: %d, want %d", r.form, status, r.status)
		}
	}
}

// Every change that a form offers is one that dockets have, and its kind is
// named in words.
func TestStepFields(t *testing.T) {
	for kind, fields := range stepFields {
		known := false
		for _, k := range docket.ChangeKinds {
			known = known || k == kind
		}
		if !known || catalogue["en"]["kind."+string(kind)] == "" {
			t.Errorf("%s is not a change, or has no words", kind)
		}
		for _, f := range fields {
			if catalogue["en"]["field."+f.Key] == "" {
				t.Errorf("no words for %s", f.Key)
			}
		}
	}
}
