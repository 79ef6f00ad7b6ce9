package source

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

const wren = `# the long way round
gusset: body/1
name: "Wrén"          # first name only
waist: 34 1/2 in
hip: 96,5 cm
back: 41
rise: ½ yd
stretch: 3 %
side: left
worn: false
layers: 3
weight: 0,25
size: "08"
sizes: ["08", '10', M]
notes:
  - stands tall
  - |
    left shoulder lower
    wears a belt
list: [88.5, 90 cm, 1 in]
chart: {"8": 60 cm, "10": 64 cm}
marks:
  - at: knee
    depth: 4 mm
  - at: calf
`

func TestReader(t *testing.T) {
	root, found := ParseYAML(File{Path: "bodies/wren.yaml", Data: []byte(wren)}, "body", 2)
	if !root.Exists() || root.Version() != 1 {
		t.Fatalf("root: %v, version %d, %v", root.Exists(), root.Version(), texts(found))
	}
	m := root.Reader(&found)
	check := func(name string, got, want any) {
		t.Helper()
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%s = %v, want %v", name, got, want)
		}
	}
	check("name", m.Required().String("name"), "Wrén")
	check("waist", m.Length("waist", "", 400, 2000), "34 1/2 in")
	check("waist", m.Length("waist", "", 400, 2000).MM(), 876.3)
	check("hip", m.Length("hip", "", 400, 2000).MM(), 965)
	check("back", m.Length("back", unit.Centimetre, 100, 1000), "41 cm")
	check("rise", m.Length("rise", "", 100, 1000).MM(), 457.2)
	check("stretch", m.Percent("stretch", 0, 0.5), 0.03)
	check("side", m.Word("side", "left", "right"), "left")
	check("worn", m.BoolOr("worn", true), false)
	check("layers", m.IntOr("layers", 1, 8, 1), 3)
	check("weight", m.Float("weight", 0, 10), 0.25)
	check("size", m.Label("size"), "08")
	check("sizes", m.Labels("sizes"), "[08 10 M]")
	check("notes", m.Strings("notes"), "[stands tall left shoulder lower\nwears a belt\n]")
	check("list", m.Lengths("list", unit.Centimetre, 0, 2000), "[88.5 cm 90 cm 1 in]")
	var chart, marks []string
	m.EachEntry("chart", func(e Entry) {
		size, _ := e.Name.Label(&found)
		l, _ := e.Value.Length(&found, "", 0, 2000)
		chart = append(chart, fmt.Sprintf("%s=%g@%d:%d", size, l.MM(), e.Name.Place().Line, e.Name.Place().Col))
	})
	check("chart", chart, "[8=600@21:9 10=640@21:21]")
	m.Each("marks", func(i int, n Node) {
		mark := n.Reader(&found)
		marks = append(marks, fmt.Sprintf("%d %s %s %d", i, mark.String("at"), mark.Node().Path(), mark.Place().Line))
		mark.LengthOr("depth", "", 0, 10, unit.MM(3))
		mark.Done()
	})
	check("marks", marks, "[0 knee marks[0] 23 1 calf marks[1] 25]")
	check("not there", []any{
		m.Has("hips"), m.Key("hips").Exists(), m.StringOr("title", "none"), m.WordOr("way", "up", "down"),
		m.IntOr("count", 1, 2, 7), m.FloatOr("f", 0, 1, 0.5), m.PercentOr("p", 0, 1, 0.1), m.Map("sub").String("x"),
		m.Map("sub").Required().String("y"), len(m.Items("i")), m.LengthOr("l", "", 0, 1, unit.MM(2)),
	}, "[false false none up 7 0.5 0.1   0 2 mm]")
	m.Done()
	if len(found) > 0 {
		t.Errorf("findings in a sound file: %v", texts(found))
	}
}

