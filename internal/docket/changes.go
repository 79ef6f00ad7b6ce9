package docket

import (
	"regexp"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

var (
	noChange = finding.Kind{
		Code: "docket.no-change", Severity: finding.Stop,
		Text: "this step says no change",
		Mend: "write one of " + strings.Join(changeWords(), ", "),
	}
	twoChanges = finding.Kind{
		Code: "docket.two-changes", Severity: finding.Stop,
		Text: "this step says %[1]s and %[2]s",
		Mend: "make a step of each",
	}
	idTwice = finding.Kind{
		Code: "docket.id-twice", Severity: finding.Stop,
		Text: "two steps are called %[1]s",
		Mend: "give each step a name of its own",
	}
	noEffect = finding.Kind{
		Code: "docket.no-effect", Severity: finding.Warn,
		Text: "step %[1]s changes nothing: %[2]s",
		Mend: "give the change, or take the step out",
	}
	badEdge = finding.Kind{
		Code: "docket.bad-edge", Severity: finding.Stop,
		Text: "%[1]q is not an edge of a piece",
		Mend: "write piece:edge in quotes, such as \"back-pocket:top\"",
	}
)

// Bounds of changes, in mm: more is a slip of the unit.
const (
	mostLonger = 600
	leastHem   = 100
	mostHem    = 6000
	mostValue  = 500
	mostPiece  = 3000
	mostSeam   = 80
	mostPleat  = 300
	usualReach = 40 // a hand's breadth of edge, drawn with one curve
	usualSeam  = 15 // common practice for multi-size paper
	leastShare = 0.1
	mostShare  = 0.9
)

// pressedOpen is the seam of a divided piece unless another is asked for: it
// lies flattest (common practice).
const pressedOpen = "plain-open"

// The mouth of a slant pocket: how it is made unless another method is asked for,
// and the least that it runs in and down, in mm.
const (
	usualMouth = "mouth-topstitched"
	leastMouth = 30
)

// How gathers and pleats are made unless another method is asked for.
const (
	usualGathers = "gathers"
	usualPleat   = "pleat"
)

// step reads the fields of one kind of change.
type step func(r reader, m *source.Map, c *Change)

var steps = map[ChangeKind]step{
	Lengthen: func(_ reader, m *source.Map, c *Change) {
		c.At = m.Required().String("at")
		c.By = m.Required().Length("by", "", -mostLonger, mostLonger)
	},
	HemGirth: func(_ reader, m *source.Map, c *Change) {
		c.Edge = m.StringOr("edge", "hem")
		c.To = m.Required().Length("to", "", leastHem, mostHem)
		c.From = m.Required().String("from")
	},
	MoveHem: func(_ reader, m *source.Map, c *Change) {
		c.Edge = m.StringOr("edge", "hem")
		c.By = m.Required().Length("by", "", -mostLonger, mostLonger)
	},
	SetFinish: func(r reader, m *source.Map, c *Change) {
		c.Item = m.Required().String("item")
		if m.Has("method") {
			c.Method = nameOf(m.Key("method"), r.out)
		}
		if m.Has("values") {
			c.Values = values(m.Key("values"), r.out)
		}
	},
	CopyEdge: func(r reader, m *source.Map, c *Change) {
		c.Edge = r.edge(m.Required().Key("edge"))
		c.From = r.edge(m.Required().Key("from"))
	},
	PivotDart: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("dart"), r.out)
		c.Spot = r.spot(m, "to")
	},
	MoveDart: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("dart"), r.out)
		c.By = m.Required().Length("by", "", -mostPiece, mostPiece)
		c.Edge = nameOf(m.Required().Key("towards"), r.out)
	},
	DartLength: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("dart"), r.out)
		c.By = m.Required().Length("by", "", -mostLonger, mostLonger)
	},
	DivideDart: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("dart"), r.out)
		c.Spot = r.spot(m, "to")
		c.Share = m.PercentOr("share", leastShare, mostShare, 0.5)
	},
	MergeDarts: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("keep"), r.out)
		c.Other = nameOf(m.Required().Key("close"), r.out)
	},
	GatherDart: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("dart"), r.out)
		c.Method = nameOr(m, "method", usualGathers, r.out)
	},
	Spread: func(r reader, m *source.Map, c *Change) {
		c.Spot, c.Hinge = r.spot(m, "open"), r.spot(m, "hinge")
		c.By = m.Required().Length("by", "", -mostLonger, mostLonger)
		c.Even = m.Yes("even")
		c.Gather = m.Yes("gather")
	},
	AddPleat: func(r reader, m *source.Map, c *Change) {
		c.Spot, c.Hinge = r.spot(m, "from"), r.spot(m, "to")
		c.By = m.Required().Length("depth", "", 1, mostPleat)
		c.Where = m.Length("stitched", "", 0, mostPiece)
		c.Method = nameOr(m, "method", usualPleat, r.out)
	},
	SetAllowance: func(r reader, m *source.Map, c *Change) {
		c.Edge = r.edge(m.Required().Key("edge"))
		c.To = m.Required().Length("to", "", 0, mostSeam)
	},
	FoldToSeam: func(r reader, m *source.Map, c *Change) {
		c.Piece = nameOf(m.Required().Key("piece"), r.out)
		c.To = m.LengthOr("allowance", "", 1, mostSeam, unit.MM(usualSeam))
		c.Method = nameOr(m, "method", pressedOpen, r.out)
	},
	SeamToFold: func(r reader, m *source.Map, c *Change) {
		c.Piece = nameOf(m.Required().Key("piece"), r.out)
	},
	JoinPieces: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("seam"), r.out)
	},
	Settle: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("seam"), r.out)
		c.How = How(m.Required().Word("how", howWords()...))
	},
	RunOn: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("across"), r.out)
		c.By = m.LengthOr("reach", "", 5, mostPiece, unit.MM(usualReach))
	},
	SmoothEdge: func(r reader, m *source.Map, c *Change) {
		c.Edge = r.edge(m.Required().Key("edge"))
	},
	SlantPocket: func(r reader, m *source.Map, c *Change) {
		c.Edge = r.edge(m.Required().Key("side"))
		c.Where = m.Required().Length("in", "", leastMouth, mostPiece)
		c.By = m.Required().Length("down", "", leastMouth, mostPiece)
		c.Wide = m.Required().Length("wide", "", leastPocket, mostPiece)
		c.Deep = m.Required().Length("deep", "", leastPocket, mostPiece)
		c.Cloth = cloth.Role(m.WordOr("bag", string(cloth.Pocketing), cutWords()...))
		c.Other = nameOr(m, "instead-of", "", r.out)
		c.Method = nameOr(m, "method", usualMouth, r.out)
	},
	CutFrom: func(r reader, m *source.Map, c *Change) {
		c.Piece = nameOf(m.Required().Key("piece"), r.out)
		c.Cloth = cloth.Role(m.Required().Word("cloth", cutWords()...))
	},
	TakeIn: func(r reader, m *source.Map, c *Change) {
		seamBy(r, m, c)
		c.From = m.StringOr("from", "")
		c.Upto = m.StringOr("to", "")
	},
	CrotchDepth: func(_ reader, m *source.Map, c *Change) {
		c.At = m.StringOr("at", "hip")
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
	},
	CrotchLength: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("seam"), r.out)
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
		c.From = m.StringOr("to", "knee")
	},
	FullSeat:   seamBy,
	HollowBack: seamBy,
	RaiseEdge: func(_ reader, m *source.Map, c *Change) {
		c.Edge = m.Required().String("edge")
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
	},
	Straighten: func(_ reader, m *source.Map, c *Change) {
		c.Edge = m.StringOr("edge", "hem")
		c.From = m.Required().String("from")
		if m.Has("to") {
			c.To = m.Length("to", "", leastHem, mostHem)
		}
	},
	Divide: func(r reader, m *source.Map, c *Change) {
		c.Piece = nameOf(m.Required().Key("piece"), r.out)
		c.Where = m.Required().Length("at", "", 1, mostPiece)
		c.Method = pressedOpen
		if m.Has("method") {
			c.Method = nameOf(m.Key("method"), r.out)
		}
	},
}

