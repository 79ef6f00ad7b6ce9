package cloth

import (
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Version is the newest version of cloth files that is read.
const Version = 1

var (
	noWidth = finding.Kind{
		Code: "cloth.no-width", Severity: finding.Stop,
		Text: "two selvedges of %[1]s leave nothing of a width of %[2]s",
		Mend: "give the selvedge's own width, at one edge",
	}
	shrunk = finding.Kind{
		Code: "cloth.shrink-washed", Severity: finding.Warn,
		Text: "this cloth is washed, and yet a shrinkage is given; it is not used",
		Mend: "measure the washed cloth and take the shrinkage out, or write washed: no",
	}
)

// mostShrink is the most that washing takes from any cloth worth cutting.
const mostShrink = 0.25

// Load reads a cloth file. What is unsound is left zero and told in the
// findings. Washed cloth has no shrinkage whatever the file says.
func Load(f source.File) (Cloth, finding.List) {
	root, out := source.ParseYAML(f, "cloth", Version)
	c := Cloth{Name: f.Name()}
	if !root.Exists() {
		return c, out
	}
	m := root.Reader(&out)
	c.Place = m.Place()
	c.Title = m.StringOr("title", c.Name)
	need := m.Required()
	c.Width = need.Length("width", "", 100, 5000)
	c.Selvedge = m.LengthOr("selvedge", "", 0, 200, unit.MM(0))
	c.Length = need.Length("length", "", 50, unit.LongestMM)
	c.LengthPlace = m.Key("length").Place()
	c.Direction = Direction(need.Word("direction", words(Directions)...))
	c.Thickness = need.Length("thickness", "", 0.02, 20)
	c.Weight = m.Float("weight", 5, 2000)
	c.Washed = m.Yes("washed")
	c.Frays = m.Yes("frays")
	if m.Has("shrink") {
		s := m.Map("shrink")
		c.ShrinkWarp = s.Percent("warp", 0, mostShrink)
		c.ShrinkWeft = s.Percent("weft", 0, mostShrink)
		s.Done()
	}
	c.flaws(m, &out)
	c.outline(m, &out)
	m.Done()
	if c.Washed && (c.ShrinkWarp > 0 || c.ShrinkWeft > 0) {
		out = append(out, shrunk.At(m.Key("shrink").Place()))
		c.ShrinkWarp, c.ShrinkWeft = 0, 0
	}
	if !c.Width.IsZero() && 2*c.Selvedge.MM() >= c.Width.MM() {
		out = append(out, noWidth.At(m.Key("selvedge").Place(), c.Selvedge, c.Width))
	}
	return c, out
}

func words[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, w := range list {
		out[i] = string(w)
	}
	return out
}
