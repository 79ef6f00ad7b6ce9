package web

import (
	"net/http"
	"slices"
	"strings"

	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/unit"
)

// field is one thing that a form asks for. Key is where it stands in the file:
// a key at the top, or one below another, joined by a point.
type field struct {
	Key     string
	Value   string
	Choices []string // none for text of one's own
	List    string   // the id of the suggestions that the page has
	Number  bool     // it is written as a number
	Must    bool
}

// Name is the last part of the key.
func (f field) Name() string { return f.Key[strings.LastIndex(f.Key, ".")+1:] }

// clothFields and bodyFields are the forms of cloths and bodies; what else a
// file may hold is edited as text.
var (
	clothFields = []field{
		{Key: "title"}, {Key: "width", Must: true}, {Key: "length", Must: true}, {Key: "selvedge"},
		{Key: "direction", Choices: texts(cloth.Directions), Must: true}, {Key: "thickness"}, {Key: "weight", Number: true},
		{Key: "washed", Choices: []string{"", "yes", "no"}}, {Key: "shrink.warp"}, {Key: "shrink.weft"}, {Key: "frays", Choices: []string{"", "yes", "no"}},
	}
	bodyFields = func() []field {
		out := []field{{Key: "title"}, {Key: "waist-at", Choices: append([]string{""}, body.WaistKinds...)}, {Key: "child", Choices: []string{"", "yes", "no"}}}
		for _, t := range body.Takings {
			out = append(out, field{Key: "measures." + string(t.Measure)})
		}
		return out
	}()
	docketFields = []field{
		{Key: "title"}, {Key: "body", List: "bodies", Must: true}, {Key: "view", List: "views", Must: true},
		{Key: "table"}, {Key: "fold", Choices: append([]string{""}, docket.Folds...)}, {Key: "roll"},
		{Key: "unit", Choices: append([]string{""}, texts(docket.Units)...)},
		{Key: "button.diameter"}, {Key: "button.thickness"},
		{Key: "threads.main"}, {Key: "threads.topstitch"}, {Key: "threads.overlock"}, {Key: "threads.hand"},
	}
	clothsFields = func() []field {
		var out []field
		for _, r := range cloth.Roles {
			out = append(out, field{Key: "cloths." + string(r), List: "cloths"})
		}
		return out
	}()
)

func texts[T cloth.Direction | unit.Unit](list []T) []string {
	var out []string
	for _, t := range list {
		out = append(out, string(t))
	}
	return out
}

// formOf is the form of a file, filled in as the file has it; none for files
// without one.
func formOf(name, text string) []field {
	folder, _, _ := strings.Cut(name, "/")
	switch folder {
	case "cloths":
		return filled(clothFields, text)
	case "bodies":
		return filled(bodyFields, text)
	}
	return nil
}

// filled fills fields in as a file has them; none when it has to be edited as
// text.
func filled(fields []field, text string) []field {
	all, err := readValue(text)
	if err != nil {
		return nil
	}
	out := slices.Clone(fields)
	for i, f := range out {
		top, below, nested := strings.Cut(f.Key, ".")
		v, _ := all.At(top)
		if nested {
			v, _ = v.At(below)
		}
		switch v.Kind {
		case 'l': // readings of a measure
			out[i].Value = readings(v)
		case 'm':
			return nil
		default:
			out[i].Value = v.Text
		}
		if c := out[i].Choices; c != nil && !slices.Contains(c, out[i].Value) {
			out[i].Choices = append(slices.Clone(c), out[i].Value)
		}
	}
	return out
}

// readings writes a list of texts on one line, with semicolons between.
func readings(v value) string {
	var out []string
	for _, item := range v.Items {
		out = append(out, item.Text)
	}
	return strings.Join(out, "; ")
}

// fill writes what a form says into a file, key by key; what the form leaves as
// it was is not touched.
func fill(form []field, text string, r *http.Request) (string, error) {
	if form == nil {
		return "", errText
	}
	for _, f := range form {
		if !r.Form.Has(f.Key) {
			continue
		}
		said := strings.Join(strings.Fields(r.FormValue(f.Key)), " ")
		if said == f.Value {
			continue
		}
		var err error
		if text, err = set(text, f, said); err != nil {
			return "", err
		}
	}
	return text, nil
}

func set(text string, f field, said string) (string, error) {
	written := scalar(said)
	if f.Number && numberForm.MatchString(said) {
		written = said
	}
	top, below, nested := strings.Cut(f.Key, ".")
	if !nested {
		if said == "" {
			written = ""
		}
		return setKey(text, top, written)
	}
	all, err := readValue(text)
	if err != nil {
		return "", err
	}
	v, _ := all.At(top)
	v = v.with(below, said)
	if strings.Contains(said, ";") {
		v = listed(v, below, said)
	}
	if len(v.Keys) == 0 {
		return setKey(text, top, "")
	}
	if top == "measures" {
		return setKey(text, top, v.lines())
	}
	return setKey(text, top, v.flow())
}

// listed makes a list of what stands between semicolons.
func listed(v value, key, said string) value {
	list := value{Kind: 'l'}
	for _, part := range strings.Split(said, ";") {
		if part = strings.TrimSpace(part); part != "" {
			list.Items = append(list.Items, value{Kind: 't', Text: part})
		}
	}
	v.Items = slices.Clone(v.Items)
	v.Items[slices.Index(v.Keys, key)] = list
	return v
}

// lines writes a mapping with a line for each key.
func (v value) lines() string {
	var b strings.Builder
	for i, k := range v.Keys {
		b.WriteString("\n  " + scalar(k) + ": " + v.Items[i].flow())
	}
	return b.String()
}
