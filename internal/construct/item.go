package construct

import (
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/method"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// item is a join, finish, closure or part with the method it is made by.
type item struct {
	id, title string
	takes     method.Takes
	method    method.Method
	values    map[string]unit.Length // of the pattern, as far as the method uses them
	place     finding.Place
	count     int  // of a part: how many are made
	index     int  // position in the view
	sound     bool // the method is known and fits
}

// rawItem is an item as the view has it.
type rawItem struct {
	id, title, method string
	takes             method.Takes
	values            map[string]unit.Length
	count             int
	place             finding.Place
}

func (b *builder) rawItems() []rawItem {
	var raw []rawItem
	v := b.garment.View
	for _, j := range v.Joins {
		raw = append(raw, rawItem{j.ID, j.Title, j.Method, method.Join, j.Values, 0, j.Place})
	}
	for _, f := range v.Finishes {
		raw = append(raw, rawItem{f.ID, f.Title, f.Method, method.Finish, f.Values, 0, f.Place})
	}
	for _, c := range v.Closures {
		raw = append(raw, rawItem{c.ID, c.Title, c.Method, method.Closure, c.Values, 0, c.Place})
	}
	for _, p := range v.Parts {
		raw = append(raw, rawItem{p.ID, p.Title, p.Method, method.Part, p.Values, p.Count, p.Place})
	}
	for _, f := range v.Fittings {
		raw = append(raw, rawItem{f.ID, f.Title, f.Method, method.Fitting, nil, 0, f.Place})
	}
	if len(b.interfaced()) > 0 && !slices.ContainsFunc(raw, func(r rawItem) bool { return r.id == Interfacing }) {
		name := v.Interfacing
		if name == "" {
			name = usualInterfacing
		}
		raw = append(raw, rawItem{Interfacing, Interfacing, name, method.Piece, nil, 0, v.Place})
	}
	return raw
}

// readItems finds the method of every item.
func (b *builder) readItems(methods method.Library) {
	b.items = map[string]*item{}
	for i, r := range b.rawItems() {
		it := b.readItem(r, methods)
		it.index = i
		b.items[r.id] = it
	}
}

func (b *builder) readItem(r rawItem, methods method.Library) *item {
	it := &item{id: r.id, title: r.title, takes: r.takes, count: max(r.count, 1), place: r.place}
	if it.title == "" {
		it.title = strings.ReplaceAll(r.id, "-", " ")
	}
	m, ok := methods.Find(r.method)
	switch {
	case !ok:
		b.add(unknownMethod.At(r.place, r.id, r.method, meant(r.method, methods.Names())))
		return it
	case m.Takes != r.takes:
		b.add(wrongMethod.At(r.place, r.id, string(r.takes), r.method, string(m.Takes)))
		return it
	}
	it.method, it.sound = m, true
	it.values = b.valuesFor(r, m)
	return it
}

// valuesFor keeps the values that the method uses.
func (b *builder) valuesFor(r rawItem, m method.Method) map[string]unit.Length {
	kept := map[string]unit.Length{}
	for _, name := range sortedKeys(r.values) {
		if _, used := m.Values[name]; used || name == allowanceValue {
			kept[name] = r.values[name]
		} else {
			b.add(unknownValue.At(r.place, r.id, name, m.Name, meant(name, sortedKeys(m.Values))))
		}
	}
	return kept
}

// value is one of the item's lengths in mm: the pattern's, else the method's.
func (it *item) value(name string) (float64, bool) {
	if v, ok := it.values[name]; ok {
		return v.MM(), true
	}
	v, ok := it.method.Values[name]
	return v.MM(), ok
}

// sum is the lengths of several values together, in mm.
func (it *item) sum(names []string) float64 {
	var sum float64
	for _, name := range names {
		v, _ := it.value(name)
		sum += v
	}
	return sum
}

// bastes reports whether the item only holds plies until another closes the
// seam, or only readies an edge: it works, but no operation closes.
func (it *item) bastes() bool {
	if it.takes == method.Finish && len(it.method.Operations) == 0 {
		return false
	}
	return (it.takes == method.Join || it.takes == method.Finish) && !slices.ContainsFunc(it.method.Operations, func(o method.Operation) bool { return o.Closes })
}

// worksRound reports whether a finish is worked round all its edges at once.
func (it *item) worksRound() bool {
	return slices.ContainsFunc(it.method.Operations, func(o method.Operation) bool { return o.Together })
}

// covers reports whether the item's method gives widths to some sides of a
// join but none to the given one: that side is a seam already sewn.
func (it *item) covers(side string) bool {
	_, own := it.method.Allowance[side]
	return it.takes == method.Join && len(it.method.Allowance) > 0 && !own
}

// coversAny reports whether any of the first n sides of the join is covered.
func (it *item) coversAny(n int) bool {
	for i := range n {
		if it.covers(sideName(i)) {
			return true
		}
	}
	return false
}

// sideName is what methods call the i-th side of a join.
func sideName(i int) string {
	switch i {
	case 0:
		return "a"
	case 1:
		return "b"
	}
	return "more"
}

// meant says what was probably meant.
func meant(word string, among []string) string {
	if near := source.Nearest(word, among); near != "" {
		return "did you mean " + near + "?"
	}
	if len(among) == 0 {
		return "there is none to choose from"
	}
	return "choose from " + strings.Join(among, ", ")
}
