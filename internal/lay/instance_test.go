package lay_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/lay"
)

// Garment outlines of the open packing sets (collected by the ESICUP working
// group on cutting and packing), kept outside the repository.
func readInstance(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "data", "nest", name+".json"))
	if err != nil {
		t.Skipf("instance %s is not here: %v", name, err)
	}
	return data
}

// The files state their total area and number of items; both must come out
// again, and the referee must pass the lay.
func TestInstances(t *testing.T) {
	for _, c := range []struct {
		name   string
		rounds int
	}{{"shirts", 0}, {"swim", 0}, {"albano", 200}, {"dagli", 0}, {"shapes0", 0}} {
		t.Run(c.name, func(t *testing.T) {
			data := readInstance(t, c.name)
			in, err := lay.FromInstance(data)
			if err != nil {
				t.Fatal(err)
			}
			var said struct {
				Area  float64 `json:"total_area"`
				Items int     `json:"num_items"`
			}
			if err := json.Unmarshal(data, &said); err != nil {
				t.Fatal(err)
			}
			if len(in.Cuts) != said.Items || math.Abs(in.Area-said.Area) > 1e-6*said.Area {
				t.Errorf("%d items of area %v, the file says %d of %v", len(in.Cuts), in.Area, said.Items, said.Area)
			}
			l, found := lay.Make(context.Background(), in.Cloth, cloth.Main, in.Cuts, lay.Options{Rounds: c.rounds, Seed: 1})
			if len(found) > 0 || len(l.Unplaced) > 0 {
				t.Fatalf("%v, unplaced %v", found.Codes(), l.Unplaced)
			}
			pass(t, in.Cuts, in.Cloth, l)
			// The cut area, worked back from the lay's own density.
			whole := l.Density * in.Cloth.UsableWidth() * l.Length / (in.Unit * in.Unit)
			if math.Abs(whole-said.Area) > 1e-4*said.Area || in.Density(l) < 0.55 || in.Density(l) > 1 {
				t.Errorf("cut area %v, file's %v, density %.3f", whole, said.Area, in.Density(l))
			}
			t.Logf("%d pieces, length %.3f, density %.2f %%", len(in.Cuts), in.Length(l), 100*in.Density(l))
		})
	}
}

// One unit square in a strip of width 2: by hand, length 1, half the strip.
func TestInstanceKnown(t *testing.T) {
	in, err := lay.FromInstance([]byte(`{"name": "unit", "strip_width": 2, "items": [
		{"id": 3, "demand": 1, "allowed_rotations_deg": [0], "outer": [[0, 0], [0, 1], [1, 1], [1, 0]]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	l, _ := lay.Make(context.Background(), in.Cloth, cloth.Main, in.Cuts, lay.Options{})
	pass(t, in.Cuts, in.Cloth, l)
	if in.Length(l) != 1 || in.Density(l) != 0.5 || in.Cuts[0].ID != "item-3#1" || in.Cloth.Direction != cloth.OneWay {
		t.Errorf("length %v, density %v, %s", in.Length(l), in.Density(l), in.Cuts[0].ID)
	}
}

func TestInstanceRefused(t *testing.T) {
	square := `"outer": [[0, 0], [1, 0], [1, 1], [0, 1]]`
	for _, c := range []struct{ file, want string }{
		{`{`, "packing problem"},
		{`{"strip_width": 0, "items": [{}]}`, "strip width of 0"},
		{`{"strip_width": 2, "items": []}`, "0 items"},
		{`{"strip_width": 2, "items": [{"demand": 1, "allowed_rotations_deg": [0, 90], ` + square + `}]}`, "leave the grain"},
		{`{"strip_width": 2, "items": [{"demand": 1, "allowed_rotations_deg": [0], ` + square + `},
			{"id": 1, "demand": 1, "allowed_rotations_deg": [0, 180], ` + square + `}]}`, "different turns"},
		{`{"strip_width": 2, "items": [{"demand": 1, "allowed_rotations_deg": [0], "outer": [[0, 0], [1, 1]]}]}`, "2 points"},
		{`{"strip_width": 2, "items": [{"demand": -1, "allowed_rotations_deg": [0], ` + square + `}]}`, "wanted -1 times"},
		{`{"strip_width": 2, "items": [{"demand": 99999, "allowed_rotations_deg": [0], ` + square + `}]}`, "wanted 99999 times"},
		{`{"strip_width": 2, "items": [{"demand": 1, "allowed_rotations_deg": [0], "outer": [[0, 0], [1e9, 0], [0, 1]]}]}`, "times the strip's width"},
	} {
		if _, err := lay.FromInstance([]byte(c.file)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.want, err)
		}
	}
}

// FuzzFromInstance: no input makes it panic.
func FuzzFromInstance(f *testing.F) {
	f.Add([]byte(`{"strip_width": 2, "items": [{"demand": 1, "allowed_rotations_deg": [0], "outer": [[0, 0], [1, 0], [0, 1]]}]}`))
	f.Fuzz(func(_ *testing.T, data []byte) { _, _ = lay.FromInstance(data) })
}

func BenchmarkInstances(b *testing.B) {
	for _, name := range []string{"shirts", "swim", "albano"} {
		for _, rounds := range []int{0, 300} {
			b.Run(name, func(b *testing.B) {
				in, err := lay.FromInstance(readInstance(b, name))
				if err != nil {
					b.Fatal(err)
				}
				var l lay.Lay
				for b.Loop() {
					l, _ = lay.Make(context.Background(), in.Cloth, cloth.Main, in.Cuts, lay.Options{Rounds: rounds, Seed: 1})
				}
				b.ReportMetric(100*in.Density(l), "%density")
				b.ReportMetric(in.Length(l), "length")
			})
		}
	}
}
