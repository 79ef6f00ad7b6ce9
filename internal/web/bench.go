package web

import (
	"context"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/source"
	"gusset/internal/store"
	"gusset/internal/unit"
)

// benchPage is a lay to be moved by hand. The lay itself travels with the page,
// as a lay file: nothing is kept until somebody keeps it.
type benchPage struct {
	reader
	Name, Title, Role string
	Cloth, Line, Left string
	Short             bool
	Text              string // the lay as a file
	U                 unit.Unit
	Scale             float64
	StepX, StepY      float64 // the cloth's repeat, mm; 0 for none
	Pieces            []benchRow
	Sections          []int
	Drawing           template.HTML
	Findings          []benchFound
	Sound             bool // it may be cut
	Whole             bool // and every piece has a place
	Told              string
	Stale             bool
}

// benchRow is one piece and the tape measures that lead to it.
type benchRow struct {
	N                 int
	ID, Along, Across string
	AlongMM, AcrossMM string
	Section           int
	Turned, Pinned    bool
	Placed            bool
	Gap               string
	Bad               bool
}

// benchFound is a finding with the pieces that it speaks of.
type benchFound struct {
	foundLine
	Pieces string
}

// bench shows the lay of a cloth to be moved by hand.
func (s *Server) bench(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	role := cloth.Role(r.PathValue("role"))
	i := slices.IndexFunc(m.full.Lays, func(l lay.Lay) bool { return l.Role == role })
	switch {
	case !slices.Contains(cloth.Roles, role):
		s.missing(w, r)
	case m.stale || !m.whole || i < 0:
		s.show(w, r, http.StatusConflict, "told", m.in.Docket.Title, readerOf(r).T("bench.not-now"))
	default:
		s.showKept(w, r, &t.shown, "bench", m.state(), func(context.Context) (string, any, error) {
			p := benchOf(readerOf(r), t.name, m, making.InHand(m.in, m.full.Lays[i]), false)
			p.Drawing = t.benchDrawing(m.full, m.full.Lays[i])
			return p.Title, p, nil
		})
	}
}

func (s *Server) showBench(w http.ResponseWriter, r *http.Request, status int, p benchPage, told string) {
	p.Told = told
	s.show(w, r, status, "bench", p.Title, p)
}

// benchOf judges a lay on hand and writes it out.
func benchOf(who reader, name string, m made, f lay.File, drawn bool) benchPage {
	u := m.in.Docket.Unit
	if who.Unit != "" {
		u = who.Unit
	}
	l, found := m.drawn.Written(m.in, f)
	p := benchPage{reader: who, Name: name, Title: m.in.Docket.Title, Role: string(f.Role), Text: string(f.YAML()), U: u, Scale: sheet.BenchScale,
		Cloth: l.Cloth.Title, Sound: found.Stops() == 0, Whole: len(l.Unplaced) == 0, Stale: m.stale}
	p.Line = who.T("bench.line", who.M(l.Length, u), 100*l.Density)
	p.Left = who.T("lay.left", who.L(l.Left(), u))
	if p.Short = l.Left() < 0; p.Short {
		p.Left = who.T("lay.short", who.L(-l.Left(), u))
	}
	p.StepX, p.StepY = l.Cloth.Periods()
	for i := range f.Sections {
		p.Sections = append(p.Sections, i+1)
	}
	bad := map[string]bool{}
	sorted := found.Sorted()
	slices.SortStableFunc(sorted, func(a, b finding.Finding) int { return int(b.Severity()) - int(a.Severity()) })
	for _, x := range sorted {
		b := benchFound{foundLine: lineOf(who, x)}
		b.Link = ""
		ids := idsIn(x, l)
		if x.Severity() == finding.Stop {
			for _, id := range ids {
				bad[id] = true
			}
		}
		b.Pieces = strings.Join(ids, " ")
		p.Findings = append(p.Findings, b)
	}
	for i, fp := range f.Pieces {
		p.Pieces = append(p.Pieces, benchRowOf(who, l, i, fp, u, bad))
	}
	if drawn {
		p.Drawing = svg(sheet.LayBench(l))
	}
	return p
}

func benchRowOf(who reader, l lay.Lay, i int, f lay.FilePiece, u unit.Unit, bad map[string]bool) benchRow {
	row := benchRow{N: i, ID: f.ID, Section: f.Section + 1, Turned: f.Turned, Pinned: f.Pinned, Placed: f.Placed, Bad: bad[f.ID]}
	if !f.Placed {
		return row
	}
	row.Along, row.Across = tapeWords(f.Along, u), tapeWords(f.Across, u)
	row.AlongMM, row.AcrossMM = strconv.FormatFloat(f.Along.MM(), 'f', 3, 64), strconv.FormatFloat(f.Across.MM(), 'f', 3, 64)
	for k, p := range l.Placed {
		if p.Cut.ID != f.ID {
			continue
		}
		if gap, to := l.Gap(k); to != "" {
			row.Gap = who.T("bench.gap", who.T("mm", gap), to)
		}
	}
	return row
}

// tapeWords is a length as the form shows it.
func tapeWords(l unit.Length, u unit.Unit) string { return unit.Format(l.MM(), u) }

