package web

import (
	"context"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"gusset/demo"
)

// On a network nothing of the workroom is shown or changed before signing in;
// signed in, changes bear the name; signing out ends it.
func TestSignIn(t *testing.T) {
	web, _ := room(t, demo.Files)
	const password = "nine brass thimbles"
	if err := web.store.SetAccount(context.Background(), "wren", password); err != nil {
		t.Fatal(err)
	}
	srv := httptest.NewServer(web.Shared())
	defer srv.Close()
	jar, _ := cookiejar.New(nil)
	c := &http.Client{Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	ask := func(method, path string, form url.Values) *http.Response {
		t.Helper()
		r, _ := http.NewRequest(method, srv.URL+path, strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		resp, err := c.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		return resp
	}
	for _, p := range []string{"/", "/docket/quay-long", "/docket/quay-long/events", "/docket/quay-long/work", "/file/bodies/wren.yaml", "/picture/quay-long", "/workroom.zip", "/changes", "/docket/quay-long/sheet/lay.pdf"} {
		if resp := ask("GET", p, nil); resp.StatusCode != http.StatusSeeOther || resp.Header.Get("Location") != "/sign-in" {
			t.Errorf("%s before signing in: %d", p, resp.StatusCode)
		}
	}
	for _, p := range []string{"/new", "/undo", "/take-in", "/file/bodies/wren.yaml", "/docket/quay-long/edit/size", "/docket/quay-long/look", "/docket/quay-long/ticks", "/docket/quay-long/tick", "/choose", "/sign-out"} {
		if resp := ask("POST", p, url.Values{}); resp.StatusCode != http.StatusUnauthorized {
			t.Errorf("%s before signing in: %d", p, resp.StatusCode)
		}
	}
	if resp := ask("POST", "/sign-in", url.Values{"name": {"wren"}, "password": {"wrong"}}); resp.StatusCode != http.StatusUnauthorized || len(resp.Cookies()) > 0 {
		t.Errorf("a wrong password: %d", resp.StatusCode)
	}
	resp := ask("POST", "/sign-in", url.Values{"name": {"wren"}, "password": {password}})
	if resp.StatusCode != http.StatusSeeOther || len(resp.Cookies()) != 1 || !resp.Cookies()[0].HttpOnly || resp.Cookies()[0].SameSite != http.SameSiteLaxMode {
		t.Fatalf("signing in: %d, %v", resp.StatusCode, resp.Cookies())
	}
	if resp := ask("POST", "/file/notes/quay-long.txt", url.Values{"base": {"0"}, "text": {"press twice"}}); resp.StatusCode != http.StatusSeeOther {
		t.Errorf("writing: %d", resp.StatusCode)
	}
	list, err := web.store.History(context.Background(), "notes/quay-long.txt", 0, 1)
	if err != nil || len(list) != 1 || list[0].By != "wren" {
		t.Errorf("written by %+v, %v", list, err)
	}
	ask("POST", "/sign-out", url.Values{})
	if resp := ask("GET", "/", nil); resp.StatusCode != http.StatusSeeOther {
		t.Errorf("after signing out: %d", resp.StatusCode)
	}
}

// A password cannot be guessed quickly: after a few tries every further one has
// to wait, whatever the name is, and with time they come back.
func TestTries(t *testing.T) {
	n := newTries()
	at := time.Unix(1_700_000_000, 0)
	allowed := 0
	for range 100 {
		if n.allow(at, "name wren") {
			allowed++
		}
	}
	if allowed != triesAtOnce {
		t.Errorf("%d tries at once", allowed)
	}
	if !n.allow(at, "name tarn") {
		t.Error("one name's tries count against another's")
	}
	if !n.allow(at.Add(triesEvery), "name wren") || n.allow(at.Add(triesEvery), "name wren") {
		t.Error("not one more try after the wait")
	}
}
