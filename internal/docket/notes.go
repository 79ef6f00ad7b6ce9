package docket

import (
	"gusset/internal/finding"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// Feel says what a fitting showed at a place.
type Feel string

// What a fitting may show. Amounts are measured flat at the place, both sides of
// the seam together: what is pinned out there, or what is missing.
const (
	Tight    Feel = "tight" // too little round
	Loose    Feel = "loose" // too much round
	Long     Feel = "long"  // too low at the hem
	Short    Feel = "short" // too high at the hem
	High     Feel = "high"  // an edge that sits too high: a waist, a neck
	Low      Feel = "low"   // an edge that sits too low
	Wrinkled Feel = "folds" // cloth lies in folds across: too much length there
	Pulls    Feel = "pulls" // cloth pulls up or down: too little length there
)

// Feels lists them.
var Feels = []Feel{Tight, Loose, Long, Short, High, Low, Wrinkled, Pulls}

// Note is what a fitting showed at a place of a piece, kept with the make for the
// next one.
type Note struct {
	ID   string
	Spot Spot
	Feel Feel
	By   unit.Length
	Text string // anything else worth keeping
	// Place is where it is written.
	Place finding.Place
}

const mostNote = 300 // mm; more is a slip of the unit

// notes reads what a fitting showed.
func (r reader) notes() []Note {
	var list []Note
	taken := map[string]bool{}
	r.m.Each("notes", func(_ int, n source.Node) {
		before := len(*r.out)
		m := n.Reader(r.out)
		x := Note{Place: m.Place(), ID: nameOf(m.Required().Key("id"), r.out)}
		x.Spot = r.spot(m.Required(), "at")
		x.Feel = Feel(m.Required().Word("feels", feelWords()...))
		x.By = m.Required().Length("by", "", 1, mostNote)
		x.Text = m.String("text")
		m.Done()
		if taken[x.ID] && x.ID != "" {
			*r.out = append(*r.out, idTwice.At(x.Place, x.ID))
		}
		taken[x.ID] = true
		if len(*r.out) == before {
			list = append(list, x)
		}
	})
	return list
}

func feelWords() []string {
	words := make([]string, len(Feels))
	for i, f := range Feels {
		words[i] = string(f)
	}
	return words
}
