package nest

import (
	"math/bits"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// The sieve against its slow twin, every box in turn: it leaves out no body that
// a box meets, also after bodies have moved and beyond the range it was made for;
// and one that lies more than a step and a gap away on either axis it does leave out.
func TestSieveAgainstEveryBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-300, 1500)
		boxes := rapid.Custom(func(t *rapid.T) box {
			x, y := coordinate.Draw(t, "x"), coordinate.Draw(t, "y")
			return box{x, y, x + rapid.Float64Range(0, 600).Draw(t, "long"), y + rapid.Float64Range(0, 600).Draw(t, "wide")}
		})
		bodies := rapid.SliceOfN(boxes, 1, 150).Draw(t, "bodies")
		whole := box{0, 0, 1280, 1280}
		const gap, step = 2.0, 10.0
		v := newSieve(len(bodies), whole, gap)
		for i, b := range bodies {
			v.put(i, b)
		}
		for range rapid.IntRange(0, 20).Draw(t, "moves") {
			i := rapid.IntRange(0, len(bodies)-1).Draw(t, "moved")
			bodies[i] = boxes.Draw(t, "to")
			v.put(i, bodies[i])
		}
		query := boxes.Draw(t, "query")
		var met []int
		for w := range v.words {
			for set := v.met(v.ask(query), w); set != 0; set &= set - 1 {
				met = append(met, w<<6+bits.TrailingZeros64(set))
			}
		}
		in := whole.holds(query)
		for i, b := range bodies {
			has := slices.Contains(met, i)
			if !query.apart(b, gap) && !has {
				t.Fatalf("body %d at %v is left out for %v", i, b, query)
			}
			if has && in && whole.holds(b) && query.apart(b, 2*gap+step+1e-6) {
				t.Fatalf("body %d at %v is not left out for %v", i, b, query)
			}
		}
	})
}
