package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Format writes a length of mm millimetres in unit u, rounded to what can be
// read off the tool used for that unit:
//
//	mm  one decimal, dropped when it is 0      6 mm, 6.5 mm
//	cm  one decimal, dropped when it is 0      88.5 cm, 44 cm
//	m   two decimals                           1.52 m
//	in  nearest 1/16, reduced                  34 1/2 in
//	ft, yd  an exact eighth as a fraction      2 1/4 yd
//	        otherwise two decimals             1.66 yd
//
// An unknown unit is written in mm.
func Format(mm float64, u Unit) string {
	if math.IsNaN(mm) || math.IsInf(mm, 0) {
		return strings.ToLower(fmt.Sprint(mm)) + " " + string(u)
	}
	switch u {
	case Centimetre:
		return decimal(u.value(mm), 1, true) + " cm"
	case Metre:
		return decimal(u.value(mm), 2, false) + " m"
	case Inch:
		return fraction(u.value(mm), 16) + " in"
	case Foot, Yard:
		value := u.value(mm)
		if isEighth(value) {
			return fraction(value, 8) + " " + string(u)
		}
		return decimal(value, 2, false) + " " + string(u)
	}
	return decimal(mm, 1, true) + " mm"
}

// isEighth allows for the last bits of a float only: cloth is sold by the
// eighth of a yard, and any other length should not be rounded to one.
func isEighth(value float64) bool {
	return math.Abs(value*8-math.Round(value*8)) < 1e-6
}

// decimal writes value with the given number of decimals, without a negative
// zero, and without a trailing ".0" when trim is set.
func decimal(value float64, decimals int, trim bool) string {
	s := strconv.FormatFloat(value, 'f', decimals, 64)
	if trim {
		s = strings.TrimSuffix(s, ".0")
	}
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return s
}

// fraction writes value to the nearest 1/den, den a power of two, reduced.
func fraction(value float64, den int64) string {
	n := int64(math.Round(math.Abs(value) * float64(den)))
	if n == 0 {
		return "0"
	}
	sign := ""
	if value < 0 {
		sign = "-"
	}
	whole, num := n/den, n%den
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, num, den)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, num, den)
}