func howWords() []string {
	words := make([]string, len(Hows))
	for i, h := range Hows {
		words[i] = string(h)
	}
	return words
}

// nameOr reads a name that may be left out.
func nameOr(m *source.Map, key, missing string, out *finding.List) string {
	if !m.Has(key) {
		return missing
	}
	return nameOf(m.Key(key), out)
}

// spot reads a place on an edge: its "at" is the name of a notch, a corner or a
// level, "middle", or a distance.
func (r reader) spot(m *source.Map, key string) Spot {
	f := m.Required().Map(key)
	s := Spot{Edge: r.edge(f.Required().Key("edge"))}
	at := f.Required().Key("at")
	var none finding.List // a bare number is no text, and no length either
	if text, ok := at.Text(&none); ok && !aNumber.MatchString(text) {
		s.At = text
	} else if at.Exists() {
		s.Along, _ = at.Length(r.out, "", 0, mostPiece)
	}
	if f.Has("from") {
		s.From = nameOf(f.Key("from"), r.out)
	}
	f.Done()
	return s
}

// aNumber begins what is written as a length and not as a name.
var aNumber = regexp.MustCompile(`^\s*[+-]?[0-9½¼¾⅛⅜⅝⅞⅓⅔.]`)

// seamBy reads a seam, an amount, and the level at which it applies.
func seamBy(r reader, m *source.Map, c *Change) {
	c.Item = nameOf(m.Required().Key("seam"), r.out)
	c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
	c.At = m.Required().String("at")
}

