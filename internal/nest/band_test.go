package nest

import (
	"context"
	"math"
	"testing"
)

// Three squares of 100 mm that must keep to the upper 100 mm of a strip 300 mm
// wide lie in a row, whatever room is below; by hand the length is 300 mm and
// two clearances. A fourth without a band lies beside them.
func TestBandAcross(t *testing.T) {
	square := []Pt{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	free := Part{Shape: square, Poses: []Orientation{{}}}
	kept := free
	kept.Across = [2]float64{200, 300}
	p := Problem{Containers: []Container{{Width: 300}}, Parts: []Part{kept, free, kept, kept}}
	for _, rounds := range []int{0, 30} {
		l, _, err := Search(context.Background(), p, Budget{Rounds: rounds, Lanes: 2, Seed: 1}, nil, nil)
		if err != nil || len(l.Unplaced) > 0 {
			t.Fatalf("%v, unplaced %v", err, l.Unplaced)
		}
		if math.Abs(l.Length-300) > 0.02 {
			t.Errorf("%d rounds: length %v", rounds, l.Length)
		}
		for _, pl := range l.Placements {
			if pl.Part != 1 && pl.At.Y != 200 {
				t.Errorf("%d rounds: part %d lies at %v", rounds, pl.Part, pl.At)
			}
		}
	}
	kept.Across = [2]float64{200, 250} // too narrow for it
	p.Parts = []Part{kept}
	if l, _, err := Search(context.Background(), p, Budget{}, nil, nil); err != nil || len(l.Unplaced) != 1 {
		t.Errorf("%v, unplaced %v", err, l.Unplaced)
	}
	p.Parts[0].Across = [2]float64{250, 200}
	if _, _, err := Search(context.Background(), p, Budget{}, nil, nil); err == nil {
		t.Error("a band inside out was taken")
	}
}
