package needs

import "strings"

// Spool is one thread to buy: what is sewn with the same thread, needle and
// bobbin together.
type Spool struct {
	Name   string  // "main", "topstitch", "overlock", "hand"
	Colour string  // as the docket has it, may be empty
	Length float64 // mm, wastage and tails included
	Parts  []string
}

// Title names the spool with its colour: "main thread, rust".
func (s Spool) Title() string {
	if s.Colour == "" {
		return s.Name + " thread"
	}
	return s.Name + " thread, " + s.Colour
}

// spools adds up the kinds of thread that are bought as one: a kind is called by
// its thread and the place where it runs.
func spools(threads []Thread, colours map[string]string) []Spool {
	var out []Spool
	for _, t := range threads {
		name, part, _ := strings.Cut(t.Name, " ")
		i := 0
		for i < len(out) && out[i].Name != name {
			i++
		}
		if i == len(out) {
			out = append(out, Spool{Name: name, Colour: colours[name]})
		}
		out[i].Length += t.Length
		if part != "" {
			out[i].Parts = append(out[i].Parts, part)
		}
	}
	return out
}
