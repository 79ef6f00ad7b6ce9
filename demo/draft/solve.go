package main

import (
	"fmt"
	"math"

	"gusset/internal/geom"
)

// solve finds x between lo and hi where f is zero, by halving; f must have
// opposite signs at the ends. The answer is good to the last bits, so lengths
// solved for agree far within the 0.02 mm that the printed lines allow.
func solve(what string, lo, hi float64, f func(float64) float64) (float64, error) {
	flo, fhi := f(lo), f(hi)
	if math.IsNaN(flo) || math.IsNaN(fhi) || flo*fhi > 0 {
		return 0, fmt.Errorf("no %s between %.1f and %.1f (misses by %.2f and %.2f)", what, lo, hi, flo, fhi)
	}
	for range 60 {
		mid := (lo + hi) / 2
		if f(mid)*flo > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, nil
}

// paramAtY is the parameter at which a segment that only rises or only falls
// reaches height y.
func paramAtY(s geom.Seg, y float64) float64 {
	lo, hi := 0.0, 1.0
	rising := s.End().Y > s.Start().Y
	for range 60 {
		mid := (lo + hi) / 2
		if (s.At(mid).Y < y) == rising {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
