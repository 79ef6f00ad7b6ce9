package construct

import (
	"slices"
	"strconv"
	"strings"

	"gusset/internal/method"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Told is an action as it is put together, or what stands beside one: constant
// words, and what stands in them for the words in braces. Whoever has the
// constant words in another language puts the same into those.
type Told struct {
	Text  string
	Words map[string]string
}

// With is the action in the words of text.
func (t Told) With(text string) string {
	return filled(text, func(name string) (string, bool) {
		w, ok := t.Words[name]
		return w, ok
	})
}

// putTogether gives an operation's actions, with the names and measures of what is worked
// on.
func (b *builder) putTogether(w *work, m method.Operation) []Told {
	out := make([]Told, len(m.Actions))
	for i, a := range m.Actions {
		words := map[string]string{}
		filled(a, func(name string) (string, bool) {
			said, ok := b.word(w, name)
			if ok {
				words[name] = said
			}
			return said, ok
		})
		out[i] = Told{a, words}
	}
	return out
}

// Line is what is told, one after the other, in the program's own words.
func Line(told []Told, between string) string { return strings.Join(actions(told), between) }

// actions are they in the method's own words.
func actions(told []Told) []string {
	out := make([]string, len(told))
	for i, t := range told {
		out[i] = t.With(t.Text)
	}
	return out
}

// filled puts what the words in braces stand for in their place; words that stand
// for nothing are left.
func filled(text string, word func(name string) (string, bool)) string {
	var out strings.Builder
	for {
		before, rest, braced := strings.Cut(text, "{")
		name, after, closed := strings.Cut(rest, "}")
		out.WriteString(before)
		if !braced {
			return out.String()
		}
		if w, ok := word(name); closed && ok {
			out.WriteString(w)
			text = after
		} else {
			out.WriteByte('{')
			text = rest
		}
	}
}

// word is what a word in braces stands for.
func (b *builder) word(w *work, name string) (string, bool) {
	side := func(i int) string {
		if i >= len(w.sides) {
			return w.item.title
		}
		if w.hand == piece.Both && w.item.takes == method.Join {
			return b.handedWords(w.sides[i])
		}
		return b.sideWords(w.sides[i])
	}
	switch name {
	case "a":
		return side(0), true
	case "b":
		return side(1), true
	case "more":
		if len(w.sides) > 2 {
			return b.sideWords(slices.Concat(w.sides[2:]...)), true
		}
		return "", true
	case "edge":
		return b.edgeWords(w), true
	case "item":
		return b.itemWords(w), true
	case "seam":
		return b.caughtIn(w), true
	case "count":
		count, _ := b.repeats(w)
		return strconv.Itoa(count), true
	case "gap":
		_, gap := b.repeats(w)
		return unit.Format(gap, w.item.unit()), true
	}
	v, ok := w.item.method.Values[name]
	if own, set := w.item.values[name]; ok && set {
		v = own
	}
	return v.String(), ok
}

// itemWords is the item's title with the hand it is made on.
func (b *builder) itemWords(w *work) string {
	title := lower(w.item.title)
	if w.hand == piece.Left || w.hand == piece.Right {
		return string(w.hand) + " " + title
	}
	return title
}

// sideWords names the pieces of a side, each once: "front and yoke".
func (b *builder) sideWords(chain []Stretch) string {
	var names []string
	for _, s := range chain {
		if t := b.pieceTitle(s.Piece); !slices.Contains(names, t) {
			names = append(names, t)
		}
	}
	return list(names)
}

// handedWords names the pieces of a side with the hand they are all on: "right
// front". A join of both hands would else sew front to front.
func (b *builder) handedWords(chain []Stretch) string {
	words := b.sideWords(chain)
	if len(chain) > 0 && handOf(chain) != piece.Both {
		return string(handOf(chain)) + " " + words
	}
	return words
}

// edgeWords names the edges of a work: "hem of front and back".
func (b *builder) edgeWords(w *work) string {
	if w.item.takes == method.Part || len(w.sides[0]) == 0 {
		return b.itemWords(w)
	}
	if w.item.takes == method.Piece {
		return b.handedWords(w.sides[0])
	}
	var edges []string
	for _, s := range w.sides[0] {
		if e := edgeName(s.Edge); !slices.Contains(edges, e) {
			edges = append(edges, e)
		}
	}
	words := list(edges) + " of "
	if w.hand == piece.Left || w.hand == piece.Right {
		words += string(w.hand) + " "
	}
	return words + b.sideWords(w.sides[0])
}

// besides are words that say which edge, and not what it is.
var besides = []string{"outer", "inner", "upper", "lower", "free", "left", "right", "front", "back", "long", "short", "round", "in", "out"}

// edgeName is an edge's name in words: "outer edge", "hem".
func edgeName(name string) string {
	words := strings.ReplaceAll(name, "-", " ")
	if last := words[strings.LastIndex(words, " ")+1:]; slices.Contains(besides, last) {
		return words + " edge"
	}
	return words
}

// caughtIn names the joins that catch a part.
func (b *builder) caughtIn(w *work) string {
	var titles []string
	for _, p := range b.garment.View.Parts {
		for _, id := range p.Joins {
			if it := b.items[id]; p.ID == w.item.id && it != nil {
				titles = append(titles, lower(it.title))
			}
		}
	}
	if len(titles) == 0 {
		return "seam"
	}
	return list(titles)
}

func (b *builder) pieceTitle(name string) string {
	if p, ok := b.garment.Copy(name, piece.Left); ok && p.Title != "" {
		return lower(p.Title)
	}
	return strings.ReplaceAll(name, "-", " ")
}

// lower puts the first letter into lower case, for use within a sentence.
func lower(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToLower(string(r[:1])) + string(r[1:])
}

// list joins words with commas and "and".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
