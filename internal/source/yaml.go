package source

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"gusset/internal/finding"
)

// maxTokens bounds the time of the YAML library, which on one long mapping
// grows with the square of its keys: 48,000 tokens were measured at 0.45 s.
const maxTokens = 50_000

// ParseYAML reads a YAML file that should be of the given kind, in a version
// up to the given one, and gives its root. When the file is of no use (broken,
// of another kind, newer) the root does not exist and the findings say why.
// Otherwise the root is a mapping, even beside findings about parts of it.
func ParseYAML(f File, kind string, version int) (Node, finding.List) {
	var out finding.List
	t := newText(f)
	if !t.check(f.Data, MaxYAML, &out) {
		return Node{}, out
	}
	b := &builder{faults: faults{text: t, out: &out}}
	body := b.parse()
	if body == nil {
		return Node{}, out
	}
	root := b.build(body, 1)
	if b.deep {
		return Node{}, out
	}
	got, ok := b.header(root, kind, version)
	if !ok {
		return Node{}, out
	}
	return Node{doc: &document{text: t, version: got}, tree: root, line: root.line, col: root.col}, out
}

// parse gives the body of the one document in the file, or nil.
func (b *builder) parse() (body ast.Node) {
	defer func() { // the library has panicked on odd input before
		if p := recover(); p != nil {
			body = nil
			b.at(1, 1, yamlBroken, "the structure is beyond reading")
		}
	}()
	tokens := lexer.Tokenize(b.text.all)
	if !b.guard(tokens) {
		return nil
	}
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		b.syntax(err)
		return nil
	}
	for _, d := range file.Docs {
		if d.Body == nil {
			continue
		}
		if body != nil {
			begins := d.Start // its "---"
			if begins == nil {
				begins = d.Body.GetToken()
			}
			line, col := b.start(begins)
			b.at(line, col, yamlDocuments)
			return nil
		}
		body = d.Body
	}
	if body == nil {
		*b.out = append(*b.out, empty.At(finding.Place{File: b.text.path}))
	}
	return body
}

func (b *builder) syntax(err error) {
	line, col, message := 1, 1, "the structure is broken"
	var y yaml.Error
	if errors.As(err, &y) {
		message = strings.ToLower(y.GetMessage())
		if tk := y.GetToken(); tk != nil {
			line, col = b.start(tk)
		}
	}
	b.at(line, col, yamlBroken, message)
}

// refused names the tokens of the parts of YAML that are not read.
var refused = map[token.Type]finding.Kind{
	token.AnchorType:    yamlAnchor,
	token.AliasType:     yamlAnchor,
	token.MergeKeyType:  yamlAnchor,
	token.TagType:       yamlTag,
	token.DirectiveType: yamlTag,
}

// guard looks over the tokens before they are parsed. The parser recurses, so
// depth must be bounded here, as a Go stack overflow cannot be caught.
func (b *builder) guard(tokens token.Tokens) bool {
	if len(tokens) > maxTokens {
		b.at(1, 1, yamlLong, maxTokens)
		return false
	}
	brackets, dashes, dashLine := 0, 0, 0
	for _, tk := range tokens {
		if k, ok := refused[tk.Type]; ok {
			line, col := b.start(tk)
			b.at(line, col, k, strings.TrimSpace(tk.Value))
			return false
		}
		switch tk.Type {
		case token.SequenceStartType, token.MappingStartType:
			brackets++
		case token.SequenceEndType, token.MappingEndType:
			brackets--
		case token.SequenceEntryType, token.MappingKeyType: // "- - - x" nests on one line
			if line := tk.Position.Line; line != dashLine {
				dashes, dashLine = 0, line
			}
			dashes++
		}
		if brackets > maxDepth || dashes > maxDepth {
			line, col := b.start(tk)
			b.at(line, col, tooDeep, maxDepth)
			return false
		}
	}
	return true
}

// headerKey is the first key of every file.
const headerKey = "gusset"

// header checks the first line and gives the version in it.
func (b *builder) header(root *tree, kind string, version int) (int, bool) {
	want := fmt.Sprintf("%s: %s/%d", headerKey, kind, version)
	if root.shape != mapping || len(root.keys) == 0 || root.keys[0].text != headerKey {
		b.at(max(root.line, 1), max(root.col, 1), missingHeader, want)
		return 0, false
	}
	value := *root.items[0]
	if value.shape == nothing {
		value.line, value.col = root.keys[0].line, root.keys[0].col
	}
	gotKind, gotVersion, ok := strings.Cut(value.text, "/")
	n, err := strconv.Atoi(gotVersion)
	switch {
	case !ok || err != nil || n < 1 || gotKind == "":
		b.at(value.line, value.col, badHeader, value.text, want)
	case gotKind != kind:
		mend := fmt.Sprintf("name a %s file here", kind)
		if Nearest(gotKind, []string{kind}) != "" {
			mend = "write " + want
		}
		b.at(value.line, value.col, otherKind, gotKind, kind, mend)
	case n > version:
		b.at(value.line, value.col, newer, kind, n, version)
	default:
		return n, true
	}
	return 0, false
}
