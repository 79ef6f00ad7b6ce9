package lay

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"gusset/internal/unit"
)

// ToFile writes down a lay so that it can be edited and given back: nothing is
// pinned but what was pinned in it.
func (l Lay) ToFile(docket string, u unit.Unit) File {
	f := File{Docket: docket, Cloth: l.Cloth.Name, Role: l.Role, Title: l.Cloth.Title + ", for " + docket}
	half := micron(l.Cloth.UsableWidth()) / 2
	at := func(x float64) unit.Length { return unit.MM(float64(micron(x)-micron(Squaring)) / 1000).In(u) }
	for _, s := range l.Sections {
		fs := FileSection{Fold: s.Fold, From: at(s.From), To: at(s.To), HasFrom: true, HasTo: true}
		if fs.HasDepth = s.Fold == Along && micron(s.Depth) != half; fs.HasDepth {
			fs.Depth = unit.MM(s.Depth).In(u)
		}
		f.Sections = append(f.Sections, fs)
	}
	for _, p := range l.Placed {
		f.Pieces = append(f.Pieces, l.filed(p, u))
	}
	for _, id := range l.Unplaced {
		f.Pieces = append(f.Pieces, FilePiece{ID: id})
	}
	return f
}

// filed is one piece of it.
func (l Lay) filed(p Placed, u unit.Unit) FilePiece {
	s := l.Sections[p.Section]
	at := p.atHeld()
	out := FilePiece{
		ID: p.Cut.ID, Section: p.Section, Placed: true, FaceDown: p.Flip, Pinned: p.Pinned,
		Along:  unit.MM(float64(at.X-micron(Squaring)) / 1000).In(u),
		Across: unit.MM(float64(at.Y+border(l.Cloth, s)) / 1000).In(u),
		Turned: p.Degrees > 0, Tilt: tidyDegrees(p.Degrees + 90),
	}
	if out.Turned {
		out.Tilt = tidyDegrees(p.Degrees - 90)
	}
	if p.Layers != s.Layers() {
		out.Plies = p.Layers
	}
	return out
}

// YAML is the file's text. Lengths are exact to the micrometre.
func (f File) YAML() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "gusset: lay/%d\ntitle: %s\ndocket: %s\ncloth: %s\nfor: %s\n", Version, quoted(f.Title), quoted(f.Docket), quoted(f.Cloth), f.Role)
	if f.Digest != "" {
		fmt.Fprintf(&b, "digest: %s\n", quoted(f.Digest))
	}
	b.WriteString("# Along is from the squared end, across from the near selvedge's outer edge or from the fold: both to the top of the grain line.\n")
	b.WriteString("sections:\n")
	for _, s := range f.Sections {
		fmt.Fprintf(&b, "  - {fold: %s", s.Fold)
		for _, k := range []struct {
			key   string
			has   bool
			value unit.Length
		}{{"from", s.HasFrom, s.From}, {"to", s.HasTo, s.To}, {"depth", s.HasDepth, s.Depth}} {
			if k.has {
				fmt.Fprintf(&b, ", %s: %s", k.key, exactly(k.value))
			}
		}
		b.WriteString("}\n")
	}
	b.WriteString("pieces:")
	if len(f.Pieces) == 0 {
		b.WriteString(" []")
	}
	b.WriteString("\n")
	for _, p := range f.Pieces {
		fmt.Fprintf(&b, "  - {%s}\n", strings.Join(p.keys(), ", "))
	}
	return []byte(b.String())
}

// keys are a piece's keys with their values; what goes without saying is left
// out.
func (p FilePiece) keys() []string {
	out := []string{"piece: " + p.ID}
	add := func(is bool, text string) {
		if is {
			out = append(out, text)
		}
	}
	add(p.Section > 0, "section: "+strconv.Itoa(p.Section+1))
	add(p.Placed, "along: "+exactly(p.Along))
	add(p.Placed, "across: "+exactly(p.Across))
	add(p.Turned, "turned: yes")
	add(p.FaceDown, "face-down: yes")
	add(p.Tilt != 0, "tilt: "+strconv.FormatFloat(p.Tilt, 'f', -1, 64))
	add(p.Plies > 0, "plies: "+strconv.Itoa(p.Plies))
	add(p.Pinned, "pinned: yes")
	return out
}

// quoted is a text as YAML reads it back, whatever it holds.
func quoted(s string) string {
	if nameForm.MatchString(s) && strings.ContainsAny(s[:1], "abcdefghijklmnopqrstuvwxyz") && s != "true" && s != "false" && s != "null" {
		return s
	}
	data, err := json.Marshal(s)
	if err != nil { // a string always has a JSON form
		return `""`
	}
	return string(data)
}

// decimals keep a micrometre of each unit.
var decimals = map[unit.Unit]int{unit.Millimetre: 3, unit.Centimetre: 4, unit.Metre: 6, unit.Inch: 6, unit.Foot: 7, unit.Yard: 7}

// exactly writes a length in its unit, to the micrometre.
func exactly(l unit.Length) string {
	u := l.Unit()
	text := strconv.FormatFloat(l.MM()/unit.Of(1, u).MM(), 'f', decimals[u], 64)
	if strings.Contains(text, ".") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return text + " " + string(u)
}
