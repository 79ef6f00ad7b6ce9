package lay

import (
	"regexp"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Bounds of what a lay file may say.
const (
	mostSections = 100
	mostTilt     = 45 // degrees; on the bias
)

// nameForm is the form of the names of dockets and cloths, pieceForm that of the
// names of cut pieces.
var (
	nameForm  = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,63}$`)
	pieceForm = regexp.MustCompile(`^[a-z0-9][a-z0-9-]*(@[a-z]+)?(#[0-9]{1,4})?$`)
)

// Load reads a lay file. What is unsound is left out and told in the findings;
// whether the pieces are those of a garment, and lie well, is for those who have
// them.
func Load(f source.File) (File, finding.List) {
	root, out := source.ParseYAML(f, "lay", Version)
	v := File{Name: f.Name()}
	if !root.Exists() {
		return v, out
	}
	m := root.Reader(&out)
	v.Place = m.Place()
	v.Title = m.StringOr("title", v.Name)
	v.Docket = formed(m.Required().Key("docket"), nameForm, &out)
	v.Cloth = formed(m.Required().Key("cloth"), nameForm, &out)
	v.Role = cloth.Role(m.Required().Word("for", roleWords()...))
	v.Digest = m.String("digest")
	r := fileReader{m, &out}
	v.Sections = r.sections()
	v.Pieces = r.pieces(len(v.Sections))
	m.Done()
	return v, out
}

func roleWords() []string {
	words := make([]string, len(cloth.Roles))
	for i, r := range cloth.Roles {
		words[i] = string(r)
	}
	return words
}

func foldsRead() []string {
	words := make([]string, len(Folds))
	for i, f := range Folds {
		words[i] = string(f)
	}
	return words
}

// formed reads a name of some form; "" when it has another.
func formed(n source.Node, form *regexp.Regexp, out *finding.List) string {
	s, ok := n.Text(out)
	if ok && !form.MatchString(s) {
		*out = append(*out, badName.At(n.Place(), s))
		return ""
	}
	return s
}

// fileReader reads the parts of one file.
type fileReader struct {
	m   *source.Map
	out *finding.List
}

func (r fileReader) sections() []FileSection {
	var list []FileSection
	r.m.Required().Each("sections", func(_ int, n source.Node) {
		m := n.Reader(r.out)
		s := FileSection{Place: m.Place(), Fold: Fold(m.Required().Word("fold", foldsRead()...))}
		s.From, s.HasFrom = along(m, "from")
		s.To, s.HasTo = along(m, "to")
		if s.HasDepth = m.Has("depth"); s.HasDepth {
			s.Depth = m.Length("depth", "", 0, 10_000)
		}
		if s.HasDepth && s.Fold != Along && s.Fold != "" {
			*r.out = append(*r.out, noDepth.At(m.Key("depth").Place(), string(s.Fold)))
		}
		m.Done()
		list = append(list, s)
	})
	if n := r.m.Key("sections"); n.Exists() && n.IsList() && (len(list) == 0 || len(list) > mostSections) {
		*r.out = append(*r.out, badSections.At(n.Place(), len(list), mostSections))
		return nil
	}
	return list
}

func along(m *source.Map, key string) (unit.Length, bool) {
	if !m.Has(key) {
		return unit.Length{}, false
	}
	return m.Length(key, "", 0, unit.LongestMM), true
}

func (r fileReader) pieces(sections int) []FilePiece {
	var list []FilePiece
	first := map[string]finding.Place{}
	r.m.Required().Each("pieces", func(_ int, n source.Node) {
		before := len(*r.out)
		p := r.piece(n.Reader(r.out), sections)
		if at, twice := first[p.ID]; twice && p.ID != "" {
			*r.out = append(*r.out, writtenTwice.At(p.Place, p.ID).Note(at, "first written here"))
		}
		if len(*r.out) == before {
			first[p.ID] = p.Place
			list = append(list, p)
		}
	})
	return list
}

func (r fileReader) piece(m *source.Map, sections int) FilePiece {
	p := FilePiece{Place: m.Place(), ID: formed(m.Required().Key("piece"), pieceForm, r.out)}
	p.Section = m.IntOr("section", 1, mostSections, 1) - 1
	if p.Section >= sections && sections > 0 {
		*r.out = append(*r.out, noSection.At(m.Key("section").Place(), p.Section+1, sections))
	}
	lengthwise, across := m.Has("along"), m.Has("across")
	p.Along = m.Length("along", "", 0, unit.LongestMM)
	p.Across = m.Length("across", "", 0, 10_000)
	p.Turned, p.FaceDown = m.Yes("turned"), m.Yes("face-down")
	p.Tilt = m.Float("tilt", -mostTilt, mostTilt)
	p.Plies = m.Int("plies", 1, 2)
	p.Pinned = m.Yes("pinned")
	m.Done()
	switch p.Placed = lengthwise && across; {
	case lengthwise != across:
		*r.out = append(*r.out, halfPlace.At(p.Place, p.ID))
	case p.Pinned && !p.Placed:
		*r.out = append(*r.out, pinnedNowhere.At(p.Place, p.ID))
	}
	return p
}
