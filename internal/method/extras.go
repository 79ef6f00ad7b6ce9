package method

import (
	"gusset/internal/cloth"
	"gusset/internal/source"
)

// What a notion's or a strip's length may be taken of, besides the sides of a
// join and the edge of a finish.
const Along = "along"

// LengthWords are the words for what has a length.
var LengthWords = append([]string{Along}, OnWords[:len(OnWords)-1]...)

// word reads a name that groups methods.
func (r reader) word(key string) string {
	if !r.m.Has(key) {
		return ""
	}
	return r.id(r.m.Key(key))
}

// joining reads what only joins have: an intake, and being sewn flat.
func (r reader) joining(v *Method) {
	for _, key := range []string{"intake", "flat"} {
		if r.m.Has(key) && v.Takes != Join {
			r.add(joinsOnly.At(r.m.Key(key).Place(), key, v.Takes))
		}
	}
	v.Intake = Intake(r.m.WordOr("intake", string(None), words(Intakes)...))
	v.Flat = r.m.Yes("flat")
}

// repeat reads how often something is set along a closure.
func (r reader) repeat(v Method) Repeat {
	if !r.m.Has("repeat") {
		return Repeat{}
	}
	if v.Takes != Closure {
		r.add(repeatElsewhere.At(r.m.Key("repeat").Place(), v.Takes))
	}
	m := r.m.Map("repeat")
	one := func(key string) string {
		if !m.Has(key) {
			return ""
		}
		return r.value(m.Key(key), v)
	}
	out := Repeat{First: one("first"), Last: one("last"), Spacing: one("spacing")}
	if at := m.Required().Key("spacing"); out.Spacing != "" && v.Values[out.Spacing].MM() < 1 {
		r.add(noSpacing.At(at.Place(), out.Spacing))
		out.Spacing = ""
	}
	m.Done()
	return out
}

// value reads the name of one of the method's values.
func (r reader) value(n source.Node, v Method) string {
	s, ok := n.Text(r.out)
	if !ok {
		return ""
	}
	if _, have := v.Values[s]; !have {
		r.add(unknownValue.At(n.Place(), s, meant(s, sortedKeys(v.Values))))
		return ""
	}
	return s
}

// pieces reads the strips that the method cuts.
func (r reader) pieces(v Method) []Added {
	if !r.m.Has("pieces") {
		return nil
	}
	var list []Added
	for _, n := range r.m.Items("pieces") {
		m := n.Reader(r.out)
		need := m.Required()
		a := Added{
			Name: r.id(need.Key("name")), Cloth: cloth.Role(m.WordOr("cloth", string(cloth.Main), words(cloth.Roles)...)),
			LengthOf: need.Word("length-of", LengthWords...), Extra: m.Length("extra", "", -mostValue, mostValue),
			Bias: m.Yes("bias"), Count: m.IntOr("count", 1, mostTimes, 1),
		}
		a.Title = m.StringOr("title", a.Name)
		a.Width = r.names(need.Key("width"), v)
		m.Done()
		if a.Name != "" && a.LengthOf != "" && len(a.Width) > 0 {
			list = append(list, a)
		}
	}
	return list
}

func (r reader) notions(v Method) []Notion {
	if !r.m.Has("notions") {
		return nil
	}
	var list []Notion
	for _, n := range r.m.Items("notions") {
		m := n.Reader(r.out)
		list = append(list, Notion{
			Kind: m.Required().String("kind"), Title: m.String("title"),
			Count: m.IntOr("count", 1, 500, 1), Each: m.Yes("each"), LengthOf: m.Word("length-of", LengthWords...),
			Share: m.PercentOr("share", 0, 3, 1), Extra: m.Length("extra", "", -mostValue, mostValue),
		})
		m.Done()
		if last := list[len(list)-1]; last.Each && v.Repeat.Spacing == "" && v.Takes != Part {
			r.add(nothingRepeats.At(n.Place(), last.Kind))
		}
	}
	return list
}
