package unit

import (
	"fmt"
	"math/big"
	"strings"
)

// ParseError tells what was wanted at which byte of a text that is no length
// (or no percentage).
type ParseError struct {
	Text string // as given
	At   int    // byte offset in Text
	Want string // what was wanted there
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("%q, character %d: want %s", e.Text, len([]rune(e.Text[:e.At]))+1, e.Want)
}

const unitList = "a unit (mm, cm, m, in, ft or yd)"

// longest is LongestMM as an exact number.
var longest = big.NewRat(LongestMM, 1)

// Parse reads a length as typed. A bare number takes the assumed unit; when
// assumed is "" a bare number is an error. Every error is a *ParseError.
func Parse(text string, assumed Unit) (Length, error) {
	s := &scanner{text: text}
	value, err := s.number()
	if err != nil {
		return Length{}, err
	}
	at := s.skipSpace()
	u, err := s.unit(assumed)
	if err != nil {
		return Length{}, err
	}
	exact := new(big.Rat).Mul(value, big.NewRat(tenths[u], 10))
	if new(big.Rat).Abs(exact).Cmp(longest) > 0 {
		return Length{}, s.errorAt(s.start, "a length of at most 100 m")
	}
	typed := strings.Join(strings.Fields(text), " ")
	if at == len(text) { // the unit was assumed: say it when read back
		typed += " " + string(u)
	}
	return Length{mm: u.millimetres(value), unit: u, text: typed}, nil
}

// unit reads the rest of the text as one unit.
func (s *scanner) unit(assumed Unit) (Unit, error) {
	at := s.pos
	word := strings.ToLower(strings.TrimSpace(s.text[at:]))
	if word == "" {
		if assumed.Valid() {
			return assumed, nil
		}
		return "", s.errorAt(at, unitList)
	}
	if u, ok := names[word]; ok {
		return u, nil
	}
	if first, rest, ok := splitUnit(word); ok {
		return "", s.errorAt(at+len(first), fmt.Sprintf("one number and one unit, and nothing after it (found %q)", rest))
	}
	if near := nearest(word); near != "" {
		return "", s.errorAt(at, fmt.Sprintf("%s, did you mean %s?", unitList, near))
	}
	return "", s.errorAt(at, unitList)
}

// splitUnit cuts a word that begins with a unit and goes on after it, as in
// "ft 3 in".
func splitUnit(word string) (first, rest string, ok bool) {
	cut := strings.IndexFunc(word, func(r rune) bool { return r == ' ' || r >= '0' && r <= '9' })
	if cut < 0 {
		return "", "", false
	}
	first = word[:cut]
	_, ok = names[first]
	return first, strings.TrimSpace(word[cut:]), ok
}

// percentLimit is the largest percentage read; more is surely a slip.
var percentLimit = big.NewRat(1000, 1)

// ParsePercent reads "3 %" or "2,5%" and gives the fraction: 0.03, 0.025. A
// bare number is an error, since 3 might be meant as 300 %. At most 1000 %.
// Every error is a *ParseError.
func ParsePercent(text string) (float64, error) {
	s := &scanner{text: text}
	value, err := s.number()
	if err != nil {
		return 0, err
	}
	at := s.skipSpace()
	if strings.TrimSpace(text[at:]) != "%" {
		return 0, s.errorAt(at, "a percent sign, and nothing after it")
	}
	if new(big.Rat).Abs(value).Cmp(percentLimit) > 0 {
		return 0, s.errorAt(s.start, "at most 1000 %")
	}
	f, _ := new(big.Rat).Quo(value, big.NewRat(100, 1)).Float64()
	return f, nil
}
