package making

import (
	"maps"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/docket"
	"gusset/internal/pattern"
)

// resolve checks that what the docket names within its pattern is there. With
// no sound pattern there is nothing to check against.
func (r *room) resolve(in Inputs) {
	d := in.Docket
	for _, id := range slices.Sorted(maps.Keys(d.Methods)) {
		r.method(in, d.Methods[id], "method."+id)
	}
	r.changes(in)
	if in.Pattern.Name == "" || d.View == "" {
		return
	}
	v, ok := in.Pattern.View(d.View)
	if !ok {
		r.found = append(r.found, noView.At(d.Places["view"], in.Pattern.Name, d.View, meant(d.View, in.Pattern.ViewNames())))
		return
	}
	items := items(v)
	for _, id := range slices.Sorted(maps.Keys(d.Methods)) {
		if !slices.Contains(items, id) {
			r.found = append(r.found, noItem.At(d.Places["method."+id], v.Name, id, meant(id, items)))
		}
	}
	r.roles(d, v)
}

// changes checks the methods that the recipe's steps name. Items, lines, levels
// and edges are for package change, which knows the pieces.
func (r *room) changes(in Inputs) {
	for _, c := range in.Docket.Changes {
		if _, ok := in.Methods.Find(c.Method); !ok && c.Method != "" {
			r.found = append(r.found, noMethod.At(c.Place, c.Method, meant(c.Method, in.Methods.Names())))
		}
		if _, named := in.Docket.Places["cloth."+string(c.Cloth)]; c.Cloth != "" && !named {
			r.found = append(r.found, noCloth.At(c.Place, in.Docket.View, c.Piece, c.Cloth))
		}
	}
}

func (r *room) method(in Inputs, name, key string) {
	if _, ok := in.Methods.Find(name); !ok {
		r.found = append(r.found, noMethod.At(in.Docket.Places[key], name, meant(name, in.Methods.Names())))
	}
}

// roles wants a cloth for every role that the view cuts from.
func (r *room) roles(d docket.Docket, v pattern.View) {
	for _, role := range cloth.Roles {
		i := slices.IndexFunc(v.Uses, func(u pattern.Use) bool { return slices.Contains(u.Cloths, role) })
		if _, named := d.Places["cloth."+string(role)]; i >= 0 && !named {
			f := noCloth.At(d.Place, v.Name, v.Uses[i].Piece, role)
			r.found = append(r.found, f.Note(v.Uses[i].Place, "the piece is here"))
		}
	}
}

// items lists the ids of all that a view makes.
func items(v pattern.View) []string {
	return append(v.Items(), construct.Interfacing)
}
