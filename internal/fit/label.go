package fit

import (
	"math"
	"strconv"
	"strings"
)

// position reads a size as a docket writes it: a printed label, or a number
// between two neighbouring numeric labels ("14.6" is three tenths of the way
// from 14 to 16). It returns the position in the list of labels; below and
// above say that a number lies before the first or after the last label.
func position(text string, labels []string) (at float64, below, above, ok bool) {
	text = strings.TrimSpace(text)
	for i, l := range labels {
		if l == text {
			return float64(i), false, false, true
		}
	}
	v, isNumber := number(text)
	if !isNumber || len(labels) == 0 {
		return 0, false, false, false
	}
	for i, l := range labels {
		b, okB := number(l)
		if !okB {
			continue
		}
		if v == b {
			return float64(i), false, false, true
		}
		if i == 0 {
			below = v < b
			continue
		}
		a, okA := number(labels[i-1])
		if okA && a < v && v < b {
			return float64(i-1) + (v-a)/(b-a), false, false, true
		}
		above = i == len(labels)-1 && v > b
	}
	return 0, below, above, false
}

func number(s string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// label writes a position as a size: the printed label, "14.6" between numeric
// labels, "S+0.3" between others.
func label(at float64, labels []string) string {
	if len(labels) == 0 {
		return ""
	}
	i := min(max(int(math.Floor(at)), 0), len(labels)-1)
	part := at - float64(i)
	if i == len(labels)-1 || part < 0.005 {
		return labels[i]
	}
	if part > 0.995 {
		return labels[i+1]
	}
	a, okA := number(labels[i])
	b, okB := number(labels[i+1])
	if okA && okB {
		return strings.TrimSuffix(strconv.FormatFloat(a+float64((b-a)*part), 'f', 1, 64), ".0")
	}
	return labels[i] + "+" + strconv.FormatFloat(part, 'f', 1, 64)
}

// nearestSize returns the printed size nearest to a position in the list; half
// way the smaller.
func nearestSize(at float64, n int) int {
	return min(max(int(math.Ceil(at-0.5)), 0), n-1)
}

// nearestRow returns the row of the chart nearest to a measure; half way the
// smaller.
func nearestRow(row []float64, mm float64) int {
	best := 0
	for i, v := range row {
		if math.Abs(v-mm) < math.Abs(row[best]-mm)-1e-6 {
			best = i
		}
	}
	return best
}
