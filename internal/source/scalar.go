package source

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Text gives a text. A number or true and false must be in quotes to be one.
func (n Node) Text(out *finding.List) (string, bool) {
	if !n.want(out, "text (a number as text goes in quotes)", word) {
		return "", false
	}
	return n.tree.text, true
}

// Label gives a size label, such as "12" or M. An unquoted number is a
// finding of its own, since 08 and 8 or 12 and 12.0 would be one size as
// numbers and two as labels.
func (n Node) Label(out *finding.List) (string, bool) {
	if n.tree != nil && (n.tree.shape == number || n.tree.shape == truth) {
		*out = append(*out, unquotedLabel.At(n.Place(), n.name(), shortened(n.tree.text)))
		return "", false
	}
	if !n.want(out, "a size label in quotes", word) {
		return "", false
	}
	return n.tree.text, true
}

// Word gives one of the allowed words; another is a finding that names the
// nearest right one.
func (n Node) Word(out *finding.List, allowed ...string) (string, bool) {
	if !n.want(out, "one of "+listed(allowed), word, number, truth) {
		return "", false
	}
	for _, w := range allowed {
		if n.tree.text == w {
			return w, true
		}
	}
	*out = append(*out, unknownWord.At(n.Place(), n.name(), shortened(n.tree.text), meant(n.tree.text, allowed)))
	return "", false
}

// listed joins words as "a, b or c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// meant says what to write instead of a word that is not known.
func meant(w string, allowed []string) string {
	near := Nearest(w, allowed)
	switch {
	case near != "" && len(allowed) > 12:
		return "did you mean " + near + "?"
	case near != "":
		return "did you mean " + near + "? (" + listed(allowed) + ")"
	}
	return "write " + listed(allowed)
}

// Bool gives true or false.
func (n Node) Bool(out *finding.List) (bool, bool) {
	if !n.want(out, "true or false", truth) {
		return false, false
	}
	return strings.EqualFold(n.tree.text, "true"), true
}

var (
	intForm   = regexp.MustCompile(`^[+-]?[0-9]{1,15}$`)
	floatForm = regexp.MustCompile(`^[+-]?([0-9]{1,15}([.,][0-9]{1,15})?|[.,][0-9]{1,15})$`)
)

// Int gives a whole number from least to most.
func (n Node) Int(out *finding.List, least, most int) (int, bool) {
	if !n.want(out, "a whole number", number, word) {
		return 0, false
	}
	v, err := strconv.Atoi(n.tree.text)
	if !intForm.MatchString(n.tree.text) || err != nil {
		*out = append(*out, badNumber.At(n.Place(), n.name(), shortened(n.tree.text), "whole number", "12"))
		return 0, false
	}
	if v < least || v > most {
		n.outside(out, n.tree.text, strconv.Itoa(least), strconv.Itoa(most))
		return 0, false
	}
	return v, true
}

// Float gives a number without a unit, from least to most. A decimal comma is
// read as a point.
func (n Node) Float(out *finding.List, least, most float64) (float64, bool) {
	if !n.want(out, "a number", number, word) {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(n.tree.text, ",", ".", 1), 64)
	if !floatForm.MatchString(n.tree.text) || err != nil {
		*out = append(*out, badNumber.At(n.Place(), n.name(), shortened(n.tree.text), "number", "1.5"))
		return 0, false
	}
	if v < least || v > most {
		n.outside(out, n.tree.text, shortNumber(least), shortNumber(most))
		return 0, false
	}
	return v, true
}

func shortNumber(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// Length gives a length from least to most millimetres. A bare number takes
// the assumed unit; when that is "" it is a finding.
func (n Node) Length(out *finding.List, assumed unit.Unit, least, most float64) (unit.Length, bool) {
	if !n.want(out, "a length", number, word) {
		return unit.Length{}, false
	}
	l, err := unit.Parse(n.tree.text, assumed)
	if err != nil {
		n.unreadable(out, badLength, err)
		return unit.Length{}, false
	}
	if mm := l.MM(); mm < least || mm > most {
		n.outside(out, l.String(), unit.Format(least, l.Unit()), unit.Format(most, l.Unit()))
		return unit.Length{}, false
	}
	return l, true
}

// Percent gives a percentage as a fraction, from least to most (fractions
// too): "3 %" is 0.03.
func (n Node) Percent(out *finding.List, least, most float64) (float64, bool) {
	if !n.want(out, "a percentage", number, word) {
		return 0, false
	}
	v, err := unit.ParsePercent(n.tree.text)
	if err != nil {
		n.unreadable(out, badPercent, err)
		return 0, false
	}
	if v < least || v > most {
		n.outside(out, n.tree.text, percent(least), percent(most))
		return 0, false
	}
	return v, true
}

// percent rounds off what the multiplication by 100 adds in the last bits.
func percent(fraction float64) string { return shortNumber(math.Round(fraction*1e6)/1e4) + " %" }

func (n Node) outside(out *finding.List, got, least, most string) {
	*out = append(*out, outOfRange.At(n.Place(), n.name(), shortened(got), least, most))
}

// unreadable places a unit.ParseError at the very character.
func (n Node) unreadable(out *finding.List, k finding.Kind, err error) {
	var pe *unit.ParseError
	if !errors.As(err, &pe) {
		pe = &unit.ParseError{Text: n.tree.text, Want: err.Error()}
	}
	at := len([]rune(pe.Text[:pe.At]))
	*out = append(*out, k.At(n.Place(), n.name(), shortened(pe.Text), at+1, pe.Want))
}
