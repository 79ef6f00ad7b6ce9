package web

import (
	"bytes"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"gusset/demo"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
)

// sendPhotos begins a tracing and waits until it is done; it gives the address of
// its page, and the page.
func sendPhotos(t *testing.T, srv *httptest.Server, what, tapes string, files map[string][]byte) (at, body string, status int) {
	t.Helper()
	var b bytes.Buffer
	form := multipart.NewWriter(&b)
	for _, kv := range [][2]string{{"what", what}, {"tapes", tapes}} {
		if err := form.WriteField(kv[0], kv[1]); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range files {
		w, err := form.CreateFormFile("photo", name)
		if err == nil {
			_, err = w.Write(data)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	form.Close()
	resp, err := http.Post(srv.URL+"/trace", form.FormDataContentType(), &b)
	if err != nil {
		t.Fatal(err)
	}
	data, _ := io.ReadAll(resp.Body)
	resp.Body.Close()
	at, body = resp.Request.URL.Path, string(data)
	for range 2400 {
		if resp.StatusCode != 200 || !strings.Contains(body, `class="busy"`) {
			break
		}
		time.Sleep(50 * time.Millisecond)
		_, body = get(t, srv.URL+at)
	}
	return at, body, resp.StatusCode
}

const demoTapes = "A-B 45 cm\nC-D 43,55 cm"

// The demo's photo is traced in the browser to the very piece that the command
// makes of it by the same calls; it is named, taken into a pattern and read there
// like any other, and not taken over another unasked.
func TestTracePage(t *testing.T) {
	web, srv := room(t, nil)
	data, err := demo.Files.ReadFile("photos/pocket.jpg")
	if err != nil {
		t.Fatal(err)
	}
	at, body, _ := sendPhotos(t, srv, "piece", demoTapes, map[string][]byte{"pocket.jpg": data})
	if !strings.Contains(body, `name="edge.1"`) {
		t.Fatalf("no piece on the page:\n%.3000s", body)
	}
	if resp, png := get(t, srv.URL+at+"/preview.png"); resp.Header.Get("Content-Type") != "image/png" || !strings.HasPrefix(png, "\x89PNG") {
		t.Error("no preview")
	}
	form := url.Values{"pattern": {"satchel"}, "piece": {"pocket"}, "size": {"1"}, "grain": {"0"}, "edge.1": {"hem"}, "edge.2": {""}}
	for key, wrong := range map[string]string{"pattern": "../x", "piece": "Pocket", "edge.1": "a b", "size": "<"} {
		bad := url.Values{}
		for k, v := range form {
			bad[k] = v
		}
		bad.Set(key, wrong)
		if status, _ := post(t, srv, at+"/take", bad); status != 422 {
			t.Errorf("%s %q: %d", key, wrong, status)
		}
	}
	if status, body := post(t, srv, at+"/take", form); status != 200 {
		t.Fatalf("not taken: %d\n%.2000s", status, body)
	}
	text := textOf(t, web, "patterns/satchel/pocket.svg")
	p, _ := photo.Load("pocket.jpg", data)
	tapes, _ := tapesOf(demoTapes)
	traced, _ := trace.Run([]*photo.Photo{p}, tapes, trace.Tolerance)
	want, _ := traced.Piece(trace.Naming{Piece: "pocket", Size: "1", Edges: []string{"hem"}})
	if text != string(trace.File([]string{"1"}, []piece.Piece{want})) {
		t.Error("the piece is not the one that the command makes")
	}
	_, found := pattern.Load(source.File{Path: "patterns/satchel/pattern.yaml", Data: []byte("gusset: pattern/1\n")}, func(string) (source.File, error) {
		return source.File{Path: "pocket.svg", Data: []byte(text)}, nil
	})
	for _, f := range found {
		if strings.HasPrefix(f.Code(), "svg.") {
			t.Error(f.Text())
		}
	}
	if status, _ := post(t, srv, at+"/take", form); status != http.StatusConflict {
		t.Errorf("taken over another unasked: %d", status)
	}
	form.Set("over", "yes")
	form.Set("edge.2", "side")
	if status, _ := post(t, srv, at+"/take", form); status != 200 || !strings.Contains(textOf(t, web, "patterns/satchel/pocket.svg"), "S1.side") {
		t.Errorf("not taken over another when asked: %d", status)
	}
}

// What cannot be used is told: no photo, no tape, a tape to nowhere; a printed line
// where there is none.
func TestTraceRefused(t *testing.T) {
	_, srv := room(t, nil)
	data, err := demo.Files.ReadFile("photos/pocket.jpg")
	if err != nil {
		t.Fatal(err)
	}
	if _, body, _ := sendPhotos(t, srv, "piece", demoTapes, map[string][]byte{"x.jpg": []byte("no photo")}); !strings.Contains(body, "found stop") || strings.Contains(body, `name="edge.1"`) {
		t.Errorf("no photo:\n%.1500s", body)
	}
	for _, tapes := range []string{"A to D far", "A-D", "A-D 3 parsecs"} {
		if _, _, status := sendPhotos(t, srv, "piece", tapes, map[string][]byte{"pocket.jpg": data}); status != 422 {
			t.Errorf("tape %s: %d", tapes, status)
		}
	}
	at, body, _ := sendPhotos(t, srv, "sheet", demoTapes, map[string][]byte{"pocket.jpg": data})
	if !strings.Contains(body, `type="image"`) {
		t.Fatalf("no table to point at:\n%.2000s", body)
	}
	_, body = post(t, srv, at+"/places", url.Values{"size": {"12"}, "places": {"10 10; 20 10"}, "at.x": {"300"}, "at.y": {"200"}})
	if strings.Count(body, "<circle") != 3 {
		t.Errorf("three places, %d on the page", strings.Count(body, "<circle"))
	}
	if _, body = post(t, srv, at+"/places", url.Values{"size": {"12"}, "places": {"10 10; 20 10; 20 20"}, "do": {"back"}}); strings.Count(body, "<circle") != 2 {
		t.Errorf("one taken back, %d on the page", strings.Count(body, "<circle"))
	}
	if status, _ := post(t, srv, at+"/places", url.Values{"size": {"12"}, "places": {"ten by ten"}}); status != 422 {
		t.Errorf("places in words: %d", status)
	}
	if resp, _ := get(t, srv.URL+"/trace/elsewhere"); resp.StatusCode != 404 {
		t.Errorf("a tracing that is not held: %d", resp.StatusCode)
	}
}
