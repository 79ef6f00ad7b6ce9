package web

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/store"
	"gusset/internal/trace"
	"gusset/internal/trace/photo"
)

// Bounds of what is traced in the browser.
const (
	maxPhotos   = 8
	maxPhotoSum = 120 << 20 // bytes of all photos of a piece
	maxTracings = 2         // that are held at once: each keeps its photos unpacked
	maxPixels   = 160e6     // of all photos of a piece, at a byte and a half each
	maxPlaces   = 400       // on one printed outline
)

// tracing is one piece being traced. It is held in memory only, until two later
// ones have begun or the program ends: what lasts is the piece that is taken.
type tracing struct {
	id     string
	sheet  bool // of printed lines on an uncut sheet
	photos []*photo.Photo
	tapes  []trace.Tape

	lock    sync.Mutex
	busy    bool
	base    trace.Traced // the sheet as it is solved, or the piece
	all     []trace.Traced
	sizes   []string // of all, for printed lines
	found   finding.List
	preview []byte
	places  []geom.Pt // chosen on the outline in hand, mm of the preview's grid
	size    string    // of the outline in hand
}

// tracings are those that are held, the last one last.
type tracings struct {
	lock sync.Mutex
	list []*tracing
}

func (ts *tracings) add(t *tracing) {
	ts.lock.Lock()
	defer ts.lock.Unlock()
	ts.list = append(ts.list, t)
	if n := len(ts.list) - maxTracings; n > 0 {
		ts.list = slices.Delete(ts.list, 0, n)
	}
}

func (ts *tracings) of(id string) *tracing {
	ts.lock.Lock()
	defer ts.lock.Unlock()
	for _, t := range ts.list {
		if t.id == id {
			return t
		}
	}
	return nil
}

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

// tapesOf reads tapes, a line each.
func tapesOf(text string) ([]trace.Tape, error) {
	var out []trace.Tape
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		t, err := trace.ParseTape(line, "")
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	return out, nil
}

// load reads the photos; what is found in them is told with the rest.
func (t *tracing) load(who reader, files []*multipart.FileHeader) error {
	pixels := 0.0
	for _, h := range files {
		f, err := h.Open()
		if err != nil {
			return err
		}
		data, err := io.ReadAll(io.LimitReader(f, photo.MaxBytes+1))
		f.Close()
		if err != nil {
			return err
		}
		p, found := photo.Load(h.Filename, data)
		t.found = append(t.found, found...)
		if p == nil {
			continue
		}
		if pixels += float64(p.W) * float64(p.H); pixels > maxPixels {
			return errors.New(who.T("trace.pixels", maxPixels/1e6))
		}
		t.photos = append(t.photos, p)
	}
	return nil
}

// behind works at a tracing behind the page, as one of those things that may run
// at once.
func (s *Server) behind(t *tracing, work func()) {
	s.desk.works.Go(func() {
		select {
		case s.desk.room <- struct{}{}:
			defer func() { <-s.desk.room }()
		case <-s.desk.ctx.Done():
			return
		}
		work()
		t.lock.Lock()
		t.busy = false
		t.lock.Unlock()
	})
}

// run traces the piece, or solves the sheet.
func (t *tracing) run() {
	if t.found.Stops() > 0 {
		return
	}
	do := func() (trace.Traced, finding.List) { return trace.Run(t.photos, t.tapes, trace.Tolerance) }
	if t.sheet {
		do = func() (trace.Traced, finding.List) { return trace.Sheet(t.photos, t.tapes) }
	}
	got, found := do()
	t.lock.Lock()
	t.base, t.found = got, append(t.found, found...)
	t.lock.Unlock()
	t.draw(got)
}

