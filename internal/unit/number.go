package unit

import (
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestNumber bounds the bytes up to the last digit, and longestText those of
// the whole, so that exact arithmetic stays cheap whatever is given.
const (
	longestNumber = 64
	longestText   = 2 * longestNumber
)

// fractions are the single characters that stand for a fraction.
var fractions = map[rune]*big.Rat{
	'½': big.NewRat(1, 2), '⅓': big.NewRat(1, 3), '⅔': big.NewRat(2, 3),
	'¼': big.NewRat(1, 4), '¾': big.NewRat(3, 4),
	'⅛': big.NewRat(1, 8), '⅜': big.NewRat(3, 8), '⅝': big.NewRat(5, 8), '⅞': big.NewRat(7, 8),
}

// scanner walks over a typed number. All its methods leave pos after what
// they took, or where the fault is.
type scanner struct {
	text  string
	start int // where the number began
	pos   int
}

func (s *scanner) errorAt(at int, want string) *ParseError {
	return &ParseError{Text: s.text, At: at, Want: want}
}

func (s *scanner) peek() rune {
	r, _ := utf8.DecodeRuneInString(s.text[s.pos:])
	if s.pos >= len(s.text) {
		return 0
	}
	return r
}

func (s *scanner) take(set string) bool {
	r := s.peek()
	if r == 0 || r == utf8.RuneError || !strings.ContainsRune(set, r) {
		return false
	}
	s.pos += utf8.RuneLen(r)
	return true
}

func (s *scanner) skipSpace() int {
	for s.pos < len(s.text) && unicode.IsSpace(s.peek()) {
		s.pos += utf8.RuneLen(s.peek())
	}
	return s.pos
}

func (s *scanner) digits() string {
	from := s.pos
	for s.pos < len(s.text) && s.text[s.pos] >= '0' && s.text[s.pos] <= '9' {
		s.pos++
	}
	return s.text[from:s.pos]
}

// number reads [sign] followed by a decimal, a fraction, or a whole number
// and a fraction.
func (s *scanner) number() (*big.Rat, error) {
	if len(s.text) > longestText || strings.LastIndexAny(s.text, "0123456789") >= longestNumber {
		return nil, s.errorAt(0, "a number of at most 64 characters")
	}
	s.start = s.skipSpace()
	negative := s.take("-−")
	if !negative {
		s.take("+")
	}
	s.skipSpace()
	value, err := s.unsigned()
	if err != nil {
		return nil, err
	}
	if negative {
		value.Neg(value)
	}
	return value, nil
}

func (s *scanner) unsigned() (*big.Rat, error) {
	if f, ok := s.fractionRune(); ok {
		return f, nil
	}
	whole := s.digits()
	if s.take(".,") {
		return s.decimal(whole)
	}
	if whole == "" {
		return nil, s.errorAt(s.pos, "a number")
	}
	value, _ := new(big.Rat).SetString(whole)
	if s.take("/⁄") {
		return s.over(value)
	}
	part, err := s.fractionAfterWhole()
	if err != nil {
		return nil, err
	}
	if part == nil {
		return value, nil
	}
	return value.Add(value, part), nil
}

// decimal reads the digits after a decimal point or comma.
func (s *scanner) decimal(whole string) (*big.Rat, error) {
	mark := s.text[s.pos-1]
	from := s.pos
	part := s.digits()
	switch {
	case part == "":
		return nil, s.errorAt(s.pos, "digits after the decimal "+map[byte]string{'.': "point", ',': "comma"}[mark])
	case mark == ',' && len(part) == 3 && whole != "":
		return nil, s.errorAt(from, "no comma before three digits, which may mean thousands: write 1000 or 1.000")
	}
	value, _ := new(big.Rat).SetString("0" + whole + "." + part)
	return value, nil
}

// over reads the lower half of a fraction.
func (s *scanner) over(num *big.Rat) (*big.Rat, error) {
	from := s.pos
	den, _ := new(big.Rat).SetString("0" + s.digits())
	if den.Sign() == 0 {
		return nil, s.errorAt(from, "a number from 1 below the fraction bar")
	}
	return new(big.Rat).Quo(num, den), nil
}

func (s *scanner) fractionRune() (*big.Rat, bool) {
	f, ok := fractions[s.peek()]
	if !ok {
		return nil, false
	}
	s.pos += utf8.RuneLen(s.peek())
	return new(big.Rat).Set(f), true
}

// fractionAfterWhole reads the 1/2 of "34 1/2", "34-1/2" or "34½". It gives
// nil, with pos unmoved, when no fraction follows.
func (s *scanner) fractionAfterWhole() (*big.Rat, error) {
	back := s.pos
	s.skipSpace()
	if f, ok := s.fractionRune(); ok {
		return f, nil
	}
	if s.pos == back && !s.take("-") { // "341/2" was taken as one number already
		return nil, nil
	}
	from := s.pos
	digits := s.digits()
	if digits == "" {
		s.pos = back
		return nil, nil
	}
	num, _ := new(big.Rat).SetString(digits)
	if !s.take("/⁄") {
		return nil, s.errorAt(from, "one number, or a fraction such as 1/2")
	}
	f, err := s.over(num)
	if err != nil {
		return nil, err
	}
	if f.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, s.errorAt(from, "a fraction below 1 after a whole number")
	}
	return f, nil
}