// changes reads the recipe in order.
func (r reader) changes() []Change {
	if !r.m.Has("changes") {
		return nil
	}
	var list []Change
	first := map[string]finding.Place{}
	for _, n := range r.m.Items("changes") {
		before := len(*r.out)
		c, ok := r.change(n)
		if p, twice := first[c.ID]; twice && c.ID != "" {
			*r.out = append(*r.out, idTwice.At(c.Place, c.ID).Note(p, "the first is here"))
		}
		first[c.ID] = c.Place
		if ok && len(*r.out) == before {
			list = append(list, c)
			r.effect(c)
		}
	}
	return list
}

func (r reader) change(n source.Node) (Change, bool) {
	m := n.Reader(r.out)
	c := Change{Place: m.Place()}
	if !n.IsMapping() {
		return c, false
	}
	c.ID = nameOf(m.Required().Key("id"), r.out)
	c.Place = c.Place.InStep(c.ID)
	for _, k := range ChangeKinds {
		switch {
		case !m.Has(string(k)):
		case c.Kind != "":
			*r.out = append(*r.out, twoChanges.At(m.Key(string(k)).Place(), c.Kind, k))
		default:
			c.Kind = k
			fields := m.Map(string(k))
			read := steps[k]
			if read == nil {
				read = topSteps[k]
			}
			read(r, fields, &c)
			fields.Done()
		}
	}
	unknown := len(*r.out)
	m.Done()
	if c.Kind == "" && len(*r.out) == unknown {
		*r.out = append(*r.out, noChange.At(c.Place))
	}
	return c, c.Kind != ""
}

// effect warns of a change that does nothing.
func (r reader) effect(c Change) {
	why := ""
	switch {
	case (c.Kind == Lengthen || c.Kind == MoveHem) && c.By.IsZero():
		why = "it is by nothing"
	case c.Kind == SetFinish && c.Method == "" && len(c.Values) == 0:
		why = "it names neither a method nor values"
	case c.Kind == CopyEdge && c.Edge == c.From:
		why = "the edge is copied from itself"
	default:
		return
	}
	*r.out = append(*r.out, noEffect.At(c.Place, c.ID, why))
}

// edge reads "piece:edge".
func (r reader) edge(n source.Node) string {
	s, ok := n.Text(r.out)
	if !ok {
		return ""
	}
	p, e, cut := strings.Cut(s, ":")
	if !cut || !nameForm.MatchString(p) || !nameForm.MatchString(e) {
		*r.out = append(*r.out, badEdge.At(n.Place(), s))
		return ""
	}
	return s
}

func values(n source.Node, out *finding.List) map[string]unit.Length {
	list := map[string]unit.Length{}
	for _, e := range n.Entries(out) {
		if l, ok := e.Value.Length(out, "", -mostValue, mostValue); ok {
			list[e.Key] = l
		}
	}
	return list
}

// CutRoles are the roles a piece can be cut from by itself: interfacing goes
// with another cloth.
func CutRoles() []cloth.Role {
	return slices.DeleteFunc(slices.Clone(cloth.Roles), func(r cloth.Role) bool { return r == cloth.Interfacing })
}

func cutWords() []string {
	var words []string
	for _, r := range CutRoles() {
		words = append(words, string(r))
	}
	return words
}

func changeWords() []string {
	words := make([]string, len(ChangeKinds))
	for i, k := range ChangeKinds {
		words[i] = string(k)
	}
	return words
}