// idsIn are the pieces that a finding speaks of.
func idsIn(x finding.Finding, l lay.Lay) []string {
	var out []string
	for _, p := range l.Placed {
		for _, a := range x.Args {
			if id, ok := a.(string); ok && id == p.Cut.ID && !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

// onBench takes what was moved: judges it, keeps it, or has the rest looked for
// around what is pinned.
func (s *Server) onBench(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	who := readerOf(r)
	f, found := lay.Load(source.File{Path: "lays/on-hand.yaml", Data: []byte(r.FormValue("text"))})
	if found.Stops() > 0 || string(f.Role) != r.PathValue("role") || m.drawn.Reached < making.Finish {
		s.refuse(w, r, http.StatusUnprocessableEntity, who.T("refused.form"))
		return
	}
	u := m.in.Docket.Unit
	if who.Unit != "" {
		u = who.Unit
	}
	was := f
	f, err := moved(f, r, u)
	if err != nil {
		s.showBench(w, r, http.StatusUnprocessableEntity, benchOf(who, t.name, m, was, true), err.Error())
		return
	}
	do, of, _ := strings.Cut(r.FormValue("do"), ".")
	if i, err := strconv.Atoi(of); err == nil && i >= 0 && i < len(f.Pieces) {
		f = handled(f, i, do, m)
	}
	switch do {
	case "keep":
		s.keepLay(w, r, t, m, f)
	case "look":
		s.lookAround(w, r, t, m, f)
	default:
		s.showBench(w, r, http.StatusOK, benchOf(who, t.name, m, f, r.FormValue("only") != "judged"), "")
	}
}

// handled does to one piece what was asked for.
func handled(f lay.File, i int, do string, m made) lay.File {
	f.Pieces = slices.Clone(f.Pieces)
	switch do {
	case "turn":
		l, _ := m.drawn.Written(m.in, f)
		return f.TurnedAbout(l, i, false)
	case "pin":
		f.Pieces[i].Pinned = f.Pieces[i].Placed && !f.Pieces[i].Pinned
	}
	return f
}

// moved writes what the form says into the lay. What the form leaves as it was
// shown keeps its exact place.
func moved(f lay.File, r *http.Request, u unit.Unit) (lay.File, error) {
	f.Pieces = slices.Clone(f.Pieces)
	for i := range f.Pieces {
		p := &f.Pieces[i]
		n := strconv.Itoa(i)
		if !r.Form.Has("along." + n) {
			continue
		}
		p.Pinned = r.FormValue("pin."+n) == "yes"
		if s, err := strconv.Atoi(r.FormValue("section." + n)); err == nil && s > 0 && s <= len(f.Sections) && s-1 != p.Section {
			p.Section, p.Plies = s-1, 0
		}
		along, across := strings.TrimSpace(r.FormValue("along."+n)), strings.TrimSpace(r.FormValue("across."+n))
		if p.Placed = along != "" && across != ""; !p.Placed {
			*p = lay.FilePiece{ID: p.ID, Place: p.Place}
			continue
		}
		for _, k := range []struct {
			said string
			at   *unit.Length
		}{{along, &p.Along}, {across, &p.Across}} {
			if k.said == tapeWords(*k.at, u) {
				continue
			}
			v, err := unit.Parse(k.said, u)
			if err != nil {
				return f, fmt.Errorf("%s: %w", p.ID, err)
			}
			*k.at = v
		}
	}
	// Whatever was said is held to the bounds of a lay file.
	again, found := lay.Load(source.File{Path: "lays/on-hand.yaml", Data: f.YAML()})
	if stops := found.AtLeast(finding.Stop); len(stops) > 0 {
		return f, errors.New(stops[0].Text())
	}
	return again, nil
}

// keepLay keeps a lay that may be cut; it is used from then on.
func (s *Server) keepLay(w http.ResponseWriter, r *http.Request, t *table, m made, f lay.File) {
	who := readerOf(r)
	name, data, _ := m.drawn.KeepWritten(m.in, f)
	if data == nil {
		s.showBench(w, r, http.StatusUnprocessableEntity, benchOf(who, t.name, m, f, true), who.T("bench.not-kept"))
		return
	}
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	e := store.Edit{Path: name, Data: data}
	if v, ok := snap.Version(name); ok && !v.Gone {
		e.Base = v.Change
	}
	if _, err = s.store.Save(r.Context(), s.by(r), "lay", e); err == nil {
		// What was found before would go before the one that is kept.
		err = s.store.DropLay(r.Context(), t.name, string(f.Role))
		t.readAgain()
	}
	var c *store.Conflict
	switch {
	case errors.As(err, &c):
		s.showBench(w, r, http.StatusConflict, benchOf(who, t.name, m, f, true), who.T("conflict.form", c.By))
	case err != nil:
		s.fail(w, err)
	default:
		http.Redirect(w, r, "/docket/"+t.name+"#cloth", http.StatusSeeOther)
	}
}

// lookAround has better places looked for, around what is pinned.
func (s *Server) lookAround(w http.ResponseWriter, r *http.Request, t *table, m made, f lay.File) {
	who := readerOf(r)
	held := f
	held.Pieces = nil
	for _, p := range f.Pieces {
		if !p.Pinned {
			p = lay.FilePiece{ID: p.ID, Place: p.Place}
		}
		held.Pieces = append(held.Pieces, p)
	}
	_, found := m.drawn.Written(m.in, held)
	for _, x := range found.AtLeast(finding.Stop) {
		if x.Code() != "lay.short" { // pins that break a rule
			s.showBench(w, r, http.StatusUnprocessableEntity, benchOf(who, t.name, m, f, true), who.T("bench.pins-bad"))
			return
		}
	}
	t.lock.Lock()
	var err error
	asked := t.busy == nil && t.made.whole && !t.made.stale
	if asked {
		err = t.ask(map[cloth.Role]string{f.Role: string(f.YAML())})
	}
	t.lock.Unlock()
	switch {
	case err != nil:
		s.fail(w, err)
	case !asked:
		s.showBench(w, r, http.StatusConflict, benchOf(who, t.name, m, f, true), who.T("bench.busy"))
	default:
		http.Redirect(w, r, "/docket/"+t.name+"#cloth", http.StatusSeeOther)
	}
}
