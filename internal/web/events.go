package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"
)

// hearten is how often a quiet line is written, so that nobody in between hangs
// up.
const hearten = 20 * time.Second

// events tells a page what happens at its docket, as server-sent events (HTML
// standard, section 9.2), until the page or the program goes.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	t, _, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	out := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	ch := make(chan news, 16)
	t.lock.Lock()
	t.watch[ch] = true
	first := news{Kind: "here", Change: t.made.change, Told: t.made.told}
	t.lock.Unlock()
	defer func() {
		t.lock.Lock()
		delete(t.watch, ch)
		t.lock.Unlock()
	}()
	beat := time.NewTicker(hearten)
	defer beat.Stop()
	if !say(w, out, first) {
		return
	}
	for {
		select {
		case n := <-ch:
			if !say(w, out, n) {
				return
			}
		case <-beat.C:
			// Somebody may have changed what this docket is made from.
			if _, err := t.at(); err != nil {
				return
			}
			if _, err := fmt.Fprint(w, ": still here\n\n"); err != nil || out.Flush() != nil {
				return
			}
		case <-r.Context().Done():
			return
		case <-s.desk.ctx.Done():
			return
		}
	}
}

func say(w http.ResponseWriter, out *http.ResponseController, n news) bool {
	data, err := json.Marshal(n)
	if err != nil {
		return false
	}
	_, err = fmt.Fprintf(w, "data: %s\n\n", data)
	return err == nil && out.Flush() == nil
}

// lookFor begins or stops the search for better lays.
func (s *Server) lookFor(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	t.lock.Lock()
	var err error
	switch {
	case r.FormValue("do") == "stop":
		err = t.enough()
	case r.FormValue("do") == "look" && t.busy == nil && m.whole && !m.stale:
		err = t.ask(nil)
	}
	t.lock.Unlock()
	if err != nil {
		s.fail(w, err)
		return
	}
	http.Redirect(w, r, "/docket/"+t.name+"#cloth", http.StatusSeeOther)
}
