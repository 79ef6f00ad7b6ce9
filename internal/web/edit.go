package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/store"
)

// stepFields are what each change asks for; a change that is not here is edited
// as text.
var stepFields = map[docket.ChangeKind][]field{
	docket.Lengthen:     {{Key: "at", List: "levels", Must: true}, {Key: "by", Must: true}},
	docket.HemGirth:     {{Key: "edge", List: "names"}, {Key: "to", Must: true}, {Key: "from", List: "levels", Must: true}},
	docket.MoveHem:      {{Key: "edge", List: "names"}, {Key: "by", Must: true}},
	docket.SetFinish:    {{Key: "item", List: "items", Must: true}, {Key: "method", List: "methods"}},
	docket.CopyEdge:     {{Key: "edge", List: "edges", Must: true}, {Key: "from", List: "edges", Must: true}},
	docket.CutFrom:      {{Key: "piece", List: "pieces", Must: true}, {Key: "cloth", List: "roles", Must: true}},
	docket.Divide:       {{Key: "piece", List: "pieces", Must: true}, {Key: "at", Must: true}, {Key: "method", List: "methods"}},
	docket.TakeIn:       {{Key: "seam", List: "items", Must: true}, {Key: "by", Must: true}, {Key: "at", List: "levels", Must: true}, {Key: "from", List: "levels"}, {Key: "to", List: "levels"}},
	docket.CrotchDepth:  {{Key: "at", List: "levels"}, {Key: "by", Must: true}},
	docket.CrotchLength: {{Key: "seam", List: "items", Must: true}, {Key: "by", Must: true}, {Key: "to", List: "levels"}},
	docket.FullSeat:     {{Key: "seam", List: "items", Must: true}, {Key: "by", Must: true}, {Key: "at", List: "levels", Must: true}},
	docket.HollowBack:   {{Key: "seam", List: "items", Must: true}, {Key: "by", Must: true}, {Key: "at", List: "levels", Must: true}},
	docket.RaiseEdge:    {{Key: "edge", List: "names", Must: true}, {Key: "by", Must: true}},
	docket.Straighten:   {{Key: "edge", List: "names"}, {Key: "from", List: "levels", Must: true}, {Key: "to"}},
}

// editing makes an edit of a docket of what a form asks for.
type editing func(text string, r *http.Request) (string, error)

// edits are the forms of a docket's sheet, by the leaf they stand on.
var edits = map[string]editing{
	"size":   editSize,
	"change": editChange,
	"basics": func(text string, r *http.Request) (string, error) { return fill(filled(docketFields, text), text, r) },
	"cloths": func(text string, r *http.Request) (string, error) { return fill(filled(clothsFields, text), text, r) },
	"add":    addChange,
}

// leafOfEdit is where the page goes on after an edit.
var leafOfEdit = map[string]string{"size": "body", "change": "changes", "add": "changes", "basics": "top", "cloths": "cloth"}

// edit changes a docket by one of its forms. What the form makes of it must be
// sound by itself, else nothing is written and the page says what is wrong.
func (s *Server) edit(w http.ResponseWriter, r *http.Request) {
	t, m, ok := s.tableOf(w, r)
	do := edits[r.PathValue("form")]
	if !ok {
		return
	}
	if do == nil {
		s.missing(w, r)
		return
	}
	who := readerOf(r)
	base, err := strconv.ParseInt(r.FormValue("base"), 10, 64)
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, who.T("refused.form"))
		return
	}
	leaf := leafOfEdit[r.PathValue("form")]
	snap, err := s.store.Now(r.Context())
	if err != nil {
		s.fail(w, err)
		return
	}
	file := docketPath(t.name)
	old, err := snap.ReadFile(file)
	if err != nil {
		s.fail(w, err)
		return
	}
	text, err := do(string(old), r)
	if err != nil {
		s.again(w, r, t, m, leaf, http.StatusUnprocessableEntity, []foundLine{{Severity: "stop", Weight: who.T("weight.stop"), Lang: who.Lang, Text: who.T("refused.text"), Link: "/file/" + file}})
		return
	}
	if found := fresh(who, file, string(old), text); len(found) > 0 {
		s.again(w, r, t, m, leaf, http.StatusUnprocessableEntity, found)
		return
	}
	_, err = s.store.Save(r.Context(), s.by(r), r.PathValue("form"), store.Edit{Path: file, Data: []byte(text), Base: base})
	var c *store.Conflict
	switch {
	case errors.As(err, &c):
		s.again(w, r, t, m, leaf, http.StatusConflict, []foundLine{{Severity: "stop", Weight: who.T("weight.stop"), Lang: who.Lang, Text: who.T("conflict.form", c.By)}})
	case err != nil:
		s.fail(w, err)
	default:
		http.Redirect(w, r, "/docket/"+t.name+"#"+leaf, http.StatusSeeOther)
	}
}

// fresh lists what stops in a docket's new text and did not in the old.
func fresh(who reader, file, old, text string) []foundLine {
	_, before := docket.Load(source.File{Path: file, Data: []byte(old)})
	_, after := docket.Load(source.File{Path: file, Data: []byte(text)})
	had := map[string]bool{}
	for _, f := range before {
		had[f.Code()+f.Text()] = true
	}
	var out []foundLine
	for _, f := range after.AtLeast(finding.Stop) {
		if !had[f.Code()+f.Text()] {
			l := lineOf(who, f)
			l.Link = ""
			out = append(out, l)
		}
	}
	return out
}

