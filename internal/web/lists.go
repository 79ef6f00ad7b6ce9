package web

import (
	"slices"
	"strings"

	"gusset/internal/docket"
	"gusset/internal/making"
	"gusset/internal/piece"
	"gusset/internal/store"
)

// suggestions are what a form's fields may name, by the list's id: from the
// pattern's view as it is sized, and from the workroom.
func suggestions(m made, snap *store.Snapshot) map[string][]string {
	out := map[string][]string{
		"sizes":   append([]string{docket.Auto}, m.in.Pattern.Sizes...),
		"views":   m.in.Pattern.ViewNames(),
		"methods": m.in.Methods.Names(),
		"bodies":  snap.Names("bodies", ".yaml"),
		"cloths":  snap.Names("cloths", ".yaml"),
	}
	for _, r := range docket.CutRoles() {
		out["roles"] = append(out["roles"], string(r))
	}
	if v, ok := m.in.Pattern.View(m.in.Docket.View); ok {
		for _, j := range v.Joins {
			out["items"] = append(out["items"], j.ID)
		}
		for _, f := range v.Finishes {
			out["items"] = append(out["items"], f.ID)
		}
		for _, p := range v.Parts {
			out["items"] = append(out["items"], p.ID)
		}
	}
	if m.drawn.Digest != "" && m.drawn.Reached >= making.Change {
		g := m.drawn.Garment()
		for _, name := range g.Order {
			out["pieces"] = append(out["pieces"], name)
			for _, e := range g.Pieces[name].Edges {
				out["edges"] = append(out["edges"], name+":"+e.Name)
				out["names"] = append(out["names"], e.Name)
			}
			for _, l := range g.Pieces[name].Lines {
				if l.Name != "" && (l.Kind == piece.Level || l.Kind == piece.Lengthen) {
					out["levels"] = append(out["levels"], l.Name)
				}
			}
		}
	}
	for _, key := range []string{"levels", "names", "items"} {
		slices.Sort(out[key])
		out[key] = slices.Compact(out[key])
	}
	return out
}

// stepForm is one change of the recipe as a form.
type stepForm struct {
	ID, Kind string
	Fields   []field
	Whole    string // the step as it is written, where a form cannot edit it
	Text     string // what it did
	Found    []foundLine
}

// kindForm is the form of a change to be added.
type kindForm struct {
	Kind   string
	Fields []field
}

func kindForms() []kindForm {
	var out []kindForm
	for _, k := range docket.ChangeKinds {
		if f, ok := stepFields[k]; ok {
			out = append(out, kindForm{string(k), f})
		}
	}
	return out
}

// stepForms reads the recipe's steps from a docket's text, in their order.
func stepForms(text string) []stepForm {
	v, err := recipe(text)
	if err != nil {
		return nil
	}
	var out []stepForm
	for _, item := range v.Items {
		kind := kindOf(item)
		f := stepForm{ID: item.Of("id"), Kind: string(kind)}
		fields, _ := item.At(string(kind))
		if list, ok := stepFields[kind]; ok && fields.Kind == 'm' {
			f.Fields = slices.Clone(list)
			for i := range f.Fields {
				f.Fields[i].Value = fields.Of(f.Fields[i].Key)
			}
		} else {
			f.Whole = strings.TrimSpace(item.flow())
		}
		out = append(out, f)
	}
	return out
}
