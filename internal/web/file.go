package web

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/order"
	"gusset/internal/pattern"
	"gusset/internal/source"
	"gusset/internal/store"
)

// filePage is one file of the workroom as it is written, what is found in it,
// and what has become of it.
type filePage struct {
	Path, Text string
	Lines      []string // with the numbers of lines, to point at one
	Line       int
	Base       int64
	New        bool
	Bytes      bool // it is no text
	Findings   []foundLine
	History    []store.Change
	Form       []field
	Told       string // why what was asked for was not done
	Theirs     string // what somebody else has written meanwhile
	Docket     string // the docket that the file is, if it is one
}

// loaders read the files of each folder for what is found in them.
var loaders = map[string]func(source.File) finding.List{
	"bodies":   func(f source.File) finding.List { _, l := body.Load(f); return l },
	"cloths":   func(f source.File) finding.List { _, l := cloth.Load(f); return l },
	"dockets":  func(f source.File) finding.List { _, l := docket.Load(f); return l },
	"machines": func(f source.File) finding.List { _, l := machine.Load(f); return l },
	"methods":  func(f source.File) finding.List { _, l := method.Load(f); return l },
	"orders":   func(f source.File) finding.List { _, l := order.Load(f); return l },
}

// foundIn reads a file by itself.
func foundIn(snap fs.FS, name string, data []byte) finding.List {
	f := source.File{Path: name, Data: data}
	folder, rest, _ := strings.Cut(name, "/")
	if load := loaders[folder]; load != nil && strings.HasSuffix(name, ".yaml") {
		return load(f)
	}
	if folder == "patterns" && path.Base(rest) == "pattern.yaml" {
		_, l := pattern.Load(f, func(svg string) (source.File, error) {
			at := path.Join(path.Dir(name), svg)
			data, err := fs.ReadFile(snap, at)
			return source.File{Path: at, Data: data}, err
		})
		return l
	}
	return nil
}

// file shows a file; one that is not there yet, in a folder of the workroom, is
// shown empty, to be begun.
func (s *Server) file(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("path")
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	if n, err := strconv.ParseInt(r.FormValue("at"), 10, 64); err == nil && n > 0 {
		if snap, err = s.store.At(r.Context(), n); err != nil {
			s.missing(w, r)
			return
		}
	}
	data, err := snap.ReadFile(name)
	switch {
	case errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrInvalid):
		s.missing(w, r)
		return
	case err != nil:
		s.fail(w, err)
		return
	}
	p, err := s.filePage(r.Context(), readerOf(r), snap, name, data)
	if err != nil {
		s.fail(w, err)
		return
	}
	p.Line, _ = strconv.Atoi(r.FormValue("line"))
	s.show(w, r, http.StatusOK, "file", name, p)
}

const historyShown = 12

func (s *Server) filePage(ctx context.Context, who reader, snap *store.Snapshot, name string, data []byte) (filePage, error) {
	p := filePage{Path: name, Text: string(data), Bytes: !utf8.Valid(data)}
	if v, ok := snap.Version(name); ok {
		p.Base = v.Change
	}
	p.Lines = strings.Split(strings.TrimSuffix(p.Text, "\n"), "\n")
	for _, f := range foundIn(snap, name, data).Sorted() {
		p.Findings = append(p.Findings, lineOf(who, f))
	}
	p.Form = formOf(name, p.Text)
	if d, ok := strings.CutPrefix(name, "dockets/"); ok {
		p.Docket = strings.TrimSuffix(d, ".yaml")
	}
	var err error
	p.History, err = s.store.History(ctx, name, 0, historyShown)
	return p, err
}

