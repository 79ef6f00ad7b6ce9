package needs

import (
	"testing"

	"gusset/internal/construct"
	"gusset/internal/machine"
)

// An adult's jeans sewn by factory methods take 180 to 204 m of thread (two
// thread makers' sheets: 180 m; 223 yd, 203.9 m). The stitches are those of a
// published operation sheet for jeans as far as it could be read (serging 504,
// pockets hemmed 401 twice, back pockets and watch pocket 301, yoke and seat 401
// twice, loops 406, zip 401); the rest is common practice: safety stitch 516 on
// leg seams and bags, chainstitch on band and hem, bar tacks 304. Lengths are of
// trousers of a hip of 104 cm, the demo's, measured on its stitching lines, and
// of usual pockets; thickness is left open so that the published ratios count.
func TestJeansTotal(t *testing.T) {
	var ops []construct.Operation
	for _, r := range []struct {
		id, stitch string
		rows       int
		metres     float64
	}{
		{"outseams", "516", 1, 2 * 1.06}, {"outseam, upper part topstitched", "301", 1, 2 * 0.18},
		{"inseams", "516", 1, 2 * 0.77}, {"inseams topstitched", "401", 1, 2 * 0.77},
		{"yoke", "401", 2, 2 * 0.23}, {"seat", "401", 2, 0.36}, {"front rise", "401", 2, 0.13},
		{"band", "401", 2, 0.87}, {"hems", "401", 1, 2 * 0.44}, {"loops", "406", 1, 0.51},
		{"back pockets hemmed", "401", 2, 2 * 0.15}, {"back pockets set", "301", 2, 2 * 0.42}, {"back pocket design", "301", 2, 2 * 0.2},
		{"watch pocket", "301", 2, 0.3}, {"front pockets faced", "301", 1, 4 * 0.2}, {"front pocket mouths", "301", 2, 2 * 0.2},
		{"pocket bags closed", "516", 1, 2 * 0.5}, {"fly edges serged", "504", 1, 3 * 0.2}, {"zip", "401", 2, 0.36}, {"fly topstitched", "301", 2, 0.18},
		{"bar tacks", "304", 1, 20 * 0.012},
	} {
		ops = append(ops, construct.Operation{ID: r.id, Machine: machine.Lockstitch, Stitch: r.stitch, Rows: r.rows, Length: 1000 * r.metres})
	}
	all, found := threads(ops)
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	total := 0.0
	for _, th := range all {
		total += withWaste(th.Sewn) / 1000
	}
	if total < 180 || total > 204 {
		t.Errorf("%.1f m of thread, published 180 to 204 m", total)
	}
	t.Logf("%.1f m", total)
}
