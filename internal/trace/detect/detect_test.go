package detect_test

import (
	"math"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/detect"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
)

// trueCorner is where a corner mark is drawn.
func trueCorner(s *scene.Scene, c scene.Card, p geom.Pt) geom.Pt {
	along, across := s.Scale*(1+s.Stretch), s.Scale*(1-s.Stretch)
	if c.ID.Turned() {
		along, across = across, along
	}
	return s.View.Pixel(c.At.Add(geom.Pt{X: p.X * across, Y: p.Y * along}.Rot(c.Angle)))
}

// Every card is found at every tilt, and its corner marks to a few hundredths of
// a pixel: 0.02 to 0.03 is what the quadric's saddle reaches (notes on
// accuracy), 0.06 is what the solver expects.
func TestCards(t *testing.T) {
	prints, err := scene.Prints(6, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range []scene.Condition{
		{Panel: 2, Tilt: 3, Azimuth: 100, MorePixel: 1500, Table: scene.Cloth},
		{Panel: 2, Tilt: 35, Azimuth: 260, K1: 0.05, MorePixel: 1600, Table: scene.Oak, Wood: 0.4, Shadow: 0.35},
		{Panel: 1, Tilt: 25, Azimuth: 20, K1: -0.05, MorePixel: 2600, Table: scene.Grey},
		// The far cards have modules of 2.5 by 4 pixels: only the second look, at the
		// straightened table, sees them.
		{Panel: 2, Tilt: 35, Azimuth: 190, K1: 0.03, MorePixel: 1500, Table: scene.Oak, Wood: 0.3},
	} {
		s, _ := scene.Standard(uint64(100+i), c)
		s.Printed(prints)
		data, err := s.Render()
		if err != nil {
			t.Fatal(err)
		}
		p, found := photo.Load("scene.jpg", data)
		if p == nil {
			t.Fatal(found)
		}
		got := detect.Cards(p)
		if len(got.Cards) != len(s.Cards) || len(got.Unmeasured)+len(got.Twice) > 0 {
			t.Errorf("scene %d: %d cards of %d, %v unmeasured", i, len(got.Cards), len(s.Cards), got.Unmeasured)
		}
		var sum, worst, n float64
		for _, f := range got.Cards {
			for k, q := range cards.Corners() {
				d := f.Px[k].Dist(trueCorner(s, s.Cards[f.Card], q))
				sum, n, worst = sum+d*d, n+2, max(worst, d)
			}
		}
		if rms := math.Sqrt(sum / n); rms > 0.06 || worst > 0.2 {
			t.Errorf("scene %d: corner marks %.3f px out, worst %.3f", i, rms, worst)
		} else {
			t.Logf("scene %d: corner marks %.3f px out, worst %.3f", i, rms, worst)
		}
	}
}