// saveFile writes a file as it was typed, or by its form. What is found in it
// is shown and does not keep it from being written: a file may be unsound while
// it is worked on.
func (s *Server) saveFile(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("path")
	base, err := strconv.ParseInt(r.FormValue("base"), 10, 64)
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, readerOf(r).T("refused.form"))
		return
	}
	text := r.FormValue("text")
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	old, readErr := snap.ReadFile(name)
	if !strings.Contains(string(old), "\r\n") { // browsers send lines ended so
		text = strings.ReplaceAll(text, "\r\n", "\n")
	}
	if r.FormValue("by") == "form" && readErr == nil {
		if text, err = fill(formOf(name, string(old)), string(old), r); err != nil {
			s.refuse(w, r, http.StatusUnprocessableEntity, readerOf(r).T("refused.text"))
			return
		}
	}
	_, err = s.store.Save(r.Context(), s.by(r), "", store.Edit{Path: name, Data: []byte(text), Base: base})
	var c *store.Conflict
	switch {
	case errors.As(err, &c):
		s.conflict(w, r, snap, name, text, c)
	case errors.Is(err, store.ErrPath) || errors.Is(err, store.ErrSize):
		s.refuse(w, r, http.StatusUnprocessableEntity, err.Error())
	case err != nil:
		s.fail(w, err)
	case r.Form.Has("here"):
		http.Redirect(w, r, here(r), http.StatusSeeOther)
	default:
		http.Redirect(w, r, "/file/"+(&url.URL{Path: name}).EscapedPath(), http.StatusSeeOther)
	}
}

// conflict shows what was typed beside what somebody else has written since;
// nothing is lost, and writing again writes over theirs knowingly.
func (s *Server) conflict(w http.ResponseWriter, r *http.Request, snap *store.Snapshot, name, text string, c *store.Conflict) {
	p, err := s.filePage(r.Context(), readerOf(r), snap, name, []byte(text))
	if err != nil {
		s.fail(w, err)
		return
	}
	data, err := snap.ReadFile(name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		s.fail(w, err)
		return
	}
	who := readerOf(r)
	p.Theirs, p.Form = string(data), nil
	p.Told = who.T("conflict", c.By)
	s.show(w, r, http.StatusConflict, "file", name, p)
}

// undo takes one change back.
func (s *Server) undo(w http.ResponseWriter, r *http.Request) {
	n, err := strconv.ParseInt(r.FormValue("change"), 10, 64)
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, readerOf(r).T("refused.form"))
		return
	}
	_, err = s.store.Undo(r.Context(), s.by(r), n)
	var c *store.Conflict
	switch {
	case errors.As(err, &c):
		s.refuse(w, r, http.StatusConflict, readerOf(r).T("undo.conflict", c.Path, c.By))
	case errors.Is(err, store.ErrNoChange):
		s.missing(w, r)
	case err != nil:
		s.fail(w, err)
	default:
		http.Redirect(w, r, here(r), http.StatusSeeOther)
	}
}

// here is the page that a form came from.
func here(r *http.Request) string {
	back := r.FormValue("here")
	if !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") || strings.Contains(back, "\\") {
		return "/"
	}
	return back
}

// refuse says why something was not done.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, status int, why string) {
	s.show(w, r, status, "told", readerOf(r).T("refused"), why)
}

// by is the name that a change is kept under.
func (s *Server) by(r *http.Request) string {
	if u := userOf(r); u != "" {
		return u
	}
	return "workroom"
}

// changes shows the last changes of the whole workroom.
func (s *Server) changes(w http.ResponseWriter, r *http.Request) {
	before, _ := strconv.ParseInt(r.FormValue("before"), 10, 64)
	list, err := s.store.History(r.Context(), "", max(0, before), 50)
	if err != nil {
		s.fail(w, err)
		return
	}
	s.show(w, r, http.StatusOK, "changes", readerOf(r).T("history"), list)
}