func TestNodeKinds(t *testing.T) {
	root, found := ParseYAML(File{Data: []byte("gusset: body/1\na: [x]\nb: {c: 1}\nd:\ne: 5\n")}, "body", 1)
	m := root.Reader(&found)
	var got []string
	for _, key := range []string{"a", "b", "d", "e", "f"} {
		n := m.Key(key)
		got = append(got, fmt.Sprint(n.Exists(), n.IsList(), n.IsMapping(), n.IsEmpty(), n.IsScalar(), n.Place().Line))
	}
	want := []string{
		"true true false false false 2", "true false true false false 3", "true false false true false 4",
		"true false false false true 5", "false false false false false 1",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
	if keys := root.Entries(&found); len(keys) != 4 || keys[0].Key != "a" {
		t.Errorf("entries of the root: %v", keys)
	}
	if n := (Node{}); n.Exists() || n.Version() != 0 || !n.Place().IsZero() || len(n.Items(&found))+len(n.Entries(&found)) > 0 || len(found) > 0 {
		t.Errorf("the zero Node must be silent: %v", texts(found))
	}
}

// A fault in one place is told once, also by what stands below it.
func TestNoCascade(t *testing.T) {
	root, found := ParseYAML(File{Data: []byte("gusset: body/1\nsub: [a]\n")}, "body", 1)
	m := root.Reader(&found)
	sub := m.Map("sub")
	sub.Required().String("x")
	sub.Required().Map("y").Required().Int("z", 0, 1)
	sub.Done()
	m.Required().Map("gone").Required().String("x")
	m.Done()
	if got := found.Codes(); !slices.Equal(got, []string{"source.wrong-type", "source.missing-key"}) {
		t.Errorf("findings: %v", texts(found))
	}
}

func TestMends(t *testing.T) {
	_, other := ParseYAML(File{Data: []byte("gusset: bdoy/1\n")}, "body", 1)
	found := load(File{Data: []byte(head + "hp: 90 cm\nwaits: 60 cm\nsidee: left\nside: lefft\nzzzz: 1\n")})
	var got []string
	for _, f := range append(other, found...) {
		got = append(got, f.Mend())
	}
	want := []string{
		"write gusset: body/1",
		"did you mean left? (left, right or both)",
		"did you mean hip?",
		"did you mean waist? it is given already",
		"did you mean side? it is given already",
		"take it out, or check its spelling and its indent",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	twice := load(File{Path: "b", Data: []byte(head + "waist: 72 cm\n")})
	if len(twice) != 1 || len(twice[0].Notes) != 1 || twice[0].Notes[0].Place.Line != 3 {
		t.Errorf("a key given twice should point at the first: %v", twice)
	}
}

func TestManyFaultsAreBounded(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("gusset: body/1\n")
	for range 500 {
		b.WriteString("a: [1,2]\n")
	}
	_, found := ParseYAML(File{Data: b.Bytes()}, "body", 1)
	if len(found) != maxFaults+1 || found[maxFaults].Code() != "source.too-many" {
		t.Errorf("%d findings, last %s", len(found), found[len(found)-1].Code())
	}
}

// Values and places agree with an independent YAML implementation
// (go.yaml.in/yaml/v4, a port of libyaml) on random documents that it wrote.
func TestAgainstOtherYAML(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := &yaml.Node{Kind: yaml.MappingNode}
		doc.Content = append(doc.Content, scalarNode("gusset", 0), scalarNode("body/1", 0))
		grow(t, doc, 3)
		data, err := yaml.Marshal(doc)
		if err != nil {
			t.Skip(err)
		}
		var ref yaml.Node
		if err := yaml.Unmarshal(data, &ref); err != nil {
			t.Skip(err)
		}
		root, found := ParseYAML(File{Data: data}, "body", 1)
		if len(found) > 0 {
			t.Fatalf("%v in\n%s", texts(found), data)
		}
		compare(t, root.tree, ref.Content[0], data)
	})
}

var scalars = []string{
	"a", "34 1/2 in", "88,5 cm", "6 mm", "+2.5 cm", "12", "1.5", "true", "it's", "é½", "a: b", "# no", "- x", "two\nlines\n", "", "no", "08", "[x", "@y", "x #y", "\"q\"",
}

func scalarNode(s string, style yaml.Style) *yaml.Node {
	n := &yaml.Node{}
	n.SetString(s)
	if style != 0 && n.Style == 0 {
		n.Style = style
	}
	return n
}

func grow(t *rapid.T, n *yaml.Node, depth int) {
	for i := range rapid.IntRange(1, 4).Draw(t, "count") {
		var child *yaml.Node
		kind := rapid.IntRange(0, 3).Draw(t, "kind")
		if depth == 0 {
			kind = 0
		}
		switch kind {
		case 2:
			child = &yaml.Node{Kind: yaml.MappingNode}
			grow(t, child, depth-1)
		case 3:
			child = &yaml.Node{Kind: yaml.SequenceNode}
			grow(t, child, depth-1)
		default:
			child = scalarNode(rapid.SampledFrom(scalars).Draw(t, "scalar"),
				rapid.SampledFrom([]yaml.Style{0, yaml.SingleQuotedStyle, yaml.DoubleQuotedStyle}).Draw(t, "quotes"))
		}
		if child.Kind != yaml.ScalarNode && rapid.Bool().Draw(t, "flow") {
			child.Style = yaml.FlowStyle
		}
		if n.Kind == yaml.MappingNode {
			n.Content = append(n.Content, scalarNode(fmt.Sprintf("k%d", i), 0))
		}
		n.Content = append(n.Content, child)
	}
}

func compare(t *rapid.T, got *tree, want *yaml.Node, data []byte) {
	place := fmt.Sprintf("%d:%d", want.Line, want.Column)
	if fmt.Sprintf("%d:%d", got.line, got.col) != place {
		t.Fatalf("%v at %d:%d, want %s in\n%s", got, got.line, got.col, place, data)
	}
	switch want.Kind {
	case yaml.ScalarNode:
		if got.text != want.Value || (got.shape == word) != (want.Tag == "!!str") {
			t.Fatalf("%s: %q (%v), want %q (%s) in\n%s", place, got.text, got.shape, want.Value, want.Tag, data)
		}
	case yaml.SequenceNode:
		if got.shape != sequence || len(got.items) != len(want.Content) {
			t.Fatalf("%s: %v, want a list of %d in\n%s", place, got, len(want.Content), data)
		}
		for i, w := range want.Content {
			compare(t, got.items[i], w, data)
		}
	case yaml.MappingNode:
		if got.shape != mapping || 2*len(got.items) != len(want.Content) {
			t.Fatalf("%s: %v, want %d keys in\n%s", place, got, len(want.Content)/2, data)
		}
		for i := range got.items {
			compare(t, got.keys[i], want.Content[2*i], data)
			compare(t, got.items[i], want.Content[2*i+1], data)
		}
	}
}

func FuzzYAML(f *testing.F) {
	f.Add([]byte(wren))
	for _, c := range brokenYAML {
		if len(c.text) < 10_000 {
			f.Add([]byte(c.text))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file := File{Path: "f", Data: data}
		found := load(file)
		for _, g := range found {
			if g.Place.Line < 0 || g.Place.Line > bytes.Count(data, []byte("\n"))+bytes.Count(data, []byte("\r"))+1 {
				t.Fatalf("line %d of a shorter file", g.Place.Line)
			}
		}
		if err := finding.WriteText(&bytes.Buffer{}, found); err != nil {
			t.Fatal(err)
		}
	})
}
