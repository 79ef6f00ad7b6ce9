package schema

import (
	"bytes"
	"encoding/json"
	"flag"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"gusset/demo"
	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/exchange"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/order"
	"gusset/internal/pattern"
	"gusset/internal/source"
)

var update = flag.Bool("update", false, "write the schema files anew")

// The files beside this test are what Of gives.
func TestFilesAreUpToDate(t *testing.T) {
	for _, kind := range Kinds() {
		want, err := Of(kind)
		if err != nil {
			t.Fatal(err)
		}
		name := kind + ".schema.json"
		if *update {
			if err := os.WriteFile(name, want, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		got, err := os.ReadFile(name)
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s is not up to date (%v): run go test ./schema -update", name, err)
		}
	}
	if _, err := Of("hat"); err == nil {
		t.Error("a schema of no kind")
	}
}

// compiled gives the schema of a kind, checked against the rules of the draft
// by the library.
func compiled(t testing.TB, kind string) *jsonschema.Schema {
	t.Helper()
	data, err := Of(kind)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(kind+".schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(kind + ".schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON reads YAML as the values that JSON has, with another reader than the
// loaders use.
func asJSON(data []byte) (any, error) {
	var v any
	if err := yaml.Unmarshal(data, &v); err != nil {
		return nil, err
	}
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	return jsonschema.UnmarshalJSON(bytes.NewReader(text))
}

// sample is one YAML file that loads without a Stop finding.
type sample struct {
	kind, file string
	data       []byte
	beside     fs.FS // the tree it is from
}

// samples are the demo, the test workroom, the methods that come with Gusset and
// a docket of every change.
func samples(t testing.TB) []sample {
	t.Helper()
	var all []sample
	for _, tree := range []fs.FS{demo.Files, os.DirFS("../internal/making/testdata/room"), os.DirFS("../internal/method/data"), os.DirFS("testdata"), os.DirFS("../internal/exchange/testdata/taped")} {
		err := fs.WalkDir(tree, ".", func(file string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || path.Ext(file) != ".yaml" {
				return err
			}
			data, err := fs.ReadFile(tree, file)
			kind := strings.TrimSuffix(strings.SplitN(strings.SplitN(string(data), "gusset: ", 2)[1], "\n", 2)[0], "/1")
			all = append(all, sample{kind, file, data, tree})
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// Every file we have is of the form that its schema says.
func TestSamplesValid(t *testing.T) {
	seen := map[string]int{}
	for _, s := range samples(t) {
		seen[s.kind]++
		v, err := asJSON(s.data)
		if err != nil {
			t.Fatalf("%s: %v", s.file, err)
		}
		if err := compiled(t, s.kind).Validate(v); err != nil {
			t.Errorf("%s: %v", s.file, err)
		}
	}
	for _, kind := range Kinds() {
		if seen[kind] == 0 {
			t.Errorf("no file of kind %s was looked at", kind)
		}
	}
}

// load reads the sample, changed to data, with its loader; a large pattern
// without its drawings, which leaves its keys to be looked at.
func (s sample) load(data []byte) finding.List {
	f := source.File{Path: s.file, Data: data}
	var found finding.List
	switch s.kind {
	case "body":
		_, found = body.Load(f)
	case "cloth":
		_, found = cloth.Load(f)
	case "machine":
		_, found = machine.Load(f)
	case "method":
		_, found = method.Load(f)
	case "docket":
		_, found = docket.Load(f)
	case "lay":
		_, found = lay.Load(f)
	case "order":
		_, found = order.Load(f)
	case "taped":
		_, found = exchange.ReadTaped(f)
	case "pattern":
		_, found = pattern.Load(f, func(name string) (source.File, error) {
			if s.large() {
				return source.File{}, fs.ErrNotExist
			}
			svg, err := fs.ReadFile(s.beside, path.Join(path.Dir(s.file), name))
			return source.File{Path: name, Data: svg}, err
		})
	}
	return found
}

// mapping is one mapping of a file with the part of the schema that describes
// it.
type mapping struct {
	node *yaml.Node
	form form
}

// mappings lists the mappings with fixed keys in a value.
func mappings(n *yaml.Node, f form) []mapping {
	var all []mapping
	if options, ok := f["anyOf"].([]form); ok {
		for _, o := range options {
			if fits(n, o) {
				all = append(all, mappings(n, o)...)
			}
		}
	}
	properties, fixed := f["properties"].(form)
	if fixed && n.Kind == yaml.MappingNode {
		all = append(all, mapping{n, f})
	}
	each, _ := f["additionalProperties"].(form)
	item, _ := f["items"].(form)
	for i, child := range n.Content {
		next := item
		if n.Kind == yaml.MappingNode {
			if i%2 == 0 {
				continue
			}
			next = each
			if fixed {
				next, _ = properties[n.Content[i-1].Value].(form)
			}
		}
		if next != nil {
			all = append(all, mappings(child, next)...)
		}
	}
	return all
}

// fits reports whether a mapping's words are among those of one of several
// forms.
func fits(n *yaml.Node, f form) bool {
	properties, ok := f["properties"].(form)
	if !ok || n.Kind != yaml.MappingNode {
		return true
	}
	for i := 0; i < len(n.Content); i += 2 {
		p, _ := properties[n.Content[i].Value].(form)
		if set, ok := p["enum"].([]string); ok && !slices.Contains(set, n.Content[i+1].Value) {
			return false
		}
	}
	return true
}

// large says that a file's drawings are too many to be read for each of its keys.
func (s sample) large() bool { return len(s.data) > 4000 }

// small leaves out the large files.
func small(all []sample) []sample { return slices.DeleteFunc(all, sample.large) }

// opened reads a file keeping the order of its keys and how they are written.
func opened(t testing.TB, s sample) (*yaml.Node, []mapping) {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal(s.data, &n); err != nil {
		t.Fatal(err)
	}
	return &n, mappings(n.Content[0], kinds[s.kind].form(s.kind))
}

func written(t testing.TB, n *yaml.Node) []byte {
	t.Helper()
	data, err := yaml.Marshal(n)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// with writes the file with a key added to one of its mappings.
func with(t testing.TB, n *yaml.Node, m mapping, key, value string) []byte {
	t.Helper()
	whole := m.node.Content
	defer func() { m.node.Content = whole }()
	m.node.Content = append(whole[:len(whole):len(whole)],
		&yaml.Node{Kind: yaml.ScalarNode, Value: key}, &yaml.Node{Kind: yaml.ScalarNode, Value: value})
	return written(t, n)
}

// Every key that a schema knows is known to the loader in the same place: none
// of them, when added, is a source.unknown-key.
func TestLoadersKnowEveryKey(t *testing.T) {
	tried := map[string]int{}
	for _, s := range samples(t) {
		n, all := opened(t, s)
		for _, m := range all {
			for _, key := range sorted(m.form["properties"].(form)) {
				if has(m.node, key) {
					continue
				}
				for _, f := range s.load(with(t, n, m, key, "1")) {
					if f.Code() == "source.unknown-key" {
						t.Errorf("%s: the schema knows %s, the loader says: %s", s.file, key, f.Text())
					}
				}
				tried[s.kind]++
			}
		}
	}
	for _, kind := range Kinds() {
		if tried[kind] == 0 {
			t.Errorf("no key of a %s file was tried", kind)
		}
	}
}

func has(n *yaml.Node, key string) bool {
	for i := 0; i < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return true
		}
	}
	return false
}

// The docket of every change has a step of each kind, named after it.
func TestEveryChangeIsTried(t *testing.T) {
	for _, s := range samples(t) {
		if s.file != "dockets/every-change.yaml" {
			continue
		}
		d, found := docket.Load(source.File{Path: s.file, Data: s.data})
		if len(found) > 0 {
			t.Errorf("%v", found)
		}
		for _, k := range docket.ChangeKinds {
			if !slices.ContainsFunc(d.Changes, func(c docket.Change) bool { return c.Kind == k && c.ID == string(k) }) {
				t.Errorf("no step of %s", k)
			}
		}
		return
	}
	t.Error("no docket of every change")
}

// A key that neither knows is refused by both, in every mapping.
func TestBothRefuseUnknownKeys(t *testing.T) {
	for _, s := range samples(t) {
		n, all := opened(t, s)
		schema := compiled(t, s.kind)
		for _, m := range all {
			data := with(t, n, m, "xyzzy", "1")
			if !s.load(data).Has("source.unknown-key") {
				t.Errorf("%s: the loader takes an unknown key in the mapping at line %d", s.file, m.node.Line)
			}
			if accepts(t, schema, data) {
				t.Errorf("%s: the schema takes an unknown key in the mapping at line %d", s.file, m.node.Line)
			}
		}
	}
}

func accepts(t testing.TB, s *jsonschema.Schema, data []byte) bool {
	t.Helper()
	v, err := asJSON(data)
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(v) == nil
}

// A key that the schema wants is wanted by the loader, and the other way round.
func TestBothWantTheSameKeys(t *testing.T) {
	for _, s := range small(samples(t)) {
		n, all := opened(t, s)
		schema := compiled(t, s.kind)
		for _, m := range all {
			whole := m.node.Content
			for i := 0; i < len(whole); i += 2 {
				m.node.Content = slices.Concat(whole[:i], whole[i+2:])
				data := written(t, n)
				refused, found := !accepts(t, schema, data), s.load(data)
				if refused && found.Stops() == 0 {
					t.Errorf("%s:%d: without %s the schema refuses, the loader does not", s.file, whole[i].Line, whole[i].Value)
				}
				if !refused && found.Has("source.missing-key") {
					t.Errorf("%s:%d: without %s the loader misses a key, the schema does not", s.file, whole[i].Line, whole[i].Value)
				}
			}
			m.node.Content = whole
		}
	}
}

// Slips of form are refused by the schema as they are by the loader.
func TestBothRefuseSlips(t *testing.T) {
	for _, c := range []struct{ kind, old, new string }{
		{"body", "waist-at: natural", "waist-at: naturel"},
		{"body", "hip: ", "hip: 98.5 #"},
		{"body", "child: no", "child: perhaps"},
		{"cloth", "direction: one-way", "direction: oneway"},
		{"cloth", "width: 148 cm", "width: wide"},
		{"cloth", "3 %", "3"},
		{"machine", "kind: lockstitch", "kind: lokstitch"},
		{"machine", `"301"`, `"931"`},
		{"machine", `"301"`, "301"},
		{"method", "takes: finish", "takes: finnish"},
		{"method", "corner: natural", "corner: round"},
		{"docket", "fold: auto", "fold: twisted"},
		{"docket", "body: wren", "body: ../wren"},
		{"docket", "by: 2.5 cm", "by: 2.5"},
		{"docket", "lengthen: {at", "lenghten: {at"},
		{"lay", "fold: open", "fold: flat"},
		{"lay", "pinned: yes", "pinned: perhaps"},
		{"lay", "along: 76 cm", "along: 76"},
		{"lay", "along: 76 cm, ", ""},
		{"lay", "piece: loops", "piece: the loops"},
		{"pattern", `["10", "12", "14"]`, "[10, 12, 14]"},
		{"pattern", "choose: hip", "choose: hips"},
		{"pattern", "copies: fold", "copies: folded"},
		{"pattern", "file: front.svg", "file: ../front.svg"},
		{"pattern", "allowance: 15 mm", "allowance: 15"},
		{"pattern", "[front:side, back:side]", "[front side, back:side]"},
		{"pattern", "[front:side, back:side]", "[front:side]"},
		{"pattern", "cloth: [main]", "cloth: [mane]"},
		{"pattern", "gusset: pattern/1", "gusset: pattern/2"},
	} {
		tried := false
		for _, s := range small(samples(t)) {
			if s.kind != c.kind || !strings.Contains(string(s.data), c.old) || tried {
				continue
			}
			tried = true
			data := []byte(strings.Replace(string(s.data), c.old, c.new, 1))
			if s.load(data).Stops() == 0 {
				t.Errorf("%s: the loader takes %q", s.file, c.new)
			}
			if accepts(t, compiled(t, c.kind), data) {
				t.Errorf("%s: the schema takes %q", s.file, c.new)
			}
		}
		if !tried {
			t.Errorf("no %s file has %q", c.kind, c.old)
		}
	}
}
