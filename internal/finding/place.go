package finding

import (
	"fmt"
	"strconv"
	"strings"
)

// Place says where a finding is: in a file, on a piece, in a step of the
// docket's recipe, or several of these at once. Every field may be empty.
// Loaders stamp the source span; stages copy the place and add what they know.
type Place struct {
	File string // as given to the loader, with forward slashes
	Line int    // from 1; 0 is unknown
	Col  int    // from 1, in characters; 0 is unknown
	Text string // that source line, for showing

	Step string // id of a change step

	Piece string  // "front"
	Copy  string  // "left", "right", "fold"
	Edge  string  // "outseam"
	At    float64 // millimetres along the edge, when HasAt
	HasAt bool
}

// OnPiece is a copy of p on the given piece, copy and edge.
func (p Place) OnPiece(piece, copy, edge string) Place {
	p.Piece, p.Copy, p.Edge = piece, copy, edge
	return p
}

// AtMM is a copy of p at s millimetres along its edge.
func (p Place) AtMM(s float64) Place {
	p.At, p.HasAt = s, true
	return p
}

// InStep is a copy of p in the change step with that id.
func (p Place) InStep(id string) Place {
	p.Step = id
	return p
}

// IsZero reports whether p says nothing at all.
func (p Place) IsZero() bool { return p == Place{} }

// String gives the whole place on one line, such as
//
//	patterns/quay/pattern.yaml:88:5, front@left:outseam at 312 mm (step taper)
func (p Place) String() string {
	var parts []string
	if s := p.Source(); s != "" {
		if p.Line > 0 && p.Col > 0 {
			s += ":" + strconv.Itoa(p.Col)
		}
		parts = append(parts, s)
	}
	if s := p.OnGarment(); s != "" {
		parts = append(parts, s)
	}
	return strings.Join(parts, ", ")
}

// Source is the file and line, "patterns/quay/pattern.yaml:88", or "".
func (p Place) Source() string {
	switch {
	case p.File == "" && p.Line > 0:
		return fmt.Sprintf("line %d", p.Line)
	case p.Line > 0:
		return p.File + ":" + strconv.Itoa(p.Line)
	}
	return p.File
}

// OnGarment is the piece, edge and step part, "front@left:outseam at 312 mm
// (step taper)", or "".
func (p Place) OnGarment() string {
	var b strings.Builder
	b.WriteString(p.Piece)
	if p.Copy != "" {
		b.WriteString("@" + p.Copy)
	}
	if p.Edge != "" {
		b.WriteString(":" + p.Edge)
	}
	if p.HasAt {
		b.WriteString(" at " + strings.TrimSuffix(strconv.FormatFloat(p.At, 'f', 1, 64), ".0") + " mm")
	}
	if p.Step != "" {
		b.WriteString(" (step " + p.Step + ")")
	}
	return strings.TrimSpace(b.String())
}
