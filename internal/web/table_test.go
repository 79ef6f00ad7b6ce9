package web

import (
	"bufio"
	"encoding/json"
	"net/http"
	"net/url"
	"os"
	"strings"
	"testing"
	"time"

	"gusset/demo"
)

// listen follows the events of a docket.
func listen(t *testing.T, at string) func(kinds string) news {
	t.Helper()
	resp, err := http.Get(at)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { resp.Body.Close() })
	all := make(chan news, 1000)
	go func() {
		defer close(all)
		lines := bufio.NewScanner(resp.Body)
		for lines.Scan() {
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				var n news
				if json.Unmarshal([]byte(data), &n) == nil {
					all <- n
				}
			}
		}
	}()
	return func(kinds string) news {
		t.Helper()
		late := time.After(5 * time.Minute)
		for {
			select {
			case n, ok := <-all:
				if !ok {
					t.Fatalf("the events ended before %s", kinds)
				}
				if strings.Contains(kinds, n.Kind) {
					return n
				}
			case <-late:
				t.Fatalf("no %s", kinds)
			}
		}
	}
}

// What is made behind the page is told when it is there; better lays are told
// as they are found and the best stays when the search is stopped; nothing that
// has changed since can be printed.
func TestBehindThePage(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("whole searches: left out of the quick run")
	}
	web, srv := room(t, demo.Files)
	const at = "/docket/quay-cropped"
	sheet := func() int {
		resp, body := get(t, srv.URL+at+"/sheet/lay.pdf")
		if resp.StatusCode == 200 && !strings.HasPrefix(body, "%PDF-") {
			t.Errorf("no PDF: %.20q", body)
		}
		return resp.StatusCode
	}
	wait := listen(t, srv.URL+at+"/events")
	if status := sheet(); status != http.StatusConflict {
		t.Errorf("printed before it was made: %d", status)
	}
	const clear = "Nothing found that speaks against it"
	if _, body := get(t, srv.URL+at); strings.Contains(body, clear) {
		t.Error("said to be clear before everything was worked out")
	}
	wait("made")
	if _, body := get(t, srv.URL+at); !strings.Contains(body, clear) && !strings.Contains(body, `class="findings"`) {
		t.Error("neither clear nor told what is found")
	}
	if status := sheet(); status != 200 {
		t.Errorf("made, and not printed: %d", status)
	}
	m, _ := web.desk.table("quay-cropped").at()
	before := m.full.Lays[0].Length
	if status, _ := post(t, srv, at+"/look", url.Values{"do": {"look"}}); status != 200 {
		t.Errorf("look: %d", status)
	}
	if n := wait("better"); n.Length <= 0 || n.Plan == "" || n.Role == "" {
		t.Errorf("told of a better lay without saying what: %+v", n)
	}
	post(t, srv, at+"/look", url.Values{"do": {"stop"}})
	wait("made")
	if busy, look, _ := web.desk.table("quay-cropped").working(); busy || look {
		t.Error("stopped, and still looking")
	}
	m, _ = web.desk.table("quay-cropped").at()
	if after := m.full.Lays[0].Length; after > before+1e-6 || m.stale {
		t.Errorf("the lay was %.1f mm, and is %.1f after looking", before, after)
	}
	if status := sheet(); status != 200 {
		t.Errorf("after looking: %d", status)
	}
	post(t, srv, at+"/edit/size", url.Values{"base": {baseOf(t, srv, at)}, "zone.hip": {"14"}})
	if status := sheet(); status != http.StatusConflict {
		t.Errorf("printed a lay of before the change: %d", status)
	}
	_, body := get(t, srv.URL+at)
	if !strings.Contains(body, `class="stale"`) || !strings.Contains(body, `class="busy"`) {
		t.Error("a lay of before the change is not shown as such")
	}
}
