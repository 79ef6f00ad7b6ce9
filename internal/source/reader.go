package source

import (
	"slices"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Map reads a mapping key by key and remembers which keys were asked for, so
// that Done can name those that nobody knows. Its methods give the zero value
// for a key that is missing or unsound; what is unsound is a finding. The
// variants ending in Or give a default for a missing key instead.
type Map struct {
	node     Node
	out      *finding.List
	asked    *[]string // in the order asked, shared with Required views
	required bool
}

// Reader opens n as a mapping. A value of another sort is a finding here, and
// then, as for a node that does not exist, the Map is silent: it has no keys
// and misses none.
func (n Node) Reader(out *finding.List) *Map {
	m := &Map{node: n, out: out, asked: &[]string{}}
	if !n.want(out, "a group of keys", mapping) {
		m.node.tree = nil
		return m
	}
	if n.isRoot() {
		*m.asked = append(*m.asked, headerKey)
	}
	return m
}

// Required is a view of m in which every key asked for must be there: one that
// is missing is a source.missing-key.
//
//	name := m.Required().String("name")
func (m *Map) Required() *Map {
	view := *m
	view.required = true
	return &view
}

// Node is the mapping as a node.
func (m *Map) Node() Node { return m.node }

// Place is the place of the mapping.
func (m *Map) Place() finding.Place { return m.node.Place() }

// Has reports whether the key is there, and counts as asking for it.
func (m *Map) Has(key string) bool {
	m.ask(key)
	return m.index(key) >= 0
}

// Key gives the value of the key, a Node that does not exist if it is missing.
func (m *Map) Key(key string) Node {
	m.ask(key)
	path := m.node.below(key)
	if i := m.index(key); i >= 0 {
		return m.node.keyed(m.node.tree.keys[i], m.node.tree.items[i], path)
	}
	missing := Node{doc: m.node.doc, path: path, line: m.node.line, col: m.node.col}
	if m.required && m.node.Exists() {
		*m.out = append(*m.out, missingKey.At(missing.Place(), path, key))
	}
	return missing
}

func (m *Map) ask(key string) {
	if !slices.Contains(*m.asked, key) {
		*m.asked = append(*m.asked, key)
	}
}

func (m *Map) index(key string) int {
	if !m.node.Exists() {
		return -1
	}
	return slices.IndexFunc(m.node.tree.keys, func(k *tree) bool { return k.text == key })
}

// Done reports every key that was not asked for, with the nearest right word
// among those that were and are not there.
func (m *Map) Done() {
	if !m.node.Exists() {
		return
	}
	unused := slices.DeleteFunc(slices.Clone(*m.asked), func(k string) bool { return m.index(k) >= 0 })
	for _, k := range m.node.tree.keys {
		if slices.Contains(*m.asked, k.text) {
			continue
		}
		mend := "take it out, or check its spelling and its indent"
		if near := Nearest(k.text, unused); near != "" {
			mend = "did you mean " + near + "?"
		} else if near := Nearest(k.text, *m.asked); near != "" && near != headerKey {
			mend = "did you mean " + near + "? it is given already"
		}
		key := m.node.child(k, m.node.below(k.text))
		*m.out = append(*m.out, unknownKey.At(key.Place(), shortened(key.path), mend))
	}
}

// Map opens the mapping under key.
func (m *Map) Map(key string) *Map { return m.Key(key).Reader(m.out) }

// Items gives the items of the list under key, in file order.
func (m *Map) Items(key string) []Node { return m.Key(key).Items(m.out) }

// Entries gives the keys and values of the mapping under key, in file order.
func (m *Map) Entries(key string) []Entry { return m.Key(key).Entries(m.out) }

// Each calls do for each item of the list under key, in file order.
func (m *Map) Each(key string, do func(i int, item Node)) {
	for i, n := range m.Items(key) {
		do(i, n)
	}
}

// EachEntry calls do for each key and value of the mapping under key, in file
// order.
func (m *Map) EachEntry(key string, do func(e Entry)) {
	for _, e := range m.Entries(key) {
		do(e)
	}
}

// String gives the text under key.
func (m *Map) String(key string) string { return m.StringOr(key, "") }

// StringOr gives the text under key, or missing.
func (m *Map) StringOr(key, missing string) string {
	return or(missing)(m.Key(key).Text(m.out))
}

// Label gives the size label under key.
func (m *Map) Label(key string) string { return or("")(m.Key(key).Label(m.out)) }

// Word gives the word under key, one of those allowed.
func (m *Map) Word(key string, allowed ...string) string { return m.WordOr(key, "", allowed...) }

// WordOr gives the word under key, one of those allowed, or missing.
func (m *Map) WordOr(key, missing string, allowed ...string) string {
	return or(missing)(m.Key(key).Word(m.out, allowed...))
}

// Bool gives true or false under key; false when missing.
func (m *Map) Bool(key string) bool { return m.BoolOr(key, false) }

// BoolOr gives true or false under key, or missing.
func (m *Map) BoolOr(key string, missing bool) bool { return or(missing)(m.Key(key).Bool(m.out)) }

// Int gives the whole number under key, from least to most.
func (m *Map) Int(key string, least, most int) int { return m.IntOr(key, least, most, 0) }

// IntOr gives the whole number under key, from least to most, or missing.
func (m *Map) IntOr(key string, least, most, missing int) int {
	return or(missing)(m.Key(key).Int(m.out, least, most))
}

// Float gives the number under key, from least to most.
func (m *Map) Float(key string, least, most float64) float64 { return m.FloatOr(key, least, most, 0) }

// FloatOr gives the number under key, from least to most, or missing.
func (m *Map) FloatOr(key string, least, most, missing float64) float64 {
	return or(missing)(m.Key(key).Float(m.out, least, most))
}

// Length gives the length under key, from least to most millimetres; a bare
// number takes the assumed unit.
func (m *Map) Length(key string, assumed unit.Unit, least, most float64) unit.Length {
	return m.LengthOr(key, assumed, least, most, unit.Length{})
}

// LengthOr gives the length under key, or missing.
func (m *Map) LengthOr(key string, assumed unit.Unit, least, most float64, missing unit.Length) unit.Length {
	return or(missing)(m.Key(key).Length(m.out, assumed, least, most))
}

// Percent gives the percentage under key as a fraction, from least to most
// (fractions too).
func (m *Map) Percent(key string, least, most float64) float64 {
	return m.PercentOr(key, least, most, 0)
}

// PercentOr gives the percentage under key as a fraction, or missing (a
// fraction too).
func (m *Map) PercentOr(key string, least, most, missing float64) float64 {
	return or(missing)(m.Key(key).Percent(m.out, least, most))
}

// Strings gives the list of texts under key, without the unsound ones.
func (m *Map) Strings(key string) []string {
	return each(m, key, func(n Node) (string, bool) { return n.Text(m.out) })
}

// Labels gives the list of size labels under key, without the unsound ones.
func (m *Map) Labels(key string) []string {
	return each(m, key, func(n Node) (string, bool) { return n.Label(m.out) })
}

// Words gives the list of words under key, each one of those allowed.
func (m *Map) Words(key string, allowed ...string) []string {
	return each(m, key, func(n Node) (string, bool) { return n.Word(m.out, allowed...) })
}

// Lengths gives the list of lengths under key, without the unsound ones.
func (m *Map) Lengths(key string, assumed unit.Unit, least, most float64) []unit.Length {
	return each(m, key, func(n Node) (unit.Length, bool) { return n.Length(m.out, assumed, least, most) })
}

func each[T any](m *Map, key string, read func(Node) (T, bool)) []T {
	var list []T
	for _, n := range m.Items(key) {
		if v, ok := read(n); ok {
			list = append(list, v)
		}
	}
	return list
}

// or turns (value, ok) into the value or a default.
func or[T any](missing T) func(T, bool) T {
	return func(v T, ok bool) T {
		if ok {
			return v
		}
		return missing
	}
}
