package pattern

import (
	"regexp"
	"slices"
	"strings"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/piece"
	"gusset/internal/source"
)

// Version is the newest version of pattern files that is read.
const Version = 1

// mostAllowance is the widest allowance a paper prints, in mm: a turn-up.
const mostAllowance = 300

// nameForm is the form of the names of pieces, views and items.
var nameForm = regexp.MustCompile(`^[a-z][a-z0-9-]{0,63}$`)

// fileForm is the form of a drawing's name: no folders, so that a name never
// leads out of the pattern's own.
var fileForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_-]{0,63}\.svg$`)

// Load reads a pattern: its YAML file and, through svg, the drawing of each
// piece by file name. Stitching lines are recovered from printed cutting
// lines. What is unsound is told and left out; with a Stop finding the pattern
// is not fit to be made from.
func Load(f source.File, svg func(name string) (source.File, error)) (Pattern, finding.List) {
	root, out := source.ParseYAML(f, "pattern", Version)
	p := Pattern{Name: folder(f.Path), Pieces: map[string]piece.Graded{}}
	if !root.Exists() {
		return p, out
	}
	l := &loader{p: &p, m: root.Reader(&out), out: &out, svg: svg}
	p.Place = l.m.Place()
	p.Title = l.m.StringOr("title", p.Name)
	l.sizes()
	l.charts()
	l.zones()
	l.pieces()
	l.views()
	l.m.Done()
	return p, out
}

// folder is the name of the folder that a path's file lies in.
func folder(path string) string {
	parts := strings.Split(path, "/")
	if len(parts) < 2 {
		return strings.TrimSuffix(parts[0], ".yaml")
	}
	return parts[len(parts)-2]
}

// loader reads one pattern.
type loader struct {
	p   *Pattern
	m   *source.Map
	out *finding.List
	svg func(string) (source.File, error)
	// broken names the pieces that could not be read: what refers to them is
	// left out without a word, since the root is told.
	broken []string
}

func (l *loader) tell(k finding.Kind, at finding.Place, args ...any) {
	*l.out = append(*l.out, k.At(at, args...))
}

// sizes reads the list of sizes; none when it is unsound, so that what leans on
// it is passed over without a word.
func (l *loader) sizes() {
	l.p.Sizes = l.m.Required().Labels("sizes")
	n := l.m.Key("sizes")
	if !n.IsList() || len(n.Items(&finding.List{})) != len(l.p.Sizes) { // told already
		l.p.Sizes = nil
		return
	}
	if len(l.p.Sizes) == 0 {
		l.tell(fewSizes, n.Place())
	}
	for i, s := range l.p.Sizes {
		if slices.Contains(l.p.Sizes[:i], s) {
			l.tell(sizeTwice, n.Place(), s)
			l.p.Sizes = nil
			return
		}
	}
}

// measures lists the names of body measures in order.
func measures() []string {
	var names []string
	for m := range body.Ranges {
		names = append(names, string(m))
	}
	slices.Sort(names)
	return names
}

func (l *loader) zones() {
	l.m.Each("zones", func(_ int, n source.Node) {
		m := n.Reader(l.out)
		z := Zone{Name: l.name(m.Required().Key("zone")), Place: m.Place()}
		if m.Has("measure") {
			z.Measure = body.Measure(m.Word("measure", measures()...))
		}
		m.Done()
		switch {
		case z.Name == "":
		case slices.Contains(l.zoneNames(), z.Name):
			l.tell(zoneTwice, z.Place, z.Name)
		default:
			l.p.Zones = append(l.p.Zones, z)
		}
	})
}

func (l *loader) zoneNames() []string {
	var names []string
	for _, z := range l.p.Zones {
		names = append(names, z.Name)
	}
	return names
}

// meant says what was probably meant.
func meant(word string, among []string) string {
	if near := source.Nearest(word, among); near != "" {
		return "did you mean " + near + "?"
	}
	if len(among) == 0 {
		return "there is none to choose from"
	}
	return "choose from " + strings.Join(among, ", ")
}

// name reads the name of a piece, zone, view or item; "" when it is none.
func (l *loader) name(n source.Node) string {
	s, ok := n.Text(l.out)
	if !ok {
		return ""
	}
	if !nameForm.MatchString(s) {
		l.tell(badName, n.Place(), s)
		return ""
	}
	return s
}

// printed says what a printed edge is: how far the print runs outside the
// stitching line.
type printed struct {
	allowance float64
	fold      bool
	place     finding.Place
}

func (l *loader) printed(m *source.Map) printed {
	switch m.Required().Word("line", "cutting", "stitching", "fold") {
	case "cutting":
		return printed{allowance: m.Required().Length("allowance", "", 0, mostAllowance).MM(), place: m.Place()}
	case "fold":
		return printed{fold: true, place: m.Place()}
	}
	return printed{place: m.Place()}
}

// pieces reads every piece with its drawing.
func (l *loader) pieces() {
	all := l.m.Required().Map("printed")
	usual := l.printed(all)
	all.Done()
	for _, e := range l.m.Required().Entries("pieces") {
		if !nameForm.MatchString(e.Key) {
			l.tell(badName, e.Value.Place(), e.Key)
			continue
		}
		m := e.Value.Reader(l.out)
		d := drawing{loader: l, name: e.Key, title: m.StringOr("title", e.Key), place: m.Place(), usual: usual, edges: map[string]printed{}}
		d.file = m.StringOr("file", e.Key+".svg")
		if !fileForm.MatchString(d.file) {
			l.tell(fileName, m.Key("file").Place(), d.file)
			l.broken = append(l.broken, e.Key)
			continue
		}
		if m.Has("edges") {
			for _, x := range m.Entries("edges") {
				em := x.Value.Reader(l.out)
				d.edges[x.Key] = l.printed(em)
				em.Done()
			}
		}
		m.Done()
		if g, ok := d.read(); ok {
			l.p.Pieces[e.Key] = g
			l.p.Order = append(l.p.Order, e.Key)
		} else {
			l.broken = append(l.broken, e.Key)
		}
	}
}