// again shows the docket with what kept an edit from being made.
func (s *Server) again(w http.ResponseWriter, r *http.Request, t *table, m made, leaf string, status int, why []foundLine) {
	p, err := s.docketPage(r.Context(), readerOf(r), t, m)
	if err != nil {
		s.fail(w, err)
		return
	}
	p.Refused, p.RefusedOn = why, leaf
	s.show(w, r, status, "docket", p.Title, p)
}

// editSize writes the size of each zone: auto where none is given, one label
// where all are the same.
func editSize(text string, r *http.Request) (string, error) {
	sizes := value{Kind: 'm'}
	zones, same := 0, true
	first := ""
	for _, key := range sortedKeys(r.Form) {
		zone, ok := strings.CutPrefix(key, "zone.")
		if !ok {
			continue
		}
		said := strings.TrimSpace(r.FormValue(key))
		if said == docket.Auto {
			said = ""
		}
		if zones == 0 {
			first = said
		}
		zones++
		same = same && said == first
		sizes = sizes.with(zone, said)
	}
	switch {
	case zones == 0 || same && first == "":
		return setKey(text, "size", docket.Auto)
	case same:
		return setKey(text, "size", quoted(first))
	}
	written := make([]string, len(sizes.Keys))
	for i, k := range sizes.Keys {
		written[i] = scalar(k) + ": " + quoted(sizes.Items[i].Text)
	}
	return setKey(text, "size", "{"+strings.Join(written, ", ")+"}")
}

func sortedKeys(form map[string][]string) []string {
	var out []string
	for k := range form {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// recipe is the list of changes of a docket's text.
func recipe(text string) (value, error) {
	all, err := readValue(text)
	if err != nil {
		return value{}, err
	}
	v, ok := all.At("changes")
	if ok && v.Kind != 'l' && (v.Kind != 't' || v.Text != "") {
		return value{}, errText
	}
	v.Kind = 'l'
	return v, nil
}

func setRecipe(text string, v value) (string, error) {
	if len(v.Items) == 0 {
		return setKey(text, "changes", "")
	}
	var b strings.Builder
	for _, item := range v.Items {
		b.WriteString("\n  - " + item.flow())
	}
	return setKey(text, "changes", b.String())
}

// editChange changes one step of the recipe, moves it, or takes it out.
func editChange(text string, r *http.Request) (string, error) {
	v, err := recipe(text)
	if err != nil {
		return "", err
	}
	i := slices.IndexFunc(v.Items, func(item value) bool { return item.Of("id") == r.FormValue("step") })
	if i < 0 {
		return "", errText
	}
	v.Items = slices.Clone(v.Items)
	switch r.FormValue("do") {
	case "out":
		v.Items = slices.Delete(v.Items, i, i+1)
	case "up", "down":
		k := i + map[string]int{"up": -1, "down": 1}[r.FormValue("do")]
		if k < 0 || k >= len(v.Items) {
			return text, nil
		}
		v.Items[i], v.Items[k] = v.Items[k], v.Items[i]
	default:
		v.Items[i] = stepFrom(v.Items[i], r)
	}
	return setRecipe(text, v)
}

// stepFrom writes what a form says into a step.
func stepFrom(step value, r *http.Request) value {
	kind := kindOf(step)
	fields, _ := step.At(string(kind))
	for _, f := range stepFields[kind] {
		if r.Form.Has(f.Key) {
			fields = fields.with(f.Key, strings.Join(strings.Fields(r.FormValue(f.Key)), " "))
		}
	}
	out := step
	out.Items = slices.Clone(step.Items)
	out.Items[slices.Index(step.Keys, string(kind))] = fields
	return out
}

func kindOf(step value) docket.ChangeKind {
	for _, k := range step.Keys {
		if slices.Contains(docket.ChangeKinds, docket.ChangeKind(k)) {
			return docket.ChangeKind(k)
		}
	}
	return ""
}

// addChange puts a new step at the end of the recipe.
func addChange(text string, r *http.Request) (string, error) {
	v, err := recipe(text)
	if err != nil {
		return "", err
	}
	kind := docket.ChangeKind(r.FormValue("kind"))
	if _, ok := stepFields[kind]; !ok {
		return "", errText
	}
	id := strings.TrimSpace(r.FormValue("id"))
	if id == "" {
		id = freeID(v, string(kind))
	}
	step := value{Kind: 'm', Keys: []string{"id", string(kind)}, Items: []value{{Kind: 't', Text: id}, {Kind: 'm'}}}
	v.Items = append(slices.Clone(v.Items), stepFrom(step, r))
	return setRecipe(text, v)
}

// freeID is a name that no step has yet.
func freeID(v value, stem string) string {
	id := stem
	for n := 2; slices.ContainsFunc(v.Items, func(item value) bool { return item.Of("id") == id }); n++ {
		id = stem + "-" + strconv.Itoa(n)
	}
	return id
}
