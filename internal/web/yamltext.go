package web

import (
	"errors"
	"regexp"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// value is a YAML value as it is written: a text, or a list or mapping of
// values. Keys of a mapping keep their order.
type value struct {
	Text  string
	Keys  []string
	Items []value // of a list, or of a mapping in the order of Keys
	Kind  byte    // 't', 'l' or 'm'
}

// At is what a mapping has under a key.
func (v value) At(key string) (value, bool) {
	for i, k := range v.Keys {
		if k == key {
			return v.Items[i], true
		}
	}
	return value{}, false
}

// Of is the text under a key, empty for none.
func (v value) Of(key string) string {
	item, _ := v.At(key)
	return item.Text
}

// with is a mapping with one key set; an empty text takes the key away.
func (v value) with(key, text string) value {
	out := value{Kind: 'm'}
	found := false
	for i, k := range v.Keys {
		if k != key {
			out.Keys, out.Items = append(out.Keys, k), append(out.Items, v.Items[i])
			continue
		}
		found = true
		if text != "" {
			out.Keys, out.Items = append(out.Keys, k), append(out.Items, value{Kind: 't', Text: text})
		}
	}
	if !found && text != "" {
		out.Keys, out.Items = append(out.Keys, key), append(out.Items, value{Kind: 't', Text: text})
	}
	return out
}

// errText says that a file is not written in a way that a form can edit.
var errText = errors.New("this file has to be edited as text")

// readValue reads YAML as it is written.
func readValue(text string) (value, error) {
	f, err := parser.ParseBytes([]byte(text), 0)
	if err != nil || len(f.Docs) != 1 || f.Docs[0].Body == nil {
		return value{}, errText
	}
	return valueOf(f.Docs[0].Body), nil
}

func valueOf(n ast.Node) value {
	switch n := n.(type) {
	case *ast.MappingNode:
		v := value{Kind: 'm'}
		for _, m := range n.Values {
			v.Keys, v.Items = append(v.Keys, m.Key.GetToken().Value), append(v.Items, valueOf(m.Value))
		}
		return v
	case *ast.MappingValueNode:
		return value{Kind: 'm', Keys: []string{n.Key.GetToken().Value}, Items: []value{valueOf(n.Value)}}
	case *ast.SequenceNode:
		v := value{Kind: 'l'}
		for _, item := range n.Values {
			v.Items = append(v.Items, valueOf(item))
		}
		return v
	case *ast.NullNode:
		return value{Kind: 't'}
	default:
		return value{Kind: 't', Text: n.GetToken().Value}
	}
}

// flow writes a value on one line.
func (v value) flow() string {
	var parts []string
	switch v.Kind {
	case 'm':
		for i, k := range v.Keys {
			parts = append(parts, scalar(k)+": "+v.Items[i].flow())
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case 'l':
		for _, item := range v.Items {
			parts = append(parts, item.flow())
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return scalar(v.Text)
}

var (
	plainForm = regexp.MustCompile(`^[\p{L}0-9½¼¾⅛⅜⅝⅞-][\p{L}0-9 ./½¼¾⅛⅜⅝⅞+%-]*$`)
	// numberForm is what might be read as a number or a date where a text is
	// meant.
	numberForm = regexp.MustCompile(`^[-+]?[0-9._]+([eE][-+]?[0-9]+)?$|^[0-9._+-]+$`)
)

// scalar writes a text so that it is read again as that text.
func scalar(text string) string {
	plain := plainForm.MatchString(text) && !numberForm.MatchString(text) && strings.TrimSpace(text) == text && !strings.HasPrefix(text, "- ") && text != "-"
	switch strings.ToLower(text) {
	case "null", "true", "false", "y", "n", "on", "off":
		plain = false
	}
	if plain && !strings.HasPrefix(text, "0x") && !strings.HasPrefix(text, "0o") {
		return text
	}
	return quoted(text)
}

// quoted writes a text in double quotes: Go's notation for printable text is
// YAML's.
func quoted(text string) string { return strconv.Quote(strings.ToValidUTF8(text, "?")) }

// setKey writes text under a key at the top of a file, leaving every other line
// as it is; an empty text takes the key away. A key that is not there comes at
// the end. text is YAML, in one line or in several of which all but the first
// are indented.
func setKey(file, key, text string) (string, error) {
	end := "\n"
	if strings.Contains(file, "\r\n") {
		end = "\r\n"
	}
	lines := strings.SplitAfter(file, "\n")
	if lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	} else {
		lines[len(lines)-1] += end
	}
	entry := ""
	if text != "" {
		entry = key + ":" + gap(text) + strings.ReplaceAll(text, "\n", end) + end
	}
	from, to := block(lines, key)
	out := strings.Join(lines[:from], "") + entry + strings.Join(lines[to:], "")
	return out, holds(out, key, text)
}

func gap(text string) string {
	if strings.HasPrefix(text, "\n") {
		return ""
	}
	return " "
}

// block finds the lines that a key at the top takes: its own, and those below
// that are indented or items of its list. Comments and empty lines after that
// belong to what follows.
func block(lines []string, key string) (from, to int) {
	from = -1
	for i, l := range lines {
		if strings.HasPrefix(l, key+":") {
			from = i
			break
		}
	}
	if from < 0 {
		return len(lines), len(lines)
	}
	to = from + 1
	for i := to; i < len(lines); i++ {
		l := strings.TrimRight(lines[i], "\r\n")
		switch {
		case strings.TrimSpace(l) == "" || l[0] == '#':
		case l[0] == ' ' || l[0] == '\t' || l[0] == '-' && !strings.HasPrefix(l, "---"):
			to = i + 1
		default:
			return from, to
		}
	}
	return from, to
}

// holds makes sure that a file now has a value under a key, and is still read.
func holds(file, key, text string) error {
	all, err := readValue(file)
	if err != nil {
		return err
	}
	got, there := all.At(key)
	if text == "" {
		if there {
			return errText
		}
		return nil
	}
	want, err := readValue(key + ":" + gap(text) + text + "\n")
	if err != nil {
		return err
	}
	if v, _ := want.At(key); !there || v.flow() != got.flow() {
		return errText
	}
	return nil
}
