package lay_test

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/unit"
)

// Being told how far the search has come changes nothing of what it finds; the
// share never goes back and ends at the whole, also where the lay is searched
// again in sections for the table, or round a flaw above a fold: there too it
// goes on while that is searched.
func TestProgress(t *testing.T) {
	cuts := trousers(rand.New(rand.NewPCG(3, 3)))
	flawed := drill(cloth.TwoWay)
	flawed.Flaws = []cloth.Flaw{{At: cloth.Spot{FromEnd: unit.MM(1500), FromSelvedge: unit.MM(700)}, Size: unit.MM(30)}}
	for _, k := range []struct {
		c cloth.Cloth
		o lay.Options
	}{
		{drill(cloth.OneWay), lay.Options{Rounds: 40}}, {drill(cloth.OneWay), lay.Options{Rounds: 40, Fold: "open"}},
		{drill(cloth.OneWay), lay.Options{Rounds: 20, Table: 1400}},
		{flawed, lay.Options{Rounds: 16}},
	} {
		c, o := k.c, k.o
		quiet, _ := lay.Make(context.Background(), c, cloth.Main, cuts, o)
		last, times, widest := 0.0, 0, 0.0
		o.Progress = func(share float64) {
			if share < last || share > 1 {
				t.Errorf("%v after %v", share, last)
			}
			widest = max(widest, share-last)
			last = share
			times++
		}
		l, _ := lay.Make(context.Background(), c, cloth.Main, cuts, o)
		if !reflect.DeepEqual(l, quiet) {
			t.Error("another lay is found when progress is told")
		}
		if times < 20 || last < 0.999 || widest > 0.5 {
			t.Errorf("%+v: told %d times, %v at last, by %v at most", o, times, last, widest)
		}
	}
}
