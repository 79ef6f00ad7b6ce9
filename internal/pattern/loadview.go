package pattern

import (
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

func (l *loader) views() {
	for _, e := range l.m.Required().Entries("views") {
		if !nameForm.MatchString(e.Key) {
			l.tell(badName, e.Value.Place(), e.Key)
			continue
		}
		v := &viewLoader{loader: l, m: e.Value.Reader(l.out), v: View{Name: e.Key, Place: e.Value.Place()}}
		v.v.Title = v.m.StringOr("title", e.Key)
		v.uses()
		v.joins()
		v.finishes()
		v.closures()
		v.parts()
		v.fittings()
		v.girths()
		v.matches()
		v.v.Printed = v.printed()
		v.m.Done()
		v.checkNames()
		v.checkRings()
		l.p.Views = append(l.p.Views, v.v)
	}
}

// viewLoader reads one view.
type viewLoader struct {
	*loader
	m   *source.Map
	v   View
	ids []string // of all joins, unsound ones too
	// unsure is set when the list of pieces has a fault: a piece that it lacks
	// may be the one that was meant there.
	unsure bool
}

// mostPieces is the most copies of one piece that a garment needs.
const mostPieces = 100

func (v *viewLoader) uses() {
	v.m.Required().Each("pieces", func(_ int, n source.Node) {
		m := n.Reader(v.out)
		u := Use{Piece: v.name(m.Required().Key("piece")), Place: m.Place()}
		u.Copies = Copies(m.Required().Word("copies", string(Pair), string(Single), string(OnFold)))
		u.Number = m.IntOr("number", 1, mostPieces, 1)
		u.FoldEdge = m.String("fold-edge")
		u.Folded = m.Yes("folded")
		u.Hidden = m.Yes("hidden")
		for _, c := range m.Required().Words("cloth", clothWords()...) {
			u.Cloths = append(u.Cloths, cloth.Role(c))
		}
		m.Done()
		g, ok := v.p.Pieces[u.Piece]
		if !ok {
			v.missing(m.Key("piece").Place(), u.Piece)
			v.unsure = true
			return
		}
		if _, twice := v.use(u.Piece); twice {
			v.tell(pieceTwice, u.Place, v.v.Name, u.Piece)
			v.unsure = true
			return
		}
		if u.Copies == OnFold && g.In[0].Index(u.FoldEdge) < 0 {
			v.tell(noFoldEdge, u.Place, u.Piece, u.FoldEdge)
		}
		v.v.Uses = append(v.v.Uses, u)
	})
}

// missing tells that a piece is not there, unless its own fault has been told.
func (v *viewLoader) missing(at finding.Place, name string) {
	if name != "" && !slices.Contains(v.broken, name) {
		v.tell(noPiece, at, name, meant(name, v.p.Order))
	}
}

func clothWords() []string {
	words := make([]string, len(cloth.Roles))
	for i, r := range cloth.Roles {
		words[i] = string(r)
	}
	return words
}

func (v *viewLoader) use(name string) (Use, bool) {
	return Garment{View: v.v}.Use(name)
}

// ref reads one reference and checks that it names something on the pieces of
// this view.
func (v *viewLoader) ref(n source.Node) (piece.Ref, bool) {
	text, ok := n.Text(v.out)
	if !ok {
		return piece.Ref{}, false
	}
	r, err := piece.ParseRef(text)
	if err != nil {
		v.tell(badRef, n.Place(), err.Error())
		return r, false
	}
	return r, v.checkRef(r, n.Place())
}

func (v *viewLoader) checkRef(r piece.Ref, at finding.Place) bool {
	g, ok := v.p.Pieces[r.Piece]
	if !ok {
		v.missing(at, r.Piece)
		return false
	}
	if _, used := v.use(r.Piece); !used {
		if !v.unsure {
			v.tell(unused, at, v.v.Name, r.Piece)
		}
		return false
	}
	p := g.In[0]
	if r.Inside {
		if _, ok := p.LineNamed(r.Edge); !ok {
			v.tell(badRef, at, r.Piece+" has no line inside called "+r.Edge)
			return false
		}
		return true
	}
	if p.Index(r.Edge) < 0 {
		v.tell(badRef, at, r.Piece+" has no edge called "+r.Edge+hint(r.Edge, p.EdgeNames()))
		return false
	}
	for _, point := range []string{r.From, r.To} {
		if point == "" {
			continue
		}
		if _, err := p.Corner(r.Edge, point); err != nil {
			v.tell(badRef, at, err.Error())
			return false
		}
	}
	return true
}

func hint(word string, among []string) string {
	if near := source.Nearest(word, among); near != "" {
		return ": did you mean " + near + "?"
	}
	return ""
}

// refs reads a list of references; ok only when all are sound.
func (v *viewLoader) refs(nodes []source.Node) ([]piece.Ref, bool) {
	var out []piece.Ref
	all := true
	for _, n := range nodes {
		r, ok := v.ref(n)
		all = all && ok
		if ok {
			out = append(out, r)
		}
	}
	return out, all
}

// lengths reads a mapping of names to lengths.
func (v *viewLoader) lengths(m *source.Map, key string) map[string]unit.Length {
	out := map[string]unit.Length{}
	if !m.Has(key) {
		return out
	}
	for _, e := range m.Entries(key) {
		if x, ok := e.Value.Length(v.out, "", -100, 500); ok {
			out[e.Key] = x
		}
	}
	return out
}

func (v *viewLoader) joins() {
	for _, e := range v.m.Entries("joins") {
		v.ids = append(v.ids, e.Key)
		m := e.Value.Reader(v.out)
		j := Join{ID: e.Key, Place: e.Value.Place(), Title: m.StringOr("title", strings.ReplaceAll(e.Key, "-", " "))}
		sound := true
		for _, side := range m.Required().Items("sew") {
			nodes := []source.Node{side}
			if side.IsList() {
				nodes = side.Items(v.out)
			}
			refs, ok := v.refs(nodes)
			sound = sound && ok
			j.Sides = append(j.Sides, refs)
		}
		j.Ease = m.Lengths("ease", unit.Millimetre, -300, 300)
		j.Method = m.Required().String("method")
		j.Values = v.lengths(m, "values")
		j.Notches = m.Strings("notches")
		j.EaseBetween = m.Strings("ease-between")
		intake, ok := v.refs(m.Items("intake"))
		j.Intake, sound = intake, sound && ok
		m.Done()
		if !sound {
			continue
		}
		if len(j.Sides) < 2 {
			v.tell(fewSides, j.Place, j.ID, len(j.Sides))
			continue
		}
		v.checkJoin(&j)
		v.v.Joins = append(v.v.Joins, j)
	}
}

func (v *viewLoader) finishes() {
	for _, e := range v.m.Entries("finishes") {
		m := e.Value.Reader(v.out)
		f := Finish{ID: e.Key, Place: e.Value.Place(), Title: m.StringOr("title", strings.ReplaceAll(e.Key, "-", " "))}
		f.Edges, _ = v.refs(m.Required().Items("edges"))
		f.Method = m.Required().String("method")
		f.Values = v.lengths(m, "values")
		m.Done()
		v.v.Finishes = append(v.v.Finishes, f)
	}
}

func (v *viewLoader) closures() {
	for _, e := range v.m.Entries("closures") {
		m := e.Value.Reader(v.out)
		c := Closure{ID: e.Key, Place: e.Value.Place(), Title: m.StringOr("title", strings.ReplaceAll(e.Key, "-", " "))}
		c.Method = m.Required().String("method")
		c.Joins = v.known(m, "joins", v.v.Finishes...)
		c.Along, _ = v.refs(m.Items("along"))
		c.Values = v.lengths(m, "values")
		m.Done()
		v.v.Closures = append(v.v.Closures, c)
	}
}

func (v *viewLoader) parts() {
	for _, e := range v.m.Entries("parts") {
		m := e.Value.Reader(v.out)
		p := Part{ID: e.Key, Place: e.Value.Place(), Title: m.StringOr("title", strings.ReplaceAll(e.Key, "-", " "))}
		p.Method = m.Required().String("method")
		p.Piece = m.Required().String("piece")
		p.Count = m.IntOr("count", 1, mostPieces, 1)
		p.Along, _ = v.refs(m.Items("along"))
		p.Joins = v.known(m, "joins")
		p.Values = v.lengths(m, "values")
		m.Done()
		if _, ok := v.use(p.Piece); !ok && p.Piece != "" && !v.unsure && !slices.Contains(v.broken, p.Piece) {
			v.tell(unused, p.Place, v.v.Name, p.Piece)
		}
		v.v.Parts = append(v.v.Parts, p)
	}
}

func (v *viewLoader) fittings() {
	for _, e := range v.m.Entries("fittings") {
		m := e.Value.Reader(v.out)
		f := Fitting{ID: e.Key, Place: e.Value.Place(), Title: m.StringOr("title", strings.ReplaceAll(e.Key, "-", " "))}
		f.Method = m.Required().String("method")
		f.Joins = v.known(m, "joins")
		m.Done()
		v.v.Fittings = append(v.v.Fittings, f)
	}
}

// known reads a list of ids of joins, and of the finishes that may stand beside
// them.
func (v *viewLoader) known(m *source.Map, key string, also ...Finish) []string {
	ids := slices.Clone(v.ids)
	for _, f := range also {
		ids = append(ids, f.ID)
	}
	out := m.Strings(key)
	for _, id := range out {
		if !slices.Contains(ids, id) {
			v.tell(noItem, m.Key(key).Place(), id, meant(id, ids))
		}
	}
	return out
}

// printed reads the printed order of work. Which operations an item has is for
// its method to say, so only the items are looked up.
func (v *viewLoader) printed() []Step {
	ids := slices.Clone(v.ids)
	for _, f := range v.v.Finishes {
		ids = append(ids, f.ID)
	}
	for _, c := range v.v.Closures {
		ids = append(ids, c.ID)
	}
	for _, p := range v.v.Parts {
		ids = append(ids, p.ID)
	}
	var out []Step
	v.m.Each("printed-order", func(_ int, n source.Node) {
		text, ok := n.Text(v.out)
		if !ok {
			return
		}
		s, err := ParseStep(text)
		switch {
		case err != nil:
			v.tell(badStep, n.Place(), err.Error())
			return
		case !slices.Contains(ids, s.Item):
			v.tell(noItem, n.Place(), s.Item, meant(s.Item, ids))
			return
		}
		s.Place = n.Place()
		out = append(out, s)
	})
	return out
}

func (v *viewLoader) girths() {
	zones := v.zoneNames()
	for _, e := range v.m.Entries("girths") {
		m := e.Value.Reader(v.out)
		g := Girth{Zone: e.Key, Place: e.Value.Place()}
		if !slices.Contains(zones, e.Key) {
			v.tell(noZone, g.Place, e.Key, meant(e.Key, zones))
		}
		g.Pieces, _ = v.refs(m.Items("pieces"))
		g.Edges, _ = v.refs(m.Items("edges"))
		g.Less = m.LengthOr("less", "", 0, 500, unit.MM(0))
		m.Done()
		v.v.Girths = append(v.v.Girths, g)
	}
}

// matches reads where stripes meet. What a match of an unsound join names is
// not looked for.
func (v *viewLoader) matches() {
	for _, m := range ReadMatches(v.m, v.out) {
		sound := slices.ContainsFunc(v.v.Joins, func(j Join) bool { return j.ID == m.Join })
		if !sound && slices.Contains(v.ids, m.Join) {
			continue
		}
		if found := v.p.CheckMatch(v.v, m); len(found) > 0 {
			*v.out = append(*v.out, found...)
			continue
		}
		v.v.Matches = append(v.v.Matches, m)
	}
}
