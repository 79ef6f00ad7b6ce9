package geosref

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/twpayne/go-geos"

	"gusset/internal/geom"
)

// The parallel of a closed curve without corners keeps the area A - Ld + πd²
// (Steiner's formula for parallel curves, with A and L taken by GEOS from a
// fine polyline), and its points lie d from the curve, by GEOS.
// It is refused where the curve bends more tightly than d, and only there.
func TestParallelOfPebblesAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	tried, folded, pinched := 0, 0, 0
	const n = 2000
	for k := range n {
		c := pebble(r)
		fine := c.Flatten(chordErr)
		body := polygon(fine)
		if !body.IsValid() || geom.Area(fine) <= 0 {
			continue
		}
		d := between(r, -25, 25)
		p, err := c.Parallel(d)
		if bend := tightest(c, d); (err != nil) != (bend > 1) && math.Abs(bend-1) > 0.01 {
			t.Errorf("shape %d at %.2f: told %v, its radius there is %.3f of that", k, d, err, 1/bend)
		}
		if err != nil {
			folded++
			continue
		}
		line := p.Flatten(chordErr)
		if p.Start() != p.End() {
			t.Errorf("shape %d at %.2f: the parallel is open by %g", k, d, p.Start().Dist(p.End()))
		}
		line = line[:len(line)-1]
		area := body.Area() - wall(fine).Length()*d + math.Pi*d*d
		if got := geom.Area(line); math.Abs(got-area) > 0.02*geom.Perimeter(line) {
			t.Errorf("shape %d at %.2f: area %.2f, by Steiner's formula %.2f", k, d, got, area)
		}
		if !polygon(line).IsValid() {
			pinched++ // two far parts of the curve come nearer than d: not told by Parallel
			continue
		}
		tried++
		if off := farthest(line, wall(fine), d); off > 0.01+chordErr {
			t.Errorf("shape %d at %.2f: a point lies %.4f from where it should", k, d, off)
		}
	}
	t.Logf("%d of %d tried, %d folded, %d pinched", tried, n, folded, pinched)
	if tried < n/3 {
		t.Errorf("only %d of %d tried", tried, n)
	}
}

// tightest returns the largest curvature towards the side of d, times d: above 1
// the parallel runs backwards.
func tightest(c geom.Curve, d float64) float64 {
	worst := 0.0
	for _, s := range c {
		for k := range 500 {
			worst = max(worst, s.Curvature((float64(k)+0.5)/500)*d)
		}
	}
	return worst
}

// farthest returns how far the distance of some sixty points from the curve is from |d|.
func farthest(line []geom.Pt, curve *geos.Geom, d float64) float64 {
	worst := 0.0
	for i := 0; i < len(line); i += 1 + len(line)/60 {
		p := line[i]
		worst = max(worst, math.Abs(geos.NewPoint([]float64{p.X, p.Y}).Distance(curve)-math.Abs(d)))
	}
	return worst
}

// The parallel of a closed curve with corners covers what GEOS's mitred buffer
// of a fine polyline covers, as far as GEOS's own simplification of hollows
// allows (a hundredth of the distance), and none of it lies nearer than d.
func TestParallelOfOutlinesAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	tried, folded, pinched := 0, 0, 0
	const n = 3000
	for k := range n {
		c := outline(r)
		fine := c.Flatten(chordErr)
		fine = fine[:len(fine)-1]
		body := polygon(fine)
		if !body.IsValid() || geom.Area(fine) <= 0 || sharpest(c) > 2.5 {
			continue
		}
		d := between(r, -25, 25)
		p, err := c.Parallel(d)
		if err != nil {
			folded++
			continue
		}
		line := p.Flatten(chordErr)
		line = line[:len(line)-1]
		if !polygon(line).IsValid() {
			pinched++
			continue
		}
		tried++
		curve := wall(fine)
		for i := 0; i < len(line); i += 1 + len(line)/100 {
			q := line[i]
			if at := geos.NewPoint([]float64{q.X, q.Y}).Distance(curve); at < math.Abs(d)-0.01-chordErr {
				t.Errorf("shape %d at %.2f: a point lies only %.4f from the outline", k, d, at)
				break
			}
		}
		off := polygon(line).SymDifferencePrec(mitred(fine, d, 4), 1e-6).Area()
		if room := (0.01*math.Abs(d) + 0.02) * geom.Perimeter(line); off > room {
			t.Errorf("shape %d at %.2f: differs by %.2f mm² of %.0f, room %.2f", k, d, off, geom.Area(line), room)
		}
	}
	t.Logf("%d of %d tried, %d folded, %d pinched", tried, n, folded, pinched)
	if tried < n/3 {
		t.Errorf("only %d of %d tried", tried, n)
	}
}

// sharpest returns the largest turn at a corner of a closed curve, in radians.
func sharpest(c geom.Curve) float64 {
	worst := 0.0
	for _, j := range append(append(geom.Curve(nil), c...), c[0]).TurnAtJoints() {
		worst = max(worst, math.Abs(j.Turn))
	}
	return worst
}
