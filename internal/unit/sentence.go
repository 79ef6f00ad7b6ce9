package unit

import (
	"regexp"
	"strconv"
)

// metric is a metric length within a sentence.
var metric = regexp.MustCompile(`\b([0-9]+(?:\.[0-9]+)?)\s?(mm|cm)\b`)

// Sentence says the metric lengths within a text in inches where u is a unit of
// the foot, to the nearest sixteenth as Format does, and never as nothing: what is
// less than half a sixteenth stays as it is. For a metric u the text stays as it is.
func Sentence(text string, u Unit) string {
	if u != Inch && u != Foot && u != Yard {
		return text
	}
	return metric.ReplaceAllStringFunc(text, func(said string) string {
		m := metric.FindStringSubmatch(said)
		n, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return said
		}
		if in := Format(Of(n, Unit(m[2])).MM(), Inch); in != "0 in" {
			return in
		}
		return said
	})
}
