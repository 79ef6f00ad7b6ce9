package finding

import (
	"encoding/json"
	"math"
)

type placeJSON struct {
	File   string   `json:"file,omitempty"`
	Line   int      `json:"line,omitempty"`
	Col    int      `json:"col,omitempty"`
	Source string   `json:"source,omitempty"`
	Step   string   `json:"step,omitempty"`
	Piece  string   `json:"piece,omitempty"`
	Copy   string   `json:"copy,omitempty"`
	Edge   string   `json:"edge,omitempty"`
	AtMM   *float64 `json:"at_mm,omitempty"`
}

type noteJSON struct {
	Place placeJSON `json:"place,omitzero"`
	Text  string    `json:"text"`
}

type findingJSON struct {
	Code     string     `json:"code"`
	Severity string     `json:"severity"`
	Place    placeJSON  `json:"place,omitzero"`
	Text     string     `json:"text"`
	Mend     string     `json:"mend,omitempty"`
	Notes    []noteJSON `json:"notes,omitempty"`
}

// MarshalJSON writes code, severity, place, text, mend and notes, the wording
// already filled in. Empty fields are left out.
func (f Finding) MarshalJSON() ([]byte, error) {
	out := findingJSON{
		Code: f.Code(), Severity: f.Severity().String(),
		Place: f.Place.json(), Text: f.Text(), Mend: f.Mend(),
	}
	for _, n := range f.Notes {
		out.Notes = append(out.Notes, noteJSON{Place: n.Place.json(), Text: n.Text})
	}
	return json.Marshal(out)
}

// MarshalJSON writes an empty list as [] rather than null.
func (l List) MarshalJSON() ([]byte, error) {
	if len(l) == 0 {
		return []byte("[]"), nil
	}
	return json.Marshal([]Finding(l))
}

func (p Place) json() placeJSON {
	out := placeJSON{
		File: p.File, Line: p.Line, Col: p.Col, Source: p.Text,
		Step: p.Step, Piece: p.Piece, Copy: p.Copy, Edge: p.Edge,
	}
	if p.HasAt && !math.IsNaN(p.At) && !math.IsInf(p.At, 0) { // JSON has no NaN
		out.AtMM = &p.At
	}
	return out
}
