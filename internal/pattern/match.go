package pattern

import (
	"regexp"
	"slices"

	"gusset/internal/finding"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Match is a place on the stitching line of a join where the pieces it sews
// meet at the same point of the cloth's repeat, so that stripes and bars run on
// from one to the other. It says nothing on plain cloth.
type Match struct {
	Join string
	// Point is the name of a notch that both sides have, or Start, Middle or End
	// of the join as it is walked; empty when At says how far along the join.
	Point string
	At    unit.Length
	// Along and Across say which repeats meet: the one along the cloth (stripes
	// that run across the garment), the one across it, or both.
	Along, Across bool
	Place         finding.Place
}

// The places of a join that need no notch.
const (
	Start  = "start"
	Middle = "middle"
	End    = "end"
)

// RepeatWords are the words that say which repeats meet at a match.
var RepeatWords = []string{"both", "along", "across"}

// String names the place: "outseam at knee".
func (m Match) String() string {
	if m.Point == "" {
		return m.Join + " at " + m.At.String()
	}
	return m.Join + " at " + m.Point
}

// number begins what is written as a length and not as a name.
var number = regexp.MustCompile(`^\s*[+-]?[0-9½¼¾⅛⅜⅝⅞⅓⅔.]`)

// longestJoin bounds how far along a join a match may lie, mm.
const longestJoin = 20_000

// ReadMatches reads the list under match; unsound ones are left out.
func ReadMatches(m *source.Map, out *finding.List) []Match {
	var all []Match
	m.Each("match", func(_ int, n source.Node) {
		r := n.Reader(out)
		x := Match{Place: n.Place(), Join: r.Required().String("join")}
		at := r.Required().Key("at")
		sound := x.Join != "" && at.Exists()
		var none finding.List // a bare number is no text, and no length either
		if text, ok := at.Text(&none); ok && !number.MatchString(text) {
			x.Point = text
		} else if at.Exists() {
			x.At, ok = at.Length(out, "", 0, longestJoin)
			sound = sound && ok
		}
		repeats := r.WordOr("repeat", RepeatWords[0], RepeatWords...)
		x.Along, x.Across = repeats != "across", repeats != "along"
		r.Done()
		if sound {
			all = append(all, x)
		}
	})
	return all
}

// CheckMatch finds what a match names and the view does not have: its join, or
// a notch on each side of it.
func (p Pattern) CheckMatch(v View, m Match) finding.List {
	i := slices.IndexFunc(v.Joins, func(j Join) bool { return j.ID == m.Join })
	if i < 0 {
		ids := make([]string, len(v.Joins))
		for k, j := range v.Joins {
			ids[k] = j.ID
		}
		return finding.List{noJoin.At(m.Place, m.Join, meant(m.Join, ids))}
	}
	if slices.Contains([]string{"", Start, Middle, End}, m.Point) {
		return nil
	}
	var out finding.List
	for _, side := range v.Joins[i].Sides {
		if names := p.notchesOn(side); !slices.Contains(names, m.Point) {
			out = append(out, noPoint.At(m.Place, m.Join, m.Point, side[0].String(), meant(m.Point, append(names, Start, Middle, End))))
		}
	}
	return out
}

// notchesOn lists the notches on a side of a join.
func (p Pattern) notchesOn(side []piece.Ref) []string {
	var names []string
	for _, r := range side {
		g, ok := p.Pieces[r.Piece]
		if !ok || len(g.In) == 0 || r.Inside {
			continue
		}
		for _, mark := range g.In[0].Marks {
			if mark.Kind == piece.Notch && mark.Edge == r.Edge {
				names = append(names, mark.Name)
			}
		}
	}
	return names
}
