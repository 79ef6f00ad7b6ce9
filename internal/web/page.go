package web

import (
	"bytes"
	"context"
	"embed"
	"errors"
	"html/template"
	"io/fs"
	"net/http"
	"strings"

	"gusset/internal/draw"
)

//go:embed pages
var pageFiles embed.FS

//go:embed look
var lookFiles embed.FS

var pages = template.Must(template.New("").Funcs(template.FuncMap{
	"inc": func(n int) int { return n + 1 },
}).ParseFS(pageFiles, "pages/*.html"))

// page is what every page shows.
type page struct {
	reader
	Title string
	Here  string // the path of the page, for coming back to it
	User  string // empty on a machine of one's own
	Main  any
}

// show writes a page, whole or not at all.
func (s *Server) show(w http.ResponseWriter, r *http.Request, status int, name, title string, main any) {
	p := page{reader: readerOf(r), Title: title, Here: r.URL.Path, User: userOf(r), Main: main}
	s.write(w, status, name, p)
}

// keptPage is the inside of a page, written out.
type keptPage struct {
	title string
	main  template.HTML
	err   error
}

// showKept shows a page that is the same for all readers of a language and unit as
// long as what it is made from is: it is written once, by the template name with
// -main behind it.
func (s *Server) showKept(w http.ResponseWriter, r *http.Request, k *kept, name, from string, do func(ctx context.Context) (title string, main any, err error)) {
	who := readerOf(r)
	what := strings.Join([]string{"page", name, r.URL.Path, who.Lang, string(who.Unit)}, " ")
	p := once(k, what, from, func() keptPage {
		// Others wait for it too, so it is written even if this reader goes.
		title, main, err := do(context.WithoutCancel(r.Context()))
		var b bytes.Buffer
		if err == nil {
			err = pages.ExecuteTemplate(&b, name+"-main", main)
		}
		return keptPage{title, template.HTML(b.String()), err} // all text in it is escaped by the template
	})
	if p.err != nil {
		k.forget(what)
		s.fail(w, p.err)
		return
	}
	s.show(w, r, http.StatusOK, "kept", p.title, p.main)
}

func (s *Server) write(w http.ResponseWriter, status int, name string, p page) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, p); err != nil {
		s.fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(b.Bytes()) // the reader may have gone
}

// fail tells of what the program could not do; the particulars go to the log.
func (s *Server) fail(w http.ResponseWriter, err error) {
	if errors.Is(err, context.Canceled) {
		return // the reader has gone, or the program ends
	}
	s.log.Error("page", "error", err)
	http.Error(w, "Gusset could not do this; what went wrong is in its log. Nothing was changed.", http.StatusInternalServerError)
}

// svg is a drawing as part of a page.
func svg(p draw.Page) template.HTML {
	var b bytes.Buffer
	if err := draw.SVG(&b, p); err != nil {
		return ""
	}
	return template.HTML(b.String()) // made by us, all text in it escaped
}

func looks() http.Handler {
	sub, err := fs.Sub(lookFiles, "look")
	if err != nil {
		panic(err) // it is part of the program
	}
	return http.StripPrefix("/look/", http.FileServerFS(sub))
}
