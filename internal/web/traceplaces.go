package web

import (
	"errors"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/trace"
)

// tracePlaces notes places on a printed outline, pointed at or typed, and has the
// outline followed.
func (s *Server) tracePlaces(w http.ResponseWriter, r *http.Request) {
	t := s.tracingOf(w, r)
	if t == nil {
		return
	}
	who := readerOf(r)
	t.lock.Lock()
	busy := t.busy || !t.sheet || t.preview == nil
	t.lock.Unlock()
	if busy {
		s.refuse(w, r, http.StatusConflict, who.T("bench.busy"))
		return
	}
	if told := t.point(r); told != nil {
		s.showTracing(w, r, t, http.StatusUnprocessableEntity, told.Error(), nil)
		return
	}
	if r.FormValue("do") == "follow" {
		t.lock.Lock()
		t.busy = true
		t.lock.Unlock()
		s.behind(t, t.follow)
	}
	http.Redirect(w, r, "/trace/"+t.id+"#preview", http.StatusSeeOther)
}

// point takes what the form says of the outline in hand.
func (t *tracing) point(r *http.Request) error {
	size := strings.TrimSpace(r.FormValue("size"))
	if !sizeForm.MatchString(size) {
		return errors.New(readerOf(r).T("trace.size-form"))
	}
	t.lock.Lock()
	defer t.lock.Unlock()
	var places []geom.Pt
	if said := strings.TrimSpace(r.FormValue("places")); said != "" {
		route, err := trace.ParseRoute(size + ": " + said)
		if err != nil {
			return err
		}
		places = route.Places
	}
	for i, p := range places { // what was shown rounded keeps its place
		for _, q := range t.places {
			if p.Sub(q).Len() < 1 {
				places[i] = q
			}
		}
	}
	x, errX := strconv.ParseFloat(r.FormValue("at.x"), 64)
	y, errY := strconv.ParseFloat(r.FormValue("at.y"), 64)
	switch {
	case errX == nil && errY == nil:
		places = append(places, t.base.Pointed(x, y))
	case r.FormValue("do") == "back" && len(places) > 0:
		places = places[:len(places)-1]
	case r.FormValue("do") == "anew":
		places, t.all, t.sizes = nil, nil, nil
	}
	if len(places) > maxPlaces {
		return errors.New(readerOf(r).T("trace.size-form"))
	}
	t.places, t.size = places, size
	return nil
}

var (
	sizeForm = regexp.MustCompile(`^[0-9A-Za-z][0-9A-Za-z½¼¾/-]*$`)
	edgeForm = regexp.MustCompile(`^[a-z][a-z0-9-]*$`)
)

// follow follows the outline in hand. When that goes well its places are done
// with, and the next size may be pointed out.
func (t *tracing) follow() {
	t.lock.Lock()
	route := trace.Route{Size: t.size, Places: slices.Clone(t.places)}
	base := t.base
	t.lock.Unlock()
	got, found := base.Follow(route, trace.Tolerance)
	t.lock.Lock()
	t.found = found
	if found.Stops() == 0 {
		if i := slices.Index(t.sizes, route.Size); i >= 0 {
			t.all[i] = got
		} else {
			t.all, t.sizes = append(t.all, got), append(t.sizes, route.Size)
		}
		t.places = nil
	}
	t.lock.Unlock()
	if found.Stops() == 0 {
		t.draw(got)
	}
}
