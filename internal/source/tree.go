package source

import (
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// shape is what a YAML value is.
type shape int

const (
	nothing shape = iota // written, but empty: "waist:" or "~"
	word                 // text, quoted or not
	number
	truth // true or false
	sequence
	mapping
)

var shapeNames = [...]string{"nothing", "text", "a number", "true or false", "a list", "a group of keys"}

// tree is one YAML value and all below it. It is made once from the library's
// syntax tree, so that nothing else in the program knows the library.
type tree struct {
	shape     shape
	text      string // a scalar's text as written, without quotes
	quoted    bool
	line, col int
	keys      []*tree // of a mapping, in file order
	items     []*tree // values of a mapping, or items of a list
}

// builder turns the library's tree into ours and collects what it refuses.
type builder struct {
	faults
	deep bool // something lay too deep, and was left out
}

func (b *builder) build(n ast.Node, depth int) *tree {
	t := &tree{}
	if n == nil {
		return t
	}
	t.line, t.col = b.start(n.GetToken())
	if depth > maxDepth {
		if !b.deep {
			b.at(t.line, t.col, tooDeep, maxDepth)
		}
		b.deep = true
		return t
	}
	switch n := n.(type) {
	case *ast.MappingNode:
		braces := n.Start != nil && n.Start.Type == token.MappingStartType
		if braces || len(n.Values) != 1 || !b.tight(t, n.Values[0]) {
			b.mapping(t, n.Values, n.IsFlowStyle, depth)
		}
	case *ast.MappingValueNode: // a mapping of one key
		if b.tight(t, n) {
			break
		}
		b.mapping(t, []*ast.MappingValueNode{n}, false, depth)
	case *ast.SequenceNode:
		t.shape = sequence
		for _, v := range n.Values {
			t.items = append(t.items, b.build(v, depth+1))
		}
		if n.IsFlowStyle {
			b.commas(n.Start)
		}
	default:
		b.scalar(t, n)
	}
	return t
}

// tight reads a mapping of one key as text where its colon is tight.
func (b *builder) tight(t *tree, n *ast.MappingValueNode) bool {
	text, ok := tightColon(n)
	if !ok {
		return false
	}
	t.shape, t.text = word, text
	t.line, t.col = b.start(n.Key.GetToken())
	return true
}

// tightColon reads [front:hem] as the text it is: a colon parts a key from a
// value only when white space follows (YAML 1.2.2, 7.3.3, plain scalars). The
// library parts it in lists in brackets all the same.
func tightColon(n *ast.MappingValueNode) (string, bool) {
	key, isKey := n.Key.(*ast.StringNode)
	value, isText := n.Value.(*ast.StringNode)
	if !isKey || !isText || n.Start == nil {
		return "", false
	}
	k, v := key.GetToken(), value.GetToken()
	if !plainDigits(k) || !plainDigits(v) || n.Start.Position == nil ||
		v.Position.Line != n.Start.Position.Line || v.Position.Column != n.Start.Position.Column+1 {
		return "", false
	}
	return key.Value + ":" + value.Value, true
}

func (b *builder) mapping(t *tree, values []*ast.MappingValueNode, flow bool, depth int) {
	t.shape = mapping
	first := map[string]*tree{}
	for i, v := range values {
		key := b.build(v.Key, depth)
		if i == 0 && key.line > 0 && !flow { // the library points at the colon
			t.line, t.col = key.line, key.col
		}
		switch {
		case key.shape != word && key.shape != number && key.shape != truth || key.text == "":
			b.at(key.line, key.col, badKey, shapeNames[key.shape])
			continue
		case first[key.text] != nil:
			b.twice(key.line, key.col, b.text.place(first[key.text].line, first[key.text].col), duplicateKey, key.text)
			continue
		}
		first[key.text] = key
		t.keys = append(t.keys, key)
		t.items = append(t.items, b.build(v.Value, depth+1))
	}
}

func (b *builder) scalar(t *tree, n ast.Node) {
	tk := n.GetToken()
	t.text = tk.Value
	switch n := n.(type) {
	case *ast.NullNode:
		t.text = ""
	case *ast.BoolNode:
		t.shape = truth
	case *ast.IntegerNode, *ast.FloatNode, *ast.InfinityNode, *ast.NanNode:
		t.shape = number
	case *ast.StringNode:
		t.shape, t.text = word, n.Value
		t.quoted = tk.Type == token.SingleQuoteType || tk.Type == token.DoubleQuoteType
	case *ast.LiteralNode:
		t.shape, t.quoted, t.text = word, true, n.Value.Value
	default:
		b.at(t.line, t.col, yamlBroken, "this form of value is not read")
	}
}

// start is where a token really begins: the library counts from the tab before
// it when there is one.
func (b *builder) start(tk *token.Token) (line, col int) {
	if tk == nil || tk.Position == nil {
		return 0, 0
	}
	line, col = tk.Position.Line, max(tk.Position.Column, 1)
	if !strings.Contains(tk.Origin, "\t") {
		return line, col
	}
	chars := []rune(b.text.line(line)[:min(len(b.text.line(line)), longestShown)])
	for col < len(chars) && (chars[col-1] == ' ' || chars[col-1] == '\t') {
		col++
	}
	return line, col
}

// commas looks for a comma with a digit on either side in a list in brackets:
// [88,5, 90] may be meant as two lengths or as three.
func (b *builder) commas(open *token.Token) {
	depth := 0
	for tk := open; tk != nil; tk = tk.Next {
		switch tk.Type {
		case token.SequenceStartType, token.MappingStartType:
			depth++
		case token.SequenceEndType, token.MappingEndType:
			depth--
		case token.CollectEntryType:
			if depth == 1 && b.tightComma(tk) {
				return // one finding for a list
			}
		}
		if depth == 0 {
			return
		}
	}
}

func (b *builder) tightComma(tk *token.Token) bool {
	left, right := tk.Prev, tk.Next
	if left == nil || right == nil || !plainDigits(left) || !plainDigits(right) ||
		right.Position.Line != tk.Position.Line || right.Position.Column != tk.Position.Column+1 {
		return false
	}
	if last := left.Value[len(left.Value)-1]; last < '0' || last > '9' || right.Value[0] < '0' || right.Value[0] > '9' {
		return false
	}
	b.at(tk.Position.Line, tk.Position.Column, commaInList, left.Value+","+right.Value)
	return true
}

// plainDigits reports whether a token is an unquoted scalar.
func plainDigits(tk *token.Token) bool {
	switch tk.Type {
	case token.StringType, token.IntegerType, token.FloatType, token.OctetIntegerType,
		token.HexIntegerType, token.BinaryIntegerType:
		return tk.Value != "" && tk.Position != nil
	}
	return false
}
