package exchange

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/piece"
)

// stroke is one thing drawn in a format that knows no pieces: a run of the pen,
// a dot or a word, with the groups or layers it lies in.
type stroke struct {
	curve  geom.Curve // nil for a dot or a word
	dot    bool
	p      geom.Pt // of a dot or a word
	r      float64 // of a dot
	text   string
	id     string
	groups []string // outermost first
	place  finding.Place
}

// role is what a stroke is of its piece.
type role int

const (
	anyRole role = iota // told by its shape
	cutRole
	sewnRole
	lineRole
	notchRole
	markRole
	mirrorRole
	noRole // not part of the piece
)

// meaning is what the id and the groups of a stroke say of it.
type meaning struct {
	size, piece string
	role        role
	names       []string // edge; kind and name of a line or mark; edge and name of a notch
}

// The words by which layers and groups name a role.
var roleWords = map[string]role{
	"cut": cutRole, "cut line": cutRole, "cutting line": cutRole, "boundary": cutRole, "outline": cutRole,
	"sewn": sewnRole, "stitching line": sewnRole, "sewing line": sewnRole, "seam line": sewnRole, "sew line": sewnRole,
	"grain": lineRole, "grain line": lineRole, "grainline": lineRole, "inside lines": lineRole, "internal lines": lineRole,
	"notches": notchRole, "notch": notchRole, "drill holes": markRole, "marks": markRole,
	"fold of the cloth": mirrorRole, "mirror": mirrorRole,
	"signs and words": noRole, "labels": noRole, "test square and rules": noRole, "test squares and rules": noRole, "sheet joints": noRole,
}

// sizeWord and shortSize are how groups and layers name a size: size-12, size 12, S12.
var (
	sizeWord  = regexp.MustCompile(`^(?i:size)[ _:-]?\s*([^. ][^.]{0,30})$`)
	shortSize = regexp.MustCompile(`^S([0-9][A-Za-z0-9_-]{0,15})$`)
)

func sizeOf(group string) string {
	for _, form := range []*regexp.Regexp{sizeWord, shortSize} {
		if m := form.FindStringSubmatch(group); m != nil {
			return strings.TrimSpace(m[1])
		}
	}
	return ""
}

// meaningOf reads the groups from the outside in, and then the id.
func meaningOf(s stroke) meaning {
	var m meaning
	sizeGroup := ""
	for _, g := range s.groups {
		word := strings.ToLower(strings.TrimSpace(g))
		if size := sizeOf(g); size != "" && m.size == "" {
			m.size, sizeGroup = size, g
			continue
		}
		if r, ok := roleWords[word]; ok {
			m.role = r
			if strings.HasPrefix(word, "grain") {
				m.names = []string{string(piece.Grain), "grain"}
			}
			continue
		}
		m.piece = strings.TrimPrefix(g, sizeGroup+".")
	}
	rest, ok := strings.CutPrefix(s.id, sizeGroup+".")
	if sizeGroup == "" || !ok {
		m.byWord(s.id)
		return m
	}
	if m.piece != "" {
		rest = strings.TrimPrefix(rest, m.piece+".")
	}
	m.byID(strings.Split(rest, "."))
	return m
}

// byID reads what is left of an id after size and piece: that of WriteSVG, or of
// a pattern's drawing.
func (m *meaning) byID(id []string) {
	switch {
	case id[0] == "cut" && len(id) <= 2:
		m.role, m.names = cutRole, id[1:]
	case id[0] == "sewn" && len(id) <= 2:
		m.role, m.names = sewnRole, id[1:]
	case id[0] == "line" && len(id) == 3:
		m.role, m.names = lineRole, id[1:]
	case id[0] == "mark" && len(id) == 3:
		m.role, m.names = markRole, id[1:]
	case id[0] == "notch" && len(id) == 3:
		m.role, m.names = notchRole, id[1:]
	case id[0] == "mirror":
		m.role = mirrorRole
	case len(id) == 2 && slices.Contains(piece.LineKinds, piece.LineKind(id[0])):
		m.role, m.names = lineRole, id
	case len(id) == 2 && slices.Contains(piece.MarkKinds, piece.MarkKind(id[0])):
		m.role, m.names = markRole, id
	case len(id) == 1 && m.role == anyRole && m.piece == "":
		m.role, m.names = cutRole, id // an edge of a pattern's drawing
	}
}

