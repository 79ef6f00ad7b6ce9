package web

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/piece"
	"gusset/internal/store"
	"gusset/internal/trace"
)

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
