package order

import (
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/source"
)

// Version is the newest version of order files that is read.
const Version = 1

// File is an order of work that the user has written down, to be judged.
type File struct {
	Name  string // file name without ending
	Title string
	Steps []pattern.Step
	Place finding.Place
}

// Load reads an order file. What is unsound is left out and told in the
// findings; whether the steps are those of a garment is for those who have it.
func Load(f source.File) (File, finding.List) {
	root, out := source.ParseYAML(f, "order", Version)
	v := File{Name: f.Name()}
	if !root.Exists() {
		return v, out
	}
	m := root.Reader(&out)
	v.Place = m.Place()
	v.Title = m.StringOr("title", v.Name)
	m.Required().Each("steps", func(_ int, n source.Node) {
		text, ok := n.Text(&out)
		if !ok {
			return
		}
		s, err := pattern.ParseStep(text)
		if err != nil {
			out = append(out, badStep.At(n.Place(), err.Error()))
			return
		}
		s.Place = n.Place()
		v.Steps = append(v.Steps, s)
	})
	m.Done()
	return v, out
}
