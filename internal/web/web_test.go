package web

import (
	"context"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"gusset/demo"
	"gusset/internal/store"
)

// room serves a workroom in a file of its own; with files, it holds those.
func room(t testing.TB, files fs.FS) (*Server, *httptest.Server) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	s, err := store.Open(ctx, filepath.Join(t.TempDir(), "room"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if files != nil {
		if _, _, err := s.TakeIn(ctx, "wren", files); err != nil {
			t.Fatal(err)
		}
	}
	web := New(ctx, s, Options{Now: time.Now, Log: slog.New(slog.NewTextHandler(testLog{t}, nil)), Searches: 1, Rounds: 4})
	srv := httptest.NewServer(web.Handler())
	t.Cleanup(func() {
		srv.Close()
		cancel()
		web.Wait()
		s.Close()
	})
	return web, srv
}

type testLog struct{ t testing.TB }

func (l testLog) Write(p []byte) (int, error) {
	l.t.Log(strings.TrimSpace(string(p)))
	return len(p), nil
}

func get(t testing.TB, url string, change ...func(*http.Request)) (*http.Response, string) {
	t.Helper()
	r, err := http.NewRequest("GET", url, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range change {
		c(r)
	}
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp, string(body)
}

// The shelf shows every docket with its picture, and each docket's sheet has
// all its leaves, drawings in them, in either language.
func TestShelfAndDocket(t *testing.T) {
	_, srv := room(t, demo.Files)
	resp, body := get(t, srv.URL+"/")
	if resp.StatusCode != 200 || !strings.Contains(body, `href="/docket/quay-long"`) || !strings.Contains(body, "Quay trousers, long view, for Wren") {
		t.Errorf("the shelf: %d\n%s", resp.StatusCode, body)
	}
	if resp, body := get(t, srv.URL+"/picture/quay-long"); resp.Header.Get("Content-Type") != "image/svg+xml" || strings.Count(body, "<path") < 6 {
		t.Errorf("the picture: %s, %d lines drawn", resp.Header.Get("Content-Type"), strings.Count(body, "<path"))
	}
	for lang, word := range map[string]string{"en": "Body and size", "de": "Körper und Größe"} {
		_, body := get(t, srv.URL+"/docket/quay-long", func(r *http.Request) { r.Header.Set("Accept-Language", lang) })
		for _, want := range []string{word, `lang="` + lang + `"`, `id="piece-front"`, `data-layer="edge:outseam"`, `id="change-narrow"`} {
			if !strings.Contains(body, want) {
				t.Errorf("%s: no %s", lang, want)
			}
		}
	}
	if resp, _ := get(t, srv.URL+"/docket/hat"); resp.StatusCode != http.StatusNotFound {
		t.Errorf("a docket that is not there: %d", resp.StatusCode)
	}
}

// A finding on the sheet leads to a place that is there.
func TestFindingsLead(t *testing.T) {
	web, srv := room(t, demo.Files)
	ctx := context.Background()
	snap, _ := web.store.Now(ctx)
	text, _ := snap.ReadFile("dockets/quay-long.yaml")
	v, _ := snap.Version("dockets/quay-long.yaml")
	slip := strings.Replace(string(text), "from: knee", "from: kneee", 1)
	if _, err := web.store.Save(ctx, "wren", "", store.Edit{Path: v.Path, Data: []byte(slip), Base: v.Change}); err != nil {
		t.Fatal(err)
	}
	_, body := get(t, srv.URL+"/docket/quay-long")
	links := regexp.MustCompile(`class="found stop".*?href="(#?[^"]*)"`).FindAllStringSubmatch(body, -1)
	if len(links) == 0 {
		t.Fatal("the slip is not told")
	}
	for _, l := range links {
		if id, ok := strings.CutPrefix(l[1], "#"); ok && !strings.Contains(body, `id="`+id+`"`) {
			t.Errorf("%s leads nowhere", l[1])
		}
	}
}

// Every page tells the browser to take nothing from elsewhere, and holds no
// script or style of its own and no address of elsewhere.
func TestSafeHeaders(t *testing.T) {
	_, srv := room(t, demo.Files)
	inline := regexp.MustCompile(`<script[^>]*>[^<]|<style|\son[a-z]+=|\sstyle=|javascript:`)
	away := regexp.MustCompile(`(?:src|href|action)="(?:https?:)?//`)
	for _, p := range []string{"/", "/docket/quay-long", "/docket/hat"} {
		resp, body := get(t, srv.URL+p)
		if resp.Header.Get("Content-Security-Policy") != Policy || resp.Header.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: headers %v", p, resp.Header)
		}
		if m := inline.FindString(body); m != "" {
			t.Errorf("%s holds %q", p, m)
		}
		if m := away.FindString(body); m != "" {
			t.Errorf("%s asks elsewhere: %q", p, m)
		}
	}
}

// Only this machine is answered, by its own names; a form of another site is
// refused (Fetch Metadata, W3C; RFC 6454 for origins).
func TestOthersRefused(t *testing.T) {
	_, srv := room(t, nil)
	for host, want := range map[string]int{"localhost:1": 200, "127.0.0.1": 200, "[::1]:9": 200, "theatre.example": 403, "127.0.0.1.example": 403, "": 200} {
		resp, _ := get(t, srv.URL+"/", func(r *http.Request) { r.Host = host })
		if resp.StatusCode != want {
			t.Errorf("host %q: %d, want %d", host, resp.StatusCode, want)
		}
	}
	for _, h := range []http.Header{{"Sec-Fetch-Site": {"cross-site"}}, {"Origin": {"http://theatre.example"}}} {
		r, _ := http.NewRequest("POST", srv.URL+"/choose", strings.NewReader("lang=de"))
		r.Header = h
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		resp, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		if resp.StatusCode != http.StatusForbidden {
			t.Errorf("a form from elsewhere, %v: %d", h, resp.StatusCode)
		}
	}
}

// Both languages have the same words, with the same gaps for numbers and names,
// and every word that a page asks for.
func TestCatalogue(t *testing.T) {
	verbs := regexp.MustCompile(`%[^a-z%]*[a-z%]`)
	en, de := catalogue["en"], catalogue["de"]
	for key, text := range en {
		other, ok := de[key]
		if !ok {
			t.Errorf("German has no %s", key)
			continue
		}
		if a, b := verbs.FindAllString(text, -1), verbs.FindAllString(other, -1); !slices.Equal(a, b) {
			t.Errorf("%s takes %v in English, %v in German", key, a, b)
		}
	}
	for key := range de {
		if _, ok := en[key]; !ok {
			t.Errorf("English has no %s", key)
		}
	}
	files, _ := fs.Glob(pageFiles, "pages/*.html")
	asked := regexp.MustCompile(`\.T "([^"]+)"`)
	n := 0
	for _, f := range files {
		text, _ := fs.ReadFile(pageFiles, f)
		for _, m := range asked.FindAllStringSubmatch(string(text), -1) {
			n++
			if _, ok := en[m[1]]; !ok {
				t.Errorf("%s asks for %s", f, m[1])
			}
		}
	}
	if n < 30 {
		t.Errorf("%d words found in %d pages", n, len(files))
	}
}

// Text on its ground has a contrast of 4.5 to 1 at least, in light and dark
// (WCAG 2.2, success criterion 1.4.3; relative luminance by its definition).
func TestContrast(t *testing.T) {
	css, err := lookFiles.ReadFile("look/table.css")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(string(css), -1)
	if len(blocks) != 2 {
		t.Fatalf("%d sets of colours, want light and dark", len(blocks))
	}
	pairs := [][2]string{{"ink", "board"}, {"ink", "paper"}, {"quiet", "board"}, {"quiet", "paper"}, {"strong", "paper"}, {"strong", "board"},
		{"on-strong", "strong"}, {"stop", "paper"}, {"stop", "stop-ground"}, {"warn", "warn-ground"}, {"warn", "paper"}, {"advice", "advice-ground"},
		{"ink", "stop-ground"}, {"ink", "warn-ground"}, {"ink", "advice-ground"}, {"quiet", "stop-ground"}, {"quiet", "warn-ground"}, {"quiet", "advice-ground"}, {"fine", "paper"}}
	for i, b := range blocks {
		colours := map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6})`).FindAllStringSubmatch(b[1], -1) {
			colours[m[1]] = m[2]
		}
		for _, p := range pairs {
			if c := contrast(t, colours[p[0]], colours[p[1]]); c < 4.5 {
				t.Errorf("set %d: %s on %s is %.2f to 1", i, p[0], p[1], c)
			}
		}
	}
}
