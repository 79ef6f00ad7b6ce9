package lay_test

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/lay"
)

// Being told how far the search has come changes nothing of what it finds; the
// share never goes back, and ends near the whole.
func TestProgress(t *testing.T) {
	cuts := trousers(rand.New(rand.NewPCG(3, 3)))
	for _, o := range []lay.Options{{Rounds: 40}, {Rounds: 40, Fold: "open"}, {Rounds: 20, Table: 1400}} {
		quiet, _ := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, o)
		last, times := 0.0, 0
		o.Progress = func(share float64) {
			if share < last || share > 1 {
				t.Errorf("%v after %v", share, last)
			}
			last = share
			times++
		}
		l, _ := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, o)
		if !reflect.DeepEqual(l, quiet) {
			t.Error("another lay is found when progress is told")
		}
		if times < 20 || last < 0.5 {
			t.Errorf("told %d times, %v at last", times, last)
		}
	}
}