// begin makes a new file of a kind with a name of its own, and shows it.
func (s *Server) begin(w http.ResponseWriter, r *http.Request) {
	folder, name := r.FormValue("folder"), strings.ToLower(strings.TrimSpace(r.FormValue("name")))
	name = strings.Trim(strings.Join(strings.FieldsFunc(name, func(c rune) bool {
		return !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9')
	}), "-"), "-")
	form, ok := beginnings[folder]
	if !ok || !nameForm.MatchString(name) || len(name) > 60 {
		s.refuse(w, r, http.StatusUnprocessableEntity, readerOf(r).T("refused.name"))
		return
	}
	file := folder + "/" + name + ".yaml"
	text := form.text
	var err error
	if folder == "dockets" {
		snap, failed := s.store.Now(r.Context())
		if failed != nil {
			s.fail(w, failed)
			return
		}
		text, err = newDocket(snap, r)
	} else {
		text, err = fill(form.fields, text, r)
	}
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, readerOf(r).T("refused.docket"))
		return
	}
	title := strings.TrimSpace(r.FormValue("name"))
	text = strings.Replace(text, "TITLE", scalar(title), 1)
	// Nothing is made up for what was not said: a file begins sound or not at all.
	if found := loaders[folder](source.File{Path: file, Data: []byte(text)}).AtLeast(finding.Stop); len(found) > 0 {
		s.refuse(w, r, http.StatusUnprocessableEntity, found[0].Text())
		return
	}
	_, err = s.store.Save(r.Context(), s.by(r), "", store.Edit{Path: file, Data: []byte(text)})
	var c *store.Conflict
	switch {
	case errors.As(err, &c):
		s.refuse(w, r, http.StatusConflict, readerOf(r).T("refused.there", file))
	case err != nil:
		s.fail(w, err)
	case folder == "dockets":
		http.Redirect(w, r, "/docket/"+name, http.StatusSeeOther)
	default:
		http.Redirect(w, r, "/file/"+file, http.StatusSeeOther)
	}
}

// beginning is how a new file begins, and what is asked for then.
type beginning struct {
	text   string
	fields []field
}

var beginnings = map[string]beginning{
	"bodies":  {"gusset: body/1\ntitle: TITLE\n", asked(bodyFields, "waist-at", "measures.waist", "measures.hip")},
	"cloths":  {"gusset: cloth/1\ntitle: TITLE\n", asked(clothFields, "width", "length", "selvedge", "direction", "thickness", "washed")},
	"dockets": {},
}

// asked picks fields that a new file is asked for.
func asked(fields []field, keys ...string) []field {
	var out []field
	for _, f := range fields {
		if slices.Contains(keys, f.Key) {
			out = append(out, f)
		}
	}
	return out
}

// newDocket is a docket of a pattern's view for a body, with the first cloth
// there is for every role until another is chosen.
func newDocket(snap *store.Snapshot, r *http.Request) (string, error) {
	name, view, _ := strings.Cut(r.FormValue("pattern"), "/")
	if !nameForm.MatchString(name) {
		return "", fs.ErrNotExist
	}
	at := "patterns/" + name + "/pattern.yaml"
	data, err := snap.ReadFile(at)
	if err != nil {
		return "", err
	}
	p, _ := pattern.Load(source.File{Path: at, Data: data}, func(svg string) (source.File, error) {
		d, err := snap.ReadFile(path.Join(path.Dir(at), svg))
		return source.File{Path: svg, Data: d}, err
	})
	v, ok := p.View(view)
	if !ok {
		return "", fs.ErrNotExist
	}
	cloths := value{Kind: 'm'}
	have := snap.Names("cloths", ".yaml")
	for _, role := range cloth.Roles {
		used := slices.ContainsFunc(v.Uses, func(u pattern.Use) bool { return slices.Contains(u.Cloths, role) })
		chosen := r.FormValue("cloth." + string(role))
		if used && slices.Contains(have, chosen) {
			cloths = cloths.with(string(role), chosen)
		} else if used && len(have) > 0 {
			cloths = cloths.with(string(role), have[0])
		}
	}
	return fmt.Sprintf("gusset: docket/1\ntitle: TITLE\nbody: %s\npattern: %s\nview: %s\ncloths: %s\nsize: auto\nunit: cm\n",
		scalar(r.FormValue("body")), scalar(name), scalar(view), cloths.flow()), nil
}