// byWord takes a plain id that says what a stroke is, such as grain-2.
func (m *meaning) byWord(id string) {
	word := strings.ToLower(strings.TrimRight(id, "-_ 0123456789"))
	if r, ok := roleWords[strings.NewReplacer("-", " ", "_", " ").Replace(word)]; ok && m.role == anyRole {
		m.role = r
		if strings.HasPrefix(word, "grain") {
			m.names = []string{string(piece.Grain), "grain"}
		}
	}
}

// bundle is the strokes of one piece in one size.
type bundle struct {
	size, piece string
	strokes     []stroke
	meanings    []meaning
}

// assembler makes parts of strokes.
type assembler struct {
	file string
	out  finding.List
}

func (a *assembler) tell(k finding.Kind, at finding.Place, args ...any) {
	switch n := len(a.out); {
	case n < maxFaults:
		a.out = append(a.out, k.At(at, args...))
	case n == maxFaults:
		a.out = append(a.out, faults.At(at, maxFaults))
	}
}

// assemble sorts strokes into pieces and sizes by their groups, and within a
// group by which closed outline they lie in.
func assemble(file string, strokes []stroke) (Style, finding.List) {
	a := &assembler{file: file}
	var bundles []*bundle
	at := map[[2]string]int{}
	for _, s := range strokes {
		m := meaningOf(s)
		if m.role == noRole {
			continue
		}
		key := [2]string{m.size, m.piece}
		i, ok := at[key]
		if !ok {
			if len(bundles) >= maxParts {
				a.tell(tooMuch, s.place, maxParts, "groups")
				return Style{}, a.out
			}
			i = len(bundles)
			at[key] = i
			bundles = append(bundles, &bundle{size: m.size, piece: m.piece})
		}
		bundles[i].strokes = append(bundles[i].strokes, s)
		bundles[i].meanings = append(bundles[i].meanings, m)
	}
	var style Style
	first := map[string][]Part{} // unnamed pieces of the first size, by the group they came from
	for _, b := range bundles {
		if len(bundles) > 1 && b.size == "" && b.piece == "" {
			a.tell(outsideGroups, b.strokes[0].place, len(b.strokes))
			continue
		}
		parts := a.parts(*b)
		a.name(b.piece, parts, first)
		for _, p := range parts {
			style.Parts = append(style.Parts, p)
			if !slices.Contains(style.Sizes, p.Size) {
				style.Sizes = append(style.Sizes, p.Size)
			}
		}
	}
	if len(style.Parts) == 0 && a.out.Stops() == 0 {
		a.tell(noPieces, finding.Place{File: file})
	}
	return style, a.out
}

// name names the pieces of a bundle: by their group, their text, or by number
// from left to right. In further sizes a piece is called as the one of the first
// size whose middle is nearest.
func (a *assembler) name(group string, parts []Part, first map[string][]Part) {
	base := group
	if base == "" {
		base = "piece"
	}
	if len(parts) == 1 && group != "" {
		parts[0].Name = group
		return
	}
	was, later := first[group]
	if !later {
		slices.SortStableFunc(parts, func(p, q Part) int { return cmp.Compare(middle(p).X, middle(q).X) })
		seen := map[string]bool{}
		for i := range parts {
			name := slug(parts[i].Title)
			if parts[i].Title == "" || seen[name] {
				name = numbered(slug(base), i, max(2, len(parts)))
			}
			seen[name] = true
			parts[i].Name = name
		}
		first[group] = parts
		return
	}
	taken := map[string]bool{}
	for i := range parts {
		best, least := "", math.Inf(1)
		for _, p := range was {
			if d := middle(p).Dist(middle(parts[i])); d < least && !taken[p.Name] {
				best, least = p.Name, d
			}
		}
		if best == "" {
			best = fmt.Sprintf("%s-%d", slug(base), len(was)+i+1)
		}
		taken[best] = true
		parts[i].Name = best
	}
}

func middle(p Part) geom.Pt {
	lo, hi := boxOf(p.outline())
	return lo.Lerp(hi, 0.5)
}
