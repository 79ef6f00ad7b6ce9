package piece

import (
	"fmt"
	"regexp"
	"strings"
)

// Copy says which of a piece's copies is meant.
type Copy string

// The copies a piece can be cut in. Halves of a piece on the fold are its left
// and right.
const (
	Both   Copy = ""
	Left   Copy = "left"
	Right  Copy = "right"
	Single Copy = "single"
)

// Ref names an edge, an inside line, or a stretch of either, as it is written
// in a pattern:
//
//	front:outseam                        the edge on both copies
//	front@left:outseam                   on one copy
//	front:outseam[pocket-top..hem]       from a notch or corner to another
//	back:/pocket-place                   an inside line
//	back:/pocket-place reversed          walked against its drawn direction
type Ref struct {
	Piece    string
	Copy     Copy
	Edge     string // the edge's or line's name
	Inside   bool   // an inside line
	From, To string // a stretch between two named points; empty for the whole
	Reversed bool
}

var refPattern = regexp.MustCompile(
	`^([a-z][a-z0-9-]*)(?:@(left|right|single))?:(/?)([a-z][a-z0-9-]*)(?:\[([a-z][a-z0-9-]*)\.\.([a-z][a-z0-9-]*)\])?( reversed)?$`)

// ParseRef reads a reference.
func ParseRef(text string) (Ref, error) {
	m := refPattern.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return Ref{}, fmt.Errorf("%q is not a place on a piece: write piece:edge, piece@left:edge, "+
			"piece:edge[point..point] or piece:/line", text)
	}
	return Ref{
		Piece: m[1], Copy: Copy(m[2]), Inside: m[3] == "/", Edge: m[4],
		From: m[5], To: m[6], Reversed: m[7] != "",
	}, nil
}

// String writes the reference as ParseRef reads it.
func (r Ref) String() string {
	var b strings.Builder
	b.WriteString(r.Piece)
	if r.Copy != Both {
		b.WriteString("@" + string(r.Copy))
	}
	b.WriteString(":")
	if r.Inside {
		b.WriteString("/")
	}
	b.WriteString(r.Edge)
	if r.From != "" {
		b.WriteString("[" + r.From + ".." + r.To + "]")
	}
	if r.Reversed {
		b.WriteString(" reversed")
	}
	return b.String()
}

// On returns the reference on one copy.
func (r Ref) On(c Copy) Ref {
	r.Copy = c
	return r
}
