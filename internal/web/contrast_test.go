package web

import (
	"fmt"
	"math"
	"testing"
)

// contrast is the contrast ratio of two colours by WCAG 2.2.
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	var rgb [3]uint8
	if _, err := fmt.Sscanf(colour, "#%02x%02x%02x", &rgb[0], &rgb[1], &rgb[2]); err != nil {
		t.Fatalf("%q: %v", colour, err)
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v := float64(rgb[i]) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

// Black on white is 21 to 1, and #777777 on white 4.48 to 1 (from memory: the
// figures that are given everywhere).
func TestContrastKnown(t *testing.T) {
	if c := contrast(t, "#000000", "#ffffff"); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white: %.3f", c)
	}
	if c := contrast(t, "#777777", "#ffffff"); math.Abs(c-4.48) > 0.005 {
		t.Errorf("grey on white: %.3f", c)
	}
}
