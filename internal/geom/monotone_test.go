package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"
)

// Points of a straight line give the line back; two points always do.
func TestMonotoneKnown(t *testing.T) {
	line := Monotone([]float64{-10, 0, 3, 50}, []float64{-19, 1, 7, 101})
	for _, x := range []float64{-10, -3.3, 0, 1, 20, 49.9, 50} {
		near(t, "a straight line", line(x), 2*x+1, 1e-12)
	}
	for x, want := range map[float64]float64{-11: -19, 51: 101, math.Inf(1): 101, math.Inf(-1): -19} {
		near(t, "outside the range", line(x), want, 0)
	}
	near(t, "no points", Monotone(nil, nil)(7), 0, 0)
	near(t, "one point", Monotone([]float64{1}, []float64{5})(7), 5, 0)
	near(t, "a repeated x is left out", Monotone([]float64{0, 0, 10}, []float64{1, 99, 2})(5), 1.5, 1e-12)
	step := Monotone([]float64{0, 1, 2, 3}, []float64{0, 0, 10, 10})
	near(t, "flat before a step", step(0.5), 0, 0)
	near(t, "half way up", step(1.5), 5, 1e-12)
	near(t, "flat after a step", step(2.5), 10, 0)
}

func drawnSteps(t *rapid.T) (xs, ys []float64) {
	r := dice(t)
	x, y := between(r, -100, 100), 0.0
	for range 2 + r.IntN(9) {
		xs, ys = append(xs, x), append(ys, y)
		x += math.Exp(between(r, -3, 4))
		if r.IntN(4) > 0 {
			y += between(r, -20, 20)
		}
	}
	return xs, ys
}

// It keeps to the range of its neighbours, passes its points, never turns
// between them and has no jump of slope.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs, ys := drawnSteps(t)
		f := Monotone(xs, ys)
		for i := range xs {
			if f(xs[i]) != ys[i] {
				t.Fatalf("%g at point %d, given %g", f(xs[i]), i, ys[i])
			}
			if i == 0 {
				continue
			}
			h, rise := xs[i]-xs[i-1], ys[i]-ys[i-1]
			was := ys[i-1]
			for k := 1; k < 50; k++ {
				v := f(xs[i-1] + h*float64(k)/50)
				if (v-was)*rise < -1e-9*(1+math.Abs(rise)) || rise == 0 && v != ys[i] {
					t.Fatalf("turns back between points %d and %d", i-1, i)
				}
				was = v
			}
			if i == len(xs)-1 {
				continue
			}
			e := 1e-5 * math.Min(h, xs[i+1]-xs[i])
			left, right := (ys[i]-f(xs[i]-e))/e, (f(xs[i]+e)-ys[i])/e
			if s := math.Max(math.Abs(rise)/h, math.Abs(ys[i+1]-ys[i])/(xs[i+1]-xs[i])); math.Abs(left-right) > 1e-3*(1+s) {
				t.Fatalf("slope %g before point %d and %g after it", left, i, right)
			}
		}
	})
}

// Between the points it is the cubic that gonum's Hermite interpolation has with
// the same slopes, and where rises are even the slopes are those of gonum's
// Fritsch-Butland interpolation, another monotone rule.
func TestMonotoneAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs, ys := drawnSteps(t)
		var pc interp.PiecewiseCubic
		pc.FitWithDerivatives(xs, ys, monotoneSlopes(xs, ys))
		f := Monotone(xs, ys)
		for k := range 100 {
			x := xs[0] + (xs[len(xs)-1]-xs[0])*float64(k)/100
			if math.Abs(f(x)-pc.Predict(x)) > 1e-9*(1+math.Abs(f(x))) {
				t.Fatalf("%g at %g, gonum says %g", f(x), x, pc.Predict(x))
			}
		}
	})
	xs, ys := []float64{0, 1, 2, 3, 4, 5, 6}, []float64{0, 2, 4, 6, 6, 6, 6}
	var fb interp.FritschButland
	if err := fb.Fit(xs, ys); err != nil {
		t.Fatal(err)
	}
	f := Monotone(xs, ys)
	for k := range 61 {
		near(t, "even rises", f(float64(k)/10), fb.Predict(float64(k)/10), 1e-12)
	}
}
