package source

import (
	"fmt"
	"strings"

	"gusset/internal/finding"
)

// document is what all nodes of one file share.
type document struct {
	text    *text
	version int
}

// Node is one value in a YAML file, or the lack of one: a key that was asked
// for and is not there gives a Node that does not exist, whose place is that of
// the mapping it is missing from. Its reading methods take the list that
// findings go to; on a Node that does not exist they give nothing and add
// nothing, so that one fault is told once.
type Node struct {
	doc       *document
	tree      *tree
	path      string
	line, col int
}

// Exists reports whether the value is written in the file.
func (n Node) Exists() bool { return n.tree != nil }

// Path is where the value is within its file: "pieces.front.file",
// "sizes[2]"; "" for the root.
func (n Node) Path() string { return n.path }

// Version is the version in the file's header; 0 for the zero Node.
func (n Node) Version() int {
	if n.doc == nil {
		return 0
	}
	return n.doc.version
}

// Place is the file, line, column and line of text of the value.
func (n Node) Place() finding.Place {
	if n.doc == nil {
		return finding.Place{}
	}
	return n.doc.text.place(n.line, n.col)
}

// IsMapping reports whether the value is a group of keys.
func (n Node) IsMapping() bool { return n.tree != nil && n.tree.shape == mapping }

// IsList reports whether the value is a list.
func (n Node) IsList() bool { return n.tree != nil && n.tree.shape == sequence }

// IsScalar reports whether the value is text, a number, true or false.
func (n Node) IsScalar() bool {
	return n.tree != nil && (n.tree.shape == word || n.tree.shape == number || n.tree.shape == truth)
}

// IsEmpty reports whether the value is written but empty, as in "waist:".
func (n Node) IsEmpty() bool { return n.tree != nil && n.tree.shape == nothing }

// name is how findings speak of the value.
func (n Node) name() string {
	if n.path == "" {
		return "the file"
	}
	return n.path
}

// child is the node of a tree below n.
func (n Node) child(t *tree, path string) Node {
	c := Node{doc: n.doc, tree: t, path: path, line: t.line, col: t.col}
	if c.line == 0 { // an empty value has no place of its own
		c.line, c.col = n.line, n.col
	}
	return c
}

func (n Node) below(key string) string {
	if n.path == "" {
		return key
	}
	return n.path + "." + key
}

// Items gives the items of a list in file order. A value that is no list is
// a finding.
func (n Node) Items(out *finding.List) []Node {
	if !n.want(out, "a list", sequence) {
		return nil
	}
	items := make([]Node, len(n.tree.items))
	for i, t := range n.tree.items {
		items[i] = n.child(t, fmt.Sprintf("%s[%d]", n.path, i))
	}
	return items
}

// Entry is one key of a mapping and its value.
type Entry struct {
	Key   string // as written, without quotes
	Name  Node   // the key itself, for its place and for Label
	Value Node
}

// Entries gives the keys and values of a mapping in file order, for mappings
// whose keys are names that the user chose. A value that is no mapping is a
// finding.
func (n Node) Entries(out *finding.List) []Entry {
	if !n.want(out, "a group of keys", mapping) {
		return nil
	}
	entries := make([]Entry, 0, len(n.tree.items))
	for i, t := range n.tree.items {
		key := n.tree.keys[i]
		if n.path == "" && i == 0 && n.isRoot() {
			continue // the header
		}
		path := n.below(key.text)
		entries = append(entries, Entry{Key: key.text, Name: n.child(key, path), Value: n.keyed(key, t, path)})
	}
	return entries
}

// keyed is the node of a key's value; an empty value is placed at its key.
func (n Node) keyed(key, value *tree, path string) Node {
	c := n.child(value, path)
	if value.line == 0 || value.shape == nothing {
		c.line, c.col = key.line, key.col
	}
	return c
}

func (n Node) isRoot() bool {
	return n.path == "" && n.tree.shape == mapping && len(n.tree.keys) > 0 && n.tree.keys[0].text == headerKey
}

// want reports whether the value has the shape, adding a finding if it exists
// and has another.
func (n Node) want(out *finding.List, wanted string, shapes ...shape) bool {
	if n.tree == nil {
		return false
	}
	for _, s := range shapes {
		if n.tree.shape == s {
			return true
		}
	}
	*out = append(*out, wrongType.At(n.Place(), n.name(), wanted, n.found()))
	return false
}

// found describes the value as it is.
func (n Node) found() string {
	if n.tree.shape == number || n.tree.shape == truth {
		return fmt.Sprintf("%s (%s)", shapeNames[n.tree.shape], shortened(n.tree.text))
	}
	return shapeNames[n.tree.shape]
}

// shortened keeps an endless word from flooding a finding.
func shortened(s string) string {
	const longest = 60
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return strings.ReplaceAll(s, "\n", " ")
}
