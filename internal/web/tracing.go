package web

import (
	"errors"
	"io"
	"mime/multipart"
	"slices"
	"strings"
	"sync"

	"gusset/internal/finding"
	"gusset/internal/geom"
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
		s.desk.quiet.do(work)
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