// draw draws the preview of what was traced.
func (t *tracing) draw(of trace.Traced) {
	if len(of.Table.Shots) == 0 {
		return
	}
	png, err := of.Preview()
	t.lock.Lock()
	defer t.lock.Unlock()
	if err == nil {
		t.preview = png
	}
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

// traceTake names what was traced and takes it into a pattern.
func (s *Server) traceTake(w http.ResponseWriter, r *http.Request) {
	t := s.tracingOf(w, r)
	if t == nil {
		return
	}
	who := readerOf(r)
	folder, n, err := t.naming(r)
	if err != nil {
		s.showTracing(w, r, t, http.StatusUnprocessableEntity, err.Error(), nil)
		return
	}
	pieces, sizes, found := t.pieces(n)
	if found.Stops() > 0 || len(pieces) == 0 {
		s.showTracing(w, r, t, http.StatusUnprocessableEntity, who.T("trace.not-taken"), found)
		return
	}
	file := "patterns/" + folder + "/" + n.Piece + ".svg"
	_, err = s.store.Save(r.Context(), s.by(r), "trace", store.Edit{Path: file, Data: trace.File(sizes, pieces), Base: s.baseFor(r.Context(), file, r.FormValue("over") == "yes")})
	var c *store.Conflict
	switch {
	case errors.As(err, &c):
		s.showTracing(w, r, t, http.StatusConflict, who.T("trace.there", file), found)
	case err != nil:
		s.fail(w, err)
	default:
		http.Redirect(w, r, "/file/"+file, http.StatusSeeOther)
	}
}

// baseFor is the version of a file that may be written over: none, unless somebody
// said so.
func (s *Server) baseFor(ctx context.Context, file string, over bool) int64 {
	snap, err := s.store.Now(ctx)
	if err != nil || !over {
		return 0
	}
	v, _ := snap.Version(file)
	return v.Change
}

// naming reads what the form says about the piece.
func (t *tracing) naming(r *http.Request) (folder string, n trace.Naming, err error) {
	who := readerOf(r)
	if err := r.ParseForm(); err != nil {
		return "", n, errors.New(who.T("refused.form"))
	}
	folder = strings.TrimSpace(r.FormValue("pattern"))
	n = trace.Naming{Piece: strings.TrimSpace(r.FormValue("piece")), Size: strings.TrimSpace(r.FormValue("size")), Lines: map[int][2]string{}}
	if !nameForm.MatchString(folder) || !edgeForm.MatchString(n.Piece) || !t.sheet && !sizeForm.MatchString(n.Size) {
		return "", n, errors.New(who.T("trace.names"))
	}
	n.Grain, _ = strconv.Atoi(r.FormValue("grain"))
	for i := 1; r.Form.Has("edge." + strconv.Itoa(i)); i++ {
		name := strings.TrimSpace(r.FormValue("edge." + strconv.Itoa(i)))
		if name != "" && (!edgeForm.MatchString(name) || slices.Contains(n.Edges, name)) {
			return "", n, errors.New(who.T("trace.edge-name", i))
		}
		n.Edges = append(n.Edges, name)
	}
	for i := 1; r.Form.Has("kind." + strconv.Itoa(i)); i++ {
		kind, name := r.FormValue("kind."+strconv.Itoa(i)), strings.TrimSpace(r.FormValue("line."+strconv.Itoa(i)))
		if kind == "" {
			continue
		}
		if !slices.Contains(piece.LineKinds, piece.LineKind(kind)) || !edgeForm.MatchString(name) {
			return "", n, errors.New(who.T("trace.line-name", i))
		}
		n.Lines[i] = [2]string{kind, name}
	}
	for i := 1; i <= 999; i++ {
		if r.FormValue("drop."+strconv.Itoa(i)) == "yes" {
			n.Drop = append(n.Drop, i)
		}
	}
	return folder, n, nil
}

// pieces makes the pieces of what was traced, one for each size.
func (t *tracing) pieces(n trace.Naming) ([]piece.Piece, []string, finding.List) {
	t.lock.Lock()
	defer t.lock.Unlock()
	if t.busy || t.found.Stops() > 0 {
		return nil, nil, t.found
	}
	if !t.sheet {
		p, found := t.base.Piece(n)
		if len(p.Edges) == 0 {
			return nil, nil, found
		}
		return []piece.Piece{p}, []string{n.Size}, found
	}
	if len(t.all) == 0 {
		return nil, nil, nil
	}
	pieces, found := trace.Sizes(t.all, t.sizes, n)
	return pieces, t.sizes, found
}
