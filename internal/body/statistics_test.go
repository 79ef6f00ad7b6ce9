package body

import (
	"encoding/json"
	"errors"
	"io/fs"
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// The copy in the program is what the summary of the survey says.
func TestCopy(t *testing.T) {
	data, err := os.ReadFile("../../../shared/data/body/ansur2_stats.json")
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("no ../shared beside the repository")
	} else if err != nil {
		t.Fatal(err)
	}
	var in struct {
		Keys  []string
		Sexes map[string]struct {
			N                  int
			Mean, SD, P01, P99 []float64
			CovLower           [][]float64
		}
	}
	if err := json.Unmarshal(data, &in); err != nil {
		t.Fatal(err)
	}
	for i, name := range []string{"female", "male"} {
		g, want := groups[i], in.Sexes[name]
		if g.n != want.N || len(g.mean) != len(in.Keys) {
			t.Fatalf("%s: %d bodies, %d measures", g.name, g.n, len(g.mean))
		}
		for j, key := range in.Keys {
			if g.index[key] != j || g.mean[j] != want.Mean[j] || g.low[j] != want.P01[j] || g.high[j] != want.P99[j] {
				t.Errorf("%s %s differs", g.name, key)
			}
			for k := range in.Keys {
				if g.cov(j, k) != want.CovLower[max(j, k)][min(j, k)] {
					t.Errorf("%s: covariance of %s and %s differs", g.name, key, in.Keys[k])
				}
			}
			// The summary states the standard deviation apart, rounded.
			if sd := math.Sqrt(g.cov(j, j)); math.Abs(sd-want.SD[j]) > 0.01 {
				t.Errorf("%s %s: standard deviation %.3f, the summary says %.3f", g.name, key, sd, want.SD[j])
			}
		}
	}
}

// Every measure of the survey that ours are tied to is there, once.
func TestSurveyed(t *testing.T) {
	seen := map[Measure]bool{}
	for _, s := range survey {
		for _, g := range groups {
			if _, ok := g.index[s.key]; !ok {
				t.Errorf("%s: no %s among the figures of %s", s.measure, s.key, g.name)
			}
		}
		if _, ok := Ranges[s.measure]; !ok || seen[s.measure] {
			t.Errorf("%s is tied twice, or is no measure", s.measure)
		}
		if goodEnough[s.measure] == 0 {
			t.Errorf("%s: how good must an estimate be?", s.measure)
		}
		seen[s.measure] = true
	}
}

// What is left out is expected where gonum's least squares put it: the slopes
// are the solution of the normal equations of the others.
func TestLeaveOneOut(t *testing.T) {
	for _, g := range groups {
		for _, waistAt := range WaistKinds {
			d := g.over(survey, waistAt)
			n := len(survey)
			x := make([]float64, n)
			for i := range x {
				x[i] = d.mean[i] + 20*math.Sin(float64(3*i))
			}
			expected, sd := d.leaveOneOut(x)
			for i := range n {
				a, b := mat.NewSymDense(n-1, nil), mat.NewVecDense(n-1, nil)
				var others []int
				for j := range n {
					if j != i {
						others = append(others, j)
					}
				}
				for p, j := range others {
					b.SetVec(p, d.cov[i][j])
					for q, k := range others {
						a.SetSym(p, q, d.cov[j][k])
					}
				}
				var slopes mat.VecDense
				if err := slopes.SolveVec(a, b); err != nil {
					t.Fatal(err)
				}
				mean, variance := d.mean[i], d.cov[i][i]
				for p, j := range others {
					mean += slopes.AtVec(p) * (x[j] - d.mean[j])
					variance -= slopes.AtVec(p) * b.AtVec(p)
				}
				if math.Abs(mean-expected[i]) > 1e-6 || math.Abs(math.Sqrt(variance)-sd[i]) > 1e-6 {
					t.Errorf("%s, %s: %s expected at %.4f ± %.4f, gonum says %.4f ± %.4f",
						g.name, waistAt, survey[i].measure, expected[i], sd[i], mean, math.Sqrt(variance))
				}
			}
		}
	}
}

// The inverse and the determinant are gonum's.
func TestInverse(t *testing.T) {
	d := groups[0].over(survey, "natural")
	n := len(survey)
	a := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range n {
			a.SetSym(i, j, d.cov[i][j])
		}
	}
	inv, logDet := inverse(d.cov)
	var want mat.Dense
	if err := want.Inverse(a); err != nil {
		t.Fatal(err)
	}
	wantDet, _ := mat.LogDet(a)
	if math.Abs(logDet-wantDet) > 1e-9*math.Abs(wantDet) {
		t.Errorf("log determinant %.12f, gonum says %.12f", logDet, wantDet)
	}
	for i := range n {
		for j := range n {
			if math.Abs(inv[i][j]-want.At(i, j)) > 1e-9 {
				t.Fatalf("inverse[%d][%d] %g, gonum says %g", i, j, inv[i][j], want.At(i, j))
			}
		}
	}
}
