package web

import (
	"context"
	"encoding/json"
	"fmt"
	"html/template"
	"net/http"
	"time"

	"gusset/internal/construct"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/store"
)

// workPage is the order of work for the phone at the machine: every step with
// its picture and settings, one of them shown at a time.
type workPage struct {
	reader
	Name, Title string
	Digest      string
	Cautions    []saidText
	Steps       []workStep
	Done        int
}

type workStep struct {
	Number   int
	ID       string
	Place    string // where the work is: the lockstitch machine, the iron
	Setup    saidText
	Words    []saidText
	Settings []saidText
	Drawing  template.HTML
	Done     bool
	At       int64 // when it was ticked, in ms since 1970
}

func (s *Server) work(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	who := readerOf(r)
	if m.stale || !m.whole || len(m.full.Steps.Steps()) == 0 {
		s.show(w, r, http.StatusConflict, "told", m.in.Docket.Title, who.T("work.not-now"))
		return
	}
	ticks, err := s.store.Ticks(r.Context(), t.name)
	if err != nil {
		s.fail(w, err)
		return
	}
	s.showKept(w, r, &t.shown, "work", m.state()+fmt.Sprint(ticks), func(context.Context) (string, any, error) {
		return m.in.Docket.Title, workOf(who, t, m, ticks), nil
	})
}

func workOf(who reader, t *table, m made, ticks map[string]store.Tick) workPage {
	p := workPage{reader: who, Name: t.name, Title: m.in.Docket.Title, Digest: m.full.Digest}
	u := m.in.Docket.Unit
	if who.Unit != "" {
		u = who.Unit
	}
	work := making.WorkOf(m.in, m.full)
	for _, c := range work.Cautions() {
		p.Cautions = append(p.Cautions, who.constant(c))
	}
	pictures := t.stepDrawings(m.in, m.full)
	for i, st := range work.Steps {
		tick := ticks[st.Op.ID]
		w := workStep{Number: st.Number, ID: st.Op.ID, Place: who.word(string(st.Op.Machine)), Setup: who.beside(st.Set, "; "), Done: tick.Done,
			Words: who.stepWords(st.Op, sheet.StepDoing(work, i, u), u)}
		for _, line := range sheet.StepSettings(work, i, u) {
			w.Settings = append(w.Settings, who.beside([]construct.Told{line}, ""))
		}
		if !tick.At.IsZero() {
			w.At = tick.At.UnixMilli()
		}
		w.Drawing = pictures[i]
		if w.Done {
			p.Done++
		}
		p.Steps = append(p.Steps, w)
	}
	return p
}

// said is a tick as a page sends it.
type said struct {
	Step string `json:"step"`
	Done bool   `json:"done"`
	At   int64  `json:"at"` // ms since 1970
}

// maxTicks is the largest list of ticks that is read, in bytes.
const maxTicks = 1 << 20

// ticks takes in what a page has gathered, and gives how things stand.
func (s *Server) ticks(w http.ResponseWriter, r *http.Request) {
	t, _, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	var list []said
	if err := json.NewDecoder(http.MaxBytesReader(w, r.Body, maxTicks)).Decode(&list); err != nil {
		http.Error(w, "not a list of ticks", http.StatusBadRequest)
		return
	}
	var ticks []store.Tick
	for _, k := range list {
		ticks = append(ticks, store.Tick{Step: k.Step, Done: k.Done, At: time.UnixMilli(k.At)})
	}
	if err := s.store.Tick(r.Context(), t.name, ticks...); err != nil {
		http.Error(w, "not kept", http.StatusUnprocessableEntity)
		s.log.Error("ticks", "error", err)
		return
	}
	all, err := s.store.Ticks(r.Context(), t.name)
	if err != nil {
		s.fail(w, err)
		return
	}
	out := []said{}
	for _, k := range all {
		out = append(out, said{k.Step, k.Done, k.At.UnixMilli()})
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_ = json.NewEncoder(w).Encode(out)
}

// tick ticks one step by a form, for pages without a script.
func (s *Server) tick(w http.ResponseWriter, r *http.Request) {
	t, _, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	if err := s.store.Tick(r.Context(), t.name, store.Tick{Step: r.FormValue("step"), Done: r.FormValue("done") == "yes", At: s.now()}); err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, readerOf(r).T("refused.form"))
		return
	}
	http.Redirect(w, r, "/docket/"+t.name+"/work", http.StatusSeeOther)
}

// keeper is the script that keeps the work pages for when the network is away.
// It has to be at the top to serve the whole workroom.
func keeper(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Cache-Control", "no-cache")
	http.ServeFileFS(w, r, lookFiles, "look/keeper.js")
}
