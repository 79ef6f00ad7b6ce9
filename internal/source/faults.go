package source

import "gusset/internal/finding"

// maxFaults bounds the findings of one file.
const maxFaults = 100

// faults collects the findings of one file.
type faults struct {
	text *text
	out  *finding.List
}

// at adds a finding at a line and column in characters. After maxFaults one
// last finding says that there are more.
func (f *faults) at(line, col int, k finding.Kind, args ...any) {
	switch n := len(*f.out); {
	case n < maxFaults:
		*f.out = append(*f.out, k.At(f.text.place(line, col), args...))
	case n == maxFaults:
		*f.out = append(*f.out, tooMany.At(f.text.place(line, col), maxFaults))
	}
}

// twice adds a finding about something that was first given elsewhere.
func (f *faults) twice(line, col int, first finding.Place, k finding.Kind, args ...any) {
	before := len(*f.out)
	f.at(line, col, k, args...)
	if len(*f.out) > before && before < maxFaults {
		(*f.out)[before] = (*f.out)[before].Note(first, "first given here")
	}
}

// offset adds a finding at a byte offset in the text.
func (f *faults) offset(at int, k finding.Kind, args ...any) {
	if len(*f.out) > maxFaults {
		return
	}
	line, col := f.text.position(at)
	f.at(line, col, k, args...)
}
