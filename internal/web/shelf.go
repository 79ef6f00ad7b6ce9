package web

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"net/http"
	"strconv"

	"gusset/internal/body"
	"gusset/internal/docket"
	"gusset/internal/draw"
	"gusset/internal/geom"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/source"
	"gusset/internal/store"
)

// shelfPage is the shelf: what is being made, and what there is to make it from.
type shelfPage struct {
	Dockets           []onShelf
	Stores            []storesOf
	Bodies            []string
	NewBody, NewCloth []field
	Views             []string // "quay/long": pattern and view, for a new docket
}

type onShelf struct {
	Name, Title, For, Pattern string
	Broken                    bool
}

// storesOf lists the files of one folder.
type storesOf struct {
	Folder string
	Files  []string
}

func (s *Server) shelf(w http.ResponseWriter, r *http.Request) {
	snap, err := s.store.Now(context.WithoutCancel(r.Context())) // others wait for what is read
	if err != nil {
		s.fail(w, err)
		return
	}
	p, err := s.shelfOf(snap)
	if err != nil {
		s.fail(w, err)
		return
	}
	s.show(w, r, http.StatusOK, "shelf", readerOf(r).T("shelf.title"), p)
}

// shelfOf reads the shelf as a change has left it, once.
func (s *Server) shelfOf(snap *store.Snapshot) (shelfPage, error) {
	type read struct {
		page shelfPage
		err  error
	}
	one := once(&s.shown, "shelf", strconv.FormatInt(snap.Change(), 10), func() read {
		p, err := readShelf(snap)
		return read{p, err}
	})
	if one.err != nil {
		s.shown.forget("shelf")
	}
	return one.page, one.err
}

func readShelf(snap *store.Snapshot) (shelfPage, error) {
	p := shelfPage{NewBody: beginnings["bodies"].fields, NewCloth: beginnings["cloths"].fields, Bodies: snap.Names("bodies", ".yaml")}
	for _, name := range snap.Names("dockets", ".yaml") {
		o, err := shelved(snap, name)
		if err != nil {
			return p, err
		}
		p.Dockets = append(p.Dockets, o)
	}
	for _, folder := range []string{"bodies", "cloths", "machines", "methods", "orders"} {
		if files := snap.Names(folder, ".yaml"); len(files) > 0 {
			p.Stores = append(p.Stores, storesOf{folder, files})
		}
	}
	var err error
	p.Views, err = viewsOf(snap)
	return p, err
}

// viewsOf lists the views of all patterns by their names in the files, without
// reading the drawings.
func viewsOf(snap *store.Snapshot) ([]string, error) {
	var out []string
	for _, name := range snap.Folders("patterns") {
		data, err := snap.ReadFile("patterns/" + name + "/pattern.yaml")
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		all, err := readValue(string(data))
		if err != nil {
			continue // told where a docket uses it
		}
		views, _ := all.At("views")
		for i, v := range views.Items {
			view := v.Of("name")
			if views.Kind == 'm' {
				view = views.Keys[i]
			}
			if view != "" {
				out = append(out, name+"/"+view)
			}
		}
	}
	return out, nil
}

// shelved says what a docket is without making any of it.
func shelved(snap *store.Snapshot, name string) (onShelf, error) {
	data, err := snap.ReadFile(docketPath(name))
	if err != nil {
		return onShelf{}, err
	}
	d, found := docket.Load(source.File{Path: docketPath(name), Data: data})
	o := onShelf{Name: name, Title: d.Title, For: d.Body, Pattern: d.Pattern + ", " + d.View, Broken: found.Stops() > 0}
	if o.Title == "" {
		o.Title = name
	}
	if data, err := snap.ReadFile("bodies/" + d.Body + ".yaml"); err == nil {
		if b, _ := body.Load(source.File{Path: d.Body, Data: data}); b.Title != "" {
			o.For = b.Title
		}
	}
	return o, nil
}

// picture draws the pieces of a docket side by side.
func (s *Server) picture(w http.ResponseWriter, r *http.Request) {
	_, m, ok := s.tableOf(w, r)
	if !ok {
		return
	}
	var b bytes.Buffer
	if err := draw.SVG(&b, piecesInARow(m.drawn)); err != nil {
		s.fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "no-cache")
	_, _ = w.Write(b.Bytes())
}

// Of the picture on the shelf, mm.
const (
	shelfWide, shelfHigh = 120.0, 80.0
	shelfAir             = 25.0 // between pieces, on the cloth
)

// piecesInARow draws the largest pieces of a make standing side by side, grain
// upright.
func piecesInARow(r making.Result) draw.Page {
	page := draw.Page{Width: shelfWide, Height: shelfHigh, List: &draw.List{}}
	if r.Reached < making.Finish {
		return page
	}
	var shown []sheet.Outline
	for _, o := range sheet.Outlines(r.Cut.Pieces()) {
		if o.Main {
			shown = append(shown, o)
		}
	}
	wide, high := -shelfAir, 0.0
	for _, o := range shown {
		lo, hi := geom.BoundsOf(o.Cut)
		wide += hi.X - lo.X + shelfAir
		high = max(high, hi.Y-lo.Y)
	}
	if len(shown) == 0 || wide <= 0 || high <= 0 {
		return page
	}
	k := min((shelfWide-4)/wide, (shelfHigh-4)/high)
	x, y := (shelfWide-k*wide)/2, (shelfHigh-k*high)/2
	for _, o := range shown {
		lo, hi := geom.BoundsOf(o.Cut)
		to := geom.Shift(geom.Pt{X: -lo.X, Y: -lo.Y}).Then(geom.Affine{A: k, D: k}).Then(geom.Shift(geom.Pt{X: x, Y: y}))
		ring := make([]geom.Pt, len(o.Cut))
		for i, p := range o.Cut {
			ring[i] = to.Apply(p)
		}
		style := draw.Pen(draw.Gray(20), 0.4)
		style.Fill = draw.Gray(236)
		page.List.Path(style, draw.Polygon(ring...))
		page.List.Path(draw.DashPen(draw.Gray(90), 0.2, 1, 0.8), o.Sewn.Transform(to))
		x += k * (hi.X - lo.X + shelfAir)
	}
	return page
}
