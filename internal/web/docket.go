package web

import (
	"context"
	"fmt"
	"html/template"
	"net/http"
	"strings"

	"gusset/internal/draw"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/order"
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

// docketPage is a docket as one long sheet of leaves in the order of the work.
type docketPage struct {
	reader
	Name, Title string
	Change      int64
	Told        int64
	For         string
	Body        string
	Pattern     string
	Files       []string
	Findings    []foundLine
	Stops       int
	spots       []sheet.Spot
	Worst       map[string]string // leaf to the heaviest severity found on it
	Zones       []zoneRow
	Pieces      []pieceFigure
	Base        int64
	Sizes       []field
	Steps       []stepForm
	Kinds       []kindForm
	Basics      []field
	Cloths      []field
	Lists       map[string][]string
	Refused     []foundLine
	Yards       bool   // lengths of cloth are told in yards
	RefusedOn   string // the leaf whose form was refused
	Notes       string
	NotesBase   int64
	Seams       []seamRow
	Widest      string
	Lays        []layFigure
	Whole       bool // lays, order and needs are there
	Stale       bool // but of what was before the last change
	Busy, Look  bool
	OrderLine   string
	Batches     []batchRows
	Needs       []needRow
	Sheets      []string
}

type zoneRow struct{ Zone, Size, From, Body, Garment, Made, Ease, Least, TooLittle string }

type pieceFigure struct {
	ID, Title, Copies string
	Drawing           template.HTML
	Edges             []edgeRow
	Found             []foundLine
}

type edgeRow struct{ Name, Layer, Length, Allowance, Note, Steps string }

type seamRow struct {
	Title, Lengths, Gap, Ease, Notches string
	Open                               bool
}

type layFigure struct {
	Role, Line, Left string
	Short            bool
	Drawing          template.HTML
	Tried            []triedRow
}

type triedRow struct {
	Plan, Length string
	Kept         bool
}

type batchRows struct {
	Heading string
	Steps   []stepRow
}

type stepRow struct {
	Number       int
	ID, Do, Lang string
	Setup        saidText
}

type needRow struct{ What, HowMuch, Note string }

func (s *Server) docket(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	s.showKept(w, r, &t.shown, "docket", m.state(), func(ctx context.Context) (string, any, error) {
		p, err := s.docketPage(ctx, readerOf(r), t, m)
		return p.Title, p, err
	})
}

// docketPage is the page of a docket with its forms.
func (s *Server) docketPage(ctx context.Context, who reader, t *table, m made) (docketPage, error) {
	p := docketOf(who, t, m)
	snap, err := s.store.At(ctx, m.change)
	if err != nil {
		return p, err
	}
	data, err := snap.ReadFile(docketPath(t.name))
	if err != nil {
		return p, err
	}
	v, _ := snap.Version(docketPath(t.name))
	p.Base = v.Change
	p.forms(string(data), m)
	p.Lists = suggestions(m, snap)
	if notes, err := snap.ReadFile(notesPath(t.name)); err == nil {
		n, _ := snap.Version(notesPath(t.name))
		p.Notes, p.NotesBase = string(notes), n.Change
	}
	return p, nil
}

// notesPath is where the notes to a docket are kept: plain text.
func notesPath(name string) string { return "notes/" + name + ".txt" }

// forms fills the forms in as the docket is written.
func (p *docketPage) forms(text string, m made) {
	p.Basics, p.Cloths, p.Kinds = filled(docketFields, text), filled(clothsFields, text), kindForms()
	size := m.in.Docket.Size
	for _, z := range m.in.Pattern.Zones {
		said := size.Zones[z.Name]
		if said == "" {
			said = size.All
		}
		p.Sizes = append(p.Sizes, field{Key: "zone." + z.Name, Value: said, List: "sizes"})
	}
	done := map[string]string{}
	if m.drawn.Digest != "" && m.drawn.Reached >= making.Change {
		for _, a := range m.drawn.Changed.Applied() {
			done[a.ID] = a.Text
		}
	}
	p.Steps = stepForms(text)
	for i, st := range p.Steps {
		if p.Steps[i].Text = done[st.ID]; p.Steps[i].Text == "" {
			p.Steps[i].Text = p.T("changes.not-done")
		}
		p.Steps[i].Found = about(p.Findings, "#change-"+st.ID)
	}
}

// docketOf writes out what is made of a docket for a reader.
func docketOf(who reader, t *table, m made) docketPage {
	d := m.in.Docket
	p := docketPage{reader: who, Name: t.name, Title: d.Title, Change: m.change, Told: m.told, For: m.in.Body.Title, Body: d.Body, Pattern: m.in.Pattern.Title,
		Whole: m.whole && m.drawn.Findings.Stops() == 0 && m.opened.Stops() == 0, Stale: m.stale}
	if p.Title == "" {
		p.Title = t.name
	}
	if v, ok := m.in.Pattern.View(d.View); ok {
		p.Pattern += ", " + v.Title
	}
	p.Files, p.Yards = filesOf(m.in), inches(p.units(d.Unit))
	p.Busy, p.Look = m.busy, m.look
	all := m.findings()
	seams := m.drawn.Walked.Seams()
	for _, f := range all.Sorted() {
		p.Findings = append(p.Findings, p.marked(f, seams))
	}
	p.Stops = all.Stops()
	p.Worst = worst(p.Findings)
	if m.drawn.Digest != "" {
		p.leaves(t, m)
	}
	p.aim()
	if p.Whole {
		p.behind(t, m)
	}
	return p
}

// filesOf lists the files that a docket names, itself first.
func filesOf(in making.Inputs) []string {
	d := in.Docket
	out := []string{docketPath(d.Name), "bodies/" + d.Body + ".yaml", "patterns/" + d.Pattern + "/pattern.yaml"}
	seen := map[string]bool{}
	for _, role := range sortedRoles(d) {
		if name := d.Cloths[role]; name != "" && !seen[name] {
			seen[name] = true
			out = append(out, "cloths/"+name+".yaml")
		}
	}
	return out
}

// leaves writes what is made while the page waits.
func (p *docketPage) leaves(t *table, m made) {
	r, u := m.drawn, m.in.Docket.Unit
	ease := map[string]zoneRow{}
	for _, e := range r.Sized.Ease() {
		z := zoneRow{Garment: p.L(e.Garment, u)}
		if e.HasBody {
			z.Body, z.Ease = p.L(e.Body, u), p.L(e.Ease, u)
		}
		if e.HasMinimum {
			z.Least = p.L(e.Minimum, u)
		}
		if r.Reached >= making.Change {
			if round, ok := sheet.RoundAt(r.Garment(), e.Zone); ok {
				z.Made = p.L(round, u)
				if e.HasBody {
					e.Ease = round - e.Body
					z.Ease = p.L(e.Ease, u)
				}
			}
		}
		if e.TooLittle() {
			z.TooLittle = p.T("ease.too-little")
		}
		ease[e.Zone] = z
	}
	for _, zone := range r.Sized.Zones() {
		z := ease[zone.Zone]
		z.Zone, z.Size, z.From = p.word(zone.Zone), zone.Label, p.word(zone.From)
		p.Zones = append(p.Zones, z)
	}
	if r.Reached >= making.Walk {
		p.seams(r, u)
	}
	if r.Reached >= making.Change {
		u := p.units(u)
		p.pieces(once(&t.shown, "pieces "+string(u), r.Digest+fmt.Sprint(p.spots), func() []drawnPiece { return drawPieces(r, u, p.spots) }), u)
	}
}

// drawnPiece is a piece with its drawing as the page has it.
type drawnPiece struct {
	piece sheet.Piece
	svg   template.HTML
}

// drawPieces draws the pieces as they are cut, or as they are drafted where they
// cannot be finished.
func drawPieces(r making.Result, u unit.Unit, spots []sheet.Spot) []drawnPiece {
	var pieces []sheet.Piece
	if r.Reached >= making.Finish {
		pieces = sheet.Pieces(r.Cut.Pieces(), u, spots)
	} else {
		pieces = sheet.Drafts(r.Garment(), spots)
	}
	var out []drawnPiece
	for _, p := range pieces {
		out = append(out, drawnPiece{p, svg(p.Page)})
	}
	return out
}

// units is the reader's unit, or else the docket's.
func (p *docketPage) units(u unit.Unit) unit.Unit {
	if p.Unit != "" {
		return p.Unit
	}
	return u
}

func (p *docketPage) seams(r making.Result, u unit.Unit) {
	p.Widest = p.T("mm", r.Walked.Widest())
	for _, s := range r.Walked.Seams() {
		var lengths, ease []string
		for i, l := range s.Lengths {
			lengths = append(lengths, p.L(l, u))
			if i < len(s.Seam.Ease) && s.Seam.Ease[i] != 0 {
				ease = append(ease, p.T("mm", s.Seam.Ease[i]))
			}
		}
		row := seamRow{Title: s.Seam.Title, Lengths: strings.Join(lengths, " · "), Ease: strings.Join(ease, ", "), Gap: p.T("mm", s.Widest()), Open: s.Widest() > 0.5}
		if s.Seam.Copy != "" {
			row.Title += ", " + string(s.Seam.Copy)
		}
		var notches []string
		for _, n := range s.Notches {
			notches = append(notches, n.Name)
		}
		row.Notches = strings.Join(notches, ", ")
		p.Seams = append(p.Seams, row)
	}
}

func (p *docketPage) pieces(list []drawnPiece, u unit.Unit) {
	seen := map[string]bool{}
	for _, one := range list {
		c := one.piece
		id := "piece-" + c.Piece
		if seen[id] { // of another hand or cloth
			id = ""
		}
		seen[id] = true
		f := pieceFigure{ID: id, Title: c.Title, Copies: c.Copies, Drawing: one.svg, Found: about(p.Findings, "#piece-"+c.Piece)}
		for _, e := range c.Edges {
			row := edgeRow{Name: e.Name, Layer: e.Layer, Length: p.L(e.Length, u), Note: e.Note, Steps: strings.Join(e.Steps, ", ")}
			if e.Allowance > 0 {
				row.Allowance = p.L(e.Allowance, u)
			}
			f.Edges = append(f.Edges, row)
		}
		p.Pieces = append(p.Pieces, f)
	}
}

// behind writes what is made behind the page.
func (p *docketPage) behind(t *table, m made) {
	r, u := m.full, m.in.Docket.Unit
	if p.Unit != "" {
		u = p.Unit
	}
	for _, l := range r.Lays {
		p.Lays = append(p.Lays, p.layOf(t, r, l, u))
	}
	p.OrderLine = p.T("order.line", len(r.Steps.Steps()), r.Steps.Changes())
	for _, b := range order.Batches(r.Steps.Steps()) {
		rows := batchRows{Heading: p.heading(b)}
		for _, st := range b.Steps {
			told := p.told(st.Op, u)
			rows.Steps = append(rows.Steps, stepRow{st.Number, st.Op.ID, told.Text, told.Lang, p.beside(st.Set, "; ")})
		}
		p.Batches = append(p.Batches, rows)
	}
	for _, sp := range r.Needs.Spools() {
		p.Needs = append(p.Needs, needRow{sp.Title(), p.M(sp.Length, u), ""})
	}
	for _, i := range r.Needs.Items() {
		row := needRow{i.Title, "", i.Note}
		if i.Length > 0 {
			by := unit.Centimetre
			if inches(u) {
				by = u
			}
			row.HowMuch = p.L(i.Length, by)
		}
		if i.Count > 0 && (i.Count > 1 || i.Length == 0) {
			row.HowMuch = strings.TrimSpace(fmt.Sprintf("%d × %s", i.Count, row.HowMuch))
			row.HowMuch = strings.TrimSuffix(row.HowMuch, " ×")
		}
		p.Needs = append(p.Needs, row)
	}
	if !m.stale && p.Stops == 0 {
		p.Sheets = sheetNames
	}
}

// heading says where a stretch of work is done, and which steps it has.
func (r reader) heading(b order.Batch) string {
	first, last := b.Steps[0].Number, b.Steps[len(b.Steps)-1].Number
	where := r.T("at." + string(b.Place))
	if first == last {
		return r.T("order.one", where, first)
	}
	return r.T("order.batch", where, first, last)
}

func (p *docketPage) layOf(t *table, r making.Result, l lay.Lay, u unit.Unit) layFigure {
	f := layFigure{Role: string(l.Role), Short: l.Left() < 0 || len(l.Unplaced) > 0}
	f.Line = p.T("lay.line", l.Cloth.Title, p.Q(l.Cloth.Width, u), p.M(l.Length, u), p.Q(l.Cloth.Length, u), 100*l.Density, l.Plan.Words())
	switch left := l.Left(); {
	case len(l.Unplaced) > 0:
		f.Left = p.T("lay.no-place", strings.Join(l.Unplaced, ", "))
	case left < 0:
		f.Left = p.T("lay.short", p.L(-left, u))
	default:
		f.Left = p.T("lay.left", p.L(left, u))
	}
	if len(l.Placed) > 0 {
		f.Drawing = t.layDrawing(r, l, u)
	}
	for _, t := range l.Tried {
		row := triedRow{t.Plan.Words(), p.M(t.Length, u), t.Plan == l.Plan}
		if t.Unplaced > 0 {
			row.Length = p.T("lay.does-not-fit")
		}
		if l.Behind(t) {
			row.Length = p.T("lay.behind", row.Length, t.Rounds, l.Kept().Rounds)
		}
		f.Tried = append(f.Tried, row)
	}
	return f
}

// sheetNames are the sheets that can be printed of a make.
var sheetNames = []string{"pattern-a4", "pattern-letter", "pattern-roll", "lay", "work-card", "needs", "docket"}

// sheet prints one sheet, of what is up to date and has no Stop only.
func (s *Server) sheet(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	who := readerOf(r)
	if m.stale || !m.whole || m.findings().Stops() > 0 {
		s.show(w, r, http.StatusConflict, "told", who.T("sheets.title"), who.T("sheets.not-now"))
		return
	}
	paper := draw.A4
	if who.Unit == unit.Inch {
		paper = draw.Letter
	}
	files, found, err := t.sheets(m, paper)
	if err != nil {
		s.fail(w, err)
		return
	}
	data, ok := files[r.PathValue("file")]
	switch {
	case ok:
	case len(found) > 0: // the roll of paper is too narrow for a piece
		s.show(w, r, http.StatusConflict, "told", who.T("sheets.title"), found[0].Text()+": "+found[0].Mend())
		return
	default:
		s.missing(w, r)
		return
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Disposition", fmt.Sprintf(`attachment; filename="%s-%s"`, m.in.Docket.Name, r.PathValue("file")))
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(data)
}

// Leaves are the leaves of the sheet in the order of the work.
func (docketPage) Leaves() []string {
	return []string{"body", "pieces", "changes", "seams", "cloth", "order", "needs", "sheets", "notes"}
}
