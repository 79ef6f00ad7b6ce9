package web

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"regexp"
	"strings"
	"time"

	"gusset/internal/store"
)

// Options say how the workroom is served.
type Options struct {
	Now      func() time.Time
	Log      *slog.Logger
	Searches int // how many searches for lays run at once; at least one does
	// Hold is how long a search waits for whoever was at it before another takes
	// it over; 20 s when it is 0.
	Hold time.Duration
	// Rounds is how long a lay is looked for before anybody asks for more; as the
	// command does when it is 0.
	Rounds int
}

// Server serves one workroom.
type Server struct {
	store *store.Store
	desk  *desk
	now   func() time.Time
	log   *slog.Logger
	tries *tries

	tracings tracings
	shown    kept // what pages that are of no docket are made from
}

// New makes a server for a workroom; the work behind its pages ends with ctx.
func New(ctx context.Context, s *store.Store, o Options) *Server {
	return &Server{store: s, desk: newDesk(ctx, s, o), now: o.Now, log: o.Log, tries: newTries()}
}

// Wait waits until the work behind the pages has ended, once its context has.
func (s *Server) Wait() { s.desk.works.Wait() }

// Handler answers the requests of browsers on this machine only.
func (s *Server) Handler() http.Handler { return local(safe(fromHere(s.routes()))) }

// Shared answers the requests of browsers anywhere, from those who are signed
// in.
func (s *Server) Shared() http.Handler { return safe(fromHere(s.signed(s.routes()))) }

// fromHere refuses forms that another site has sent.
func fromHere(next http.Handler) http.Handler { return http.NewCrossOriginProtection().Handler(next) }

func (s *Server) routes() *http.ServeMux {
	mux := http.NewServeMux()
	mux.Handle("GET /look/", looks())
	mux.HandleFunc("GET /{$}", s.shelf)
	mux.HandleFunc("GET /picture/{name}", s.picture)
	mux.HandleFunc("GET /docket/{name}", s.docket)
	mux.HandleFunc("GET /docket/{name}/sheet/{file}", s.sheet)
	mux.HandleFunc("GET /docket/{name}/events", s.events)
	mux.HandleFunc("POST /docket/{name}/edit/{form}", s.edit)
	mux.HandleFunc("POST /docket/{name}/look", s.lookFor)
	mux.HandleFunc("GET /docket/{name}/cloth/{role}", s.bench)
	mux.HandleFunc("POST /docket/{name}/cloth/{role}", s.onBench)
	mux.HandleFunc("GET /docket/{name}/work", s.work)
	mux.HandleFunc("POST /docket/{name}/ticks", s.ticks)
	mux.HandleFunc("POST /docket/{name}/tick", s.tick)
	mux.HandleFunc("GET /trace", s.traceBegin)
	mux.HandleFunc("POST /trace", s.traceNew)
	mux.HandleFunc("GET /trace/{id}", s.tracing)
	mux.HandleFunc("GET /trace/{id}/preview.png", s.tracePreview)
	mux.HandleFunc("POST /trace/{id}/places", s.tracePlaces)
	mux.HandleFunc("POST /trace/{id}/take", s.traceTake)
	mux.HandleFunc("GET /keeper.js", keeper)
	mux.HandleFunc("GET /file/{path...}", s.file)
	mux.HandleFunc("POST /file/{path...}", s.saveFile)
	mux.HandleFunc("POST /new", s.begin)
	mux.HandleFunc("POST /take-in", s.takeIn)
	mux.HandleFunc("GET /workroom.zip", s.archive)
	mux.HandleFunc("GET /changes", s.changes)
	mux.HandleFunc("POST /undo", s.undo)
	mux.HandleFunc("POST /choose", s.choose)
	mux.HandleFunc("GET /sign-in", s.signInPage)
	mux.HandleFunc("POST /sign-in", s.signIn)
	mux.HandleFunc("POST /sign-out", s.signOut)
	return mux
}

// Policy is the content policy of every page: nothing from elsewhere, no script
// or style written into a page.
const Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; " +
	"manifest-src 'self'; worker-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// maxBody is the largest request that is read, in bytes: a form with the largest
// file.
const maxBody = store.MaxFile + 1<<20

func safe(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", Policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
		if r.URL.Path != "/take-in" && r.URL.Path != "/trace" { // which have bounds of their own
			r.Body = http.MaxBytesReader(w, r.Body, maxBody)
		}
		next.ServeHTTP(w, r)
	})
}

// local refuses requests that were not sent to this machine by a name of its
// own: a page from elsewhere could otherwise reach it by a name of theirs that
// leads here.
func local(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !IsLoopback(r.Host) {
			http.Error(w, "this workroom is for this machine only", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// IsLoopback reports whether an address, with or without a port, names the
// machine itself.
func IsLoopback(address string) bool {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		host = address
	}
	host = strings.Trim(host, "[]")
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// nameForm is what a docket, body, cloth and so on may be called.
var nameForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// tableOf is the table of the docket that a request names; it answers itself
// when there is none.
func (s *Server) tableOf(w http.ResponseWriter, r *http.Request) (*table, made, bool) {
	name := r.PathValue("name")
	if !nameForm.MatchString(name) {
		s.missing(w, r)
		return nil, made{}, false
	}
	// Whether it is there is asked first, so that no table is set up for
	// whatever name somebody types.
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return nil, made{}, false
	}
	if _, ok := snap.Version(docketPath(name)); !ok {
		s.missing(w, r)
		return nil, made{}, false
	}
	t := s.desk.table(name)
	m, err := t.at()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		s.missing(w, r)
	case err != nil:
		s.fail(w, err)
	default:
		return t, m, true
	}
	return nil, made{}, false
}

func (s *Server) missing(w http.ResponseWriter, r *http.Request) {
	s.show(w, r, http.StatusNotFound, "missing", readerOf(r).T("missing.title"), nil)
}

// choose keeps the language and the unit that the reader wants.
func (s *Server) choose(w http.ResponseWriter, r *http.Request) {
	for _, key := range []string{"lang", "unit"} {
		if v := r.FormValue(key); r.Form.Has(key) && len(v) < 8 {
			http.SetCookie(w, &http.Cookie{Name: key, Value: v, Path: "/", MaxAge: 400 * 24 * 3600, SameSite: http.SameSiteStrictMode, HttpOnly: true, Secure: r.TLS != nil})
		}
	}
	http.Redirect(w, r, here(r), http.StatusSeeOther)
}
