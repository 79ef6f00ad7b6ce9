package web

import (
	"crypto/rand"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/piece"
)

// tracePage is what the pages of a tracing show.
type tracePage struct {
	reader
	ID           string
	Busy, Sheet  bool
	Findings     []foundLine
	Sound        bool // a piece can be taken
	Seen         bool // there is a picture to look at
	Wide, High   int  // of the preview, dots
	Dots         []dot
	Path         string // of the dots, as SVG writes it
	Places       string
	Size         string
	Sizes        []string
	Edges, Lines []int
	Notches      []int
	Kinds        []string
	Patterns     []string
	Said         func(string) string // what the form was sent with
	Told         string
}

type dot struct {
	N    int
	X, Y float64
}

// traceBegin asks for photos.
func (s *Server) traceBegin(w http.ResponseWriter, r *http.Request) {
	s.show(w, r, http.StatusOK, "trace", readerOf(r).T("trace.title"), tracePage{reader: readerOf(r)})
}

// traceNew takes photos in and begins to trace what they show.
func (s *Server) traceNew(w http.ResponseWriter, r *http.Request) {
	who := readerOf(r)
	r.Body = http.MaxBytesReader(w, r.Body, maxPhotoSum+1<<20)
	if err := r.ParseMultipartForm(maxArchive); err != nil {
		s.refuse(w, r, http.StatusRequestEntityTooLarge, who.T("trace.large", maxPhotos, maxPhotoSum>>20))
		return
	}
	defer r.MultipartForm.RemoveAll()
	files := r.MultipartForm.File["photo"]
	t := &tracing{id: rand.Text(), sheet: r.FormValue("what") == "sheet", busy: true, size: "1"}
	var err error
	if t.tapes, err = tapesOf(r.FormValue("tapes")); err == nil && (len(files) == 0 || len(files) > maxPhotos) {
		err = errors.New(who.T("trace.large", maxPhotos, maxPhotoSum>>20))
	}
	if err == nil {
		err = t.load(who, files)
	}
	if err != nil {
		p := tracePage{reader: who, Told: err.Error()}
		s.show(w, r, http.StatusUnprocessableEntity, "trace", who.T("trace.title"), p)
		return
	}
	s.tracings.add(t)
	s.behind(t, t.run)
	http.Redirect(w, r, "/trace/"+t.id, http.StatusSeeOther)
}

// tracingOf is the tracing that a request names; it answers itself when there is
// none.
func (s *Server) tracingOf(w http.ResponseWriter, r *http.Request) *tracing {
	t := s.tracings.of(r.PathValue("id"))
	if t == nil {
		s.show(w, r, http.StatusNotFound, "told", readerOf(r).T("trace.title"), readerOf(r).T("trace.gone"))
	}
	return t
}

func (s *Server) tracing(w http.ResponseWriter, r *http.Request) {
	if t := s.tracingOf(w, r); t != nil {
		s.showTracing(w, r, t, http.StatusOK, "", nil)
	}
}

func (s *Server) showTracing(w http.ResponseWriter, r *http.Request, t *tracing, status int, told string, more finding.List) {
	who := readerOf(r)
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	p := t.page(who, more)
	p.Told, p.Patterns = told, snap.Folders("patterns")
	p.Said = func(key string) string { return r.FormValue(key) }
	if p.Busy {
		w.Header().Set("Refresh", "2")
	}
	s.show(w, r, status, "tracing", who.T("trace.title"), p)
}

func (t *tracing) page(who reader, more finding.List) tracePage {
	t.lock.Lock()
	defer t.lock.Unlock()
	p := tracePage{reader: who, ID: t.id, Busy: t.busy, Sheet: t.sheet, Size: t.size, Sizes: t.sizes, Seen: t.preview != nil}
	for _, k := range piece.LineKinds {
		p.Kinds = append(p.Kinds, string(k))
	}
	if t.busy {
		return p
	}
	found := append(t.found[:len(t.found):len(t.found)], more...)
	for _, f := range found.Sorted() {
		l := lineOf(who, f)
		l.Link = ""
		p.Findings = append(p.Findings, l)
	}
	shown := t.base
	if len(t.all) > 0 {
		shown = t.all[0]
	}
	e, l, n := shown.Counts()
	p.Edges, p.Lines, p.Notches = upTo(e), upTo(l), upTo(n)
	p.Sound = t.found.Stops() == 0 && e > 0
	if p.Seen {
		across, down := t.base.PreviewSize()
		p.Wide, p.High = int(across), int(down)
	}
	var said, path []string
	for i, at := range t.places {
		x, y := t.base.Dot(at)
		p.Dots = append(p.Dots, dot{i + 1, x, y})
		said = append(said, fmt.Sprintf("%.1f %.1f", at.X/10, at.Y/10))
		path = append(path, fmt.Sprintf("%.1f,%.1f", x, y))
	}
	p.Places, p.Path = strings.Join(said, "; "), strings.Join(path, " ")
	return p
}

func upTo(n int) []int {
	var out []int
	for i := range n {
		out = append(out, i+1)
	}
	return out
}

// tracePreview is the table seen from above.
func (s *Server) tracePreview(w http.ResponseWriter, r *http.Request) {
	t := s.tracingOf(w, r)
	if t == nil {
		return
	}
	t.lock.Lock()
	png := t.preview
	t.lock.Unlock()
	if png == nil {
		s.missing(w, r)
		return
	}
	w.Header().Set("Content-Type", "image/png")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(png)
}
