package trace_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
)

// untuned is the condition of a scene whose seed was not looked at while tracing
// was made: within the limits that are stated to the user (tilt up to 35
// degrees, lens up to ±0.05, a contrasting table, shadow), every fifth with a
// lens that the solver has no model for.
func untuned(seed uint64, pixels float64) scene.Condition {
	r := rand.New(rand.NewPCG(seed, 31))
	return scene.Condition{
		Panel: []int{0, 0, 1, 2}[seed%4], Tilt: 35 * r.Float64(), Azimuth: 360 * r.Float64(), K1: 0.05 * (2*r.Float64() - 1),
		MorePixel: pixels, Table: []scene.Light{scene.Oak, scene.Cloth, scene.Grey}[r.IntN(3)], Wood: 0.4 * r.Float64(),
		Shadow: 0.4 * r.Float64(), Unlike: seed%5 == 0,
	}
}

// asked reads how many scenes are to be run: "40", or "10-20".
func asked(text string) (first, last int) {
	from, to, part := strings.Cut(text, "-")
	if !part {
		from, to = "0", text
	}
	first, _ = strconv.Atoi(from)
	last, _ = strconv.Atoi(to)
	return first, last
}

// planeScale is by how much the table has come out too large: the distances
// between the middles of all cards, less 1, on average. The edge of the paper has
// no part in it, which is judged by itself.
func planeScale(s *scene.Scene, got trace.Traced) float64 {
	var sum, n float64
	for i, a := range s.Cards {
		for _, b := range s.Cards[:i] {
			g := got.Table.Solution.Cards
			sum, n = sum+g[a.ID].At.Dist(g[b.ID].At)/a.At.Dist(b.At)-1, n+1
		}
	}
	return sum / n
}

// GUSSET_TRACE=40 runs that many scenes, GUSSET_TRACE=10-20 those from the 10th to
// before the 20th; GUSSET_TRACE_SEED gives the first one's seed, where others are
// to be looked at than those that are reported; GUSSET_TRACE_PIXELS the longer
// side of the pictures, 4032 where it is not set. What is asked of them: at most
// one in twenty refused; of the others the scale within 0.05 %, the outline within
// 0.2 mm on average, and its largest miss within 0.8 mm in 95 of 100; 98 % of the
// notches found.
func TestUntunedScenes(t *testing.T) {
	first, last := asked(os.Getenv("GUSSET_TRACE"))
	if last == 0 {
		t.Skip("set GUSSET_TRACE=40 to trace forty scenes of 12 megapixels: it takes a quarter of an hour or more")
	}
	base, pixels := uint64(60_000), 4032.0
	if v, err := strconv.ParseUint(os.Getenv("GUSSET_TRACE_SEED"), 10, 64); err == nil {
		base = v
	}
	if v, err := strconv.Atoi(os.Getenv("GUSSET_TRACE_PIXELS")); err == nil {
		pixels = float64(v)
	}
	var scale, mean, most []float64
	var notches, foundNotches, slits, foundSlits, falseNotches, refused, wrongCorners int
	n := last - first
	for i := first; i < last; i++ {
		seed := base + uint64(i)
		c := untuned(seed, pixels)
		s, truth := scene.Standard(seed, c)
		name := fmt.Sprintf("seed%d-%.0f", seed, pixels)
		p := load(t, name, photoOf(t, s, name))
		got, found := trace.Run([]*photo.Photo{p}, diagonals(s), trace.Tolerance)
		if found.Stops() > 0 {
			refused++
			t.Logf("%d %s tilt %.0f azimuth %.0f: refused, %v", i, truth.Panel, c.Tilt, c.Azimuth, texts(found.AtLeast(1)))
			continue
		}
		a := measure(truth, got)
		scale = append(scale, math.Abs(planeScale(s, got)))
		mean, most = append(mean, a.mean), append(most, a.max)
		notches, foundNotches = notches+len(truth.Vs), foundNotches+a.vs
		slits, foundSlits = slits+len(truth.Slits), foundSlits+a.slits
		falseNotches += a.falseNotches
		if a.missing+a.extra != 0 {
			wrongCorners++
		}
		t.Logf("%d %s tilt %.0f azimuth %.0f unlike %v: scale %.4f %%, %+v, corner marks %.3f px, signal %.0f, %v", i, truth.Panel, c.Tilt, c.Azimuth, c.Unlike, 100*planeScale(s, got), a, got.Table.Solution.RMS, got.Edge.Signal, found.AtLeast(1).Codes())
	}
	for _, v := range [][]float64{scale, mean, most} {
		slices.Sort(v)
	}
	at := func(v []float64, k int) float64 {
		if len(v) == 0 {
			return math.NaN()
		}
		return v[min(len(v)*k/100, len(v)-1)]
	}
	t.Logf("%d scenes, %d refused: scale %% median %.3f p95 %.3f max %.3f; mean mm median %.3f max %.3f; largest miss mm median %.3f p95 %.3f max %.3f; notches V %d of %d, slits %d of %d, false %d; %d with wrong corners",
		n, refused, 100*at(scale, 50), 100*at(scale, 95), 100*at(scale, 100), at(mean, 50), at(mean, 100), at(most, 50), at(most, 95), at(most, 100),
		foundNotches, notches, foundSlits, slits, falseNotches, wrongCorners)
	if refused*20 > n {
		t.Errorf("%d of %d refused", refused, n)
	}
	if at(scale, 100) > 0.0005 || at(mean, 100) > 0.2 || at(most, 95) > 0.8 {
		t.Error("not as accurate as wanted")
	}
	if float64(foundNotches+foundSlits) < 0.98*float64(notches+slits) {
		t.Error("notches are missed")
	}
}
