package web

import (
	"context"
	"errors"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"gusset/internal/store"
)

// How long a session lasts, and how often a password may be tried: a few times
// at once, then five times a minute, for each name and for each address.
const (
	sessionLasts = 30 * 24 * time.Hour
	triesAtOnce  = 6
	triesEvery   = 12 * time.Second
	mostWatched  = 10_000
)

// sessionCookie is the name of the cookie that holds a session's token.
const sessionCookie = "session"

type userKey struct{}

// userOf is who makes a request; empty on a machine of one's own.
func userOf(r *http.Request) string {
	name, _ := r.Context().Value(userKey{}).(string)
	return name
}

// open are the paths that are answered before signing in: they hold nothing of
// the workroom.
func openPath(p string) bool {
	return p == "/sign-in" || p == "/keeper.js" || strings.HasPrefix(p, "/look/")
}

// signed lets in only those who are signed in.
func (s *Server) signed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := ""
		if c, err := r.Cookie(sessionCookie); err == nil {
			if name, err = s.store.Signed(r.Context(), c.Value); err != nil {
				s.fail(w, err)
				return
			}
		}
		switch {
		case name != "":
			next.ServeHTTP(w, r.WithContext(context.WithValue(r.Context(), userKey{}, name)))
		case openPath(r.URL.Path):
			next.ServeHTTP(w, r)
		case r.Method != http.MethodGet:
			http.Error(w, "sign in first", http.StatusUnauthorized)
		default:
			http.Redirect(w, r, "/sign-in", http.StatusSeeOther)
		}
	})
}

func (s *Server) signInPage(w http.ResponseWriter, r *http.Request) {
	s.show(w, r, http.StatusOK, "sign-in", readerOf(r).T("sign-in"), "")
}

func (s *Server) signIn(w http.ResponseWriter, r *http.Request) {
	who := readerOf(r)
	name := strings.TrimSpace(r.FormValue("name"))
	if !s.tries.allow(s.now(), "name "+name) || !s.tries.allow(s.now(), "from "+address(r)) {
		w.Header().Set("Retry-After", "60")
		s.show(w, r, http.StatusTooManyRequests, "sign-in", who.T("sign-in"), who.T("sign-in.often"))
		return
	}
	token, err := s.store.SignIn(r.Context(), name, r.FormValue("password"), sessionLasts)
	if errors.Is(err, store.ErrSignIn) {
		s.show(w, r, http.StatusUnauthorized, "sign-in", who.T("sign-in"), who.T("sign-in.no"))
		return
	}
	if err != nil {
		s.fail(w, err)
		return
	}
	http.SetCookie(w, cookie(r, token, int(sessionLasts/time.Second)))
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

func (s *Server) signOut(w http.ResponseWriter, r *http.Request) {
	if c, err := r.Cookie(sessionCookie); err == nil {
		if err := s.store.SignOut(r.Context(), c.Value); err != nil {
			s.fail(w, err)
			return
		}
	}
	http.SetCookie(w, cookie(r, "", -1))
	// What the phone has kept for when the network is away goes as well.
	w.Header().Set("Clear-Site-Data", `"cache", "storage"`)
	http.Redirect(w, r, "/sign-in", http.StatusSeeOther)
}

func cookie(r *http.Request, token string, age int) *http.Cookie {
	return &http.Cookie{Name: sessionCookie, Value: token, Path: "/", MaxAge: age, HttpOnly: true, Secure: r.TLS != nil, SameSite: http.SameSiteLaxMode}
}

func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// tries counts how often something was tried.
type tries struct {
	lock sync.Mutex
	of   map[string]*rate.Limiter
}

func newTries() *tries { return &tries{of: map[string]*rate.Limiter{}} }

// allow reports whether it may be tried once more. What has not been tried for
// long enough to be forgotten is forgotten when there is too much to watch.
func (t *tries) allow(now time.Time, what string) bool {
	t.lock.Lock()
	defer t.lock.Unlock()
	if len(t.of) >= mostWatched {
		for k, l := range t.of {
			if l.TokensAt(now) >= triesAtOnce {
				delete(t.of, k)
			}
		}
		if len(t.of) >= mostWatched {
			return false
		}
	}
	l := t.of[what]
	if l == nil {
		l = rate.NewLimiter(rate.Every(triesEvery), triesAtOnce)
		t.of[what] = l
	}
	return l.AllowN(now, 1)
}
