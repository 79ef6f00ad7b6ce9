package finding

import (
	"fmt"
	"slices"
)

// Kind is one sort of finding: its code, weight and wording. Text and Mend are
// fmt templates with explicit argument indexes, %[1]s or %.1[2]f, both over the same
// arguments; Mend may be empty when nothing general can be advised.
type Kind struct {
	Code     string
	Severity Severity
	Text     string
	Mend     string
}

// Note says something at a second place, such as where a name was first used.
type Note struct {
	Place Place
	Text  string
}

// Finding is one thing said about the user's work.
type Finding struct {
	Kind  Kind
	Place Place
	Args  []any
	Notes []Note
}

// At makes a finding of this kind at a place.
func (k Kind) At(p Place, args ...any) Finding {
	return Finding{Kind: k, Place: p, Args: args}
}

// Code is the slug of the kind, such as "seam.gap".
func (f Finding) Code() string { return f.Kind.Code }

// Severity is how much the finding weighs.
func (f Finding) Severity() Severity { return f.Kind.Severity }

// Text says what is wrong, with its numbers.
func (f Finding) Text() string { return fill(f.Kind.Text, f.Args) }

// Mend says what would mend it, or "".
func (f Finding) Mend() string { return fill(f.Kind.Mend, f.Args) }

// Note is a copy of f with a note added; an empty Place is allowed. f itself
// and other copies of it are left as they were.
func (f Finding) Note(p Place, format string, args ...any) Finding {
	f.Notes = append(slices.Clip(slices.Clone(f.Notes)), Note{Place: p, Text: fmt.Sprintf(format, args...)})
	return f
}

// fill puts the arguments into a template. A template that uses none of them
// is not given any, since fmt would complain of extra arguments.
func fill(template string, args []any) string {
	if !indexedVerb.MatchString(template) {
		args = nil
	}
	return fmt.Sprintf(template, args...)
}
