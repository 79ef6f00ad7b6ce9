package nest

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// Instances of the literature on irregular strip packing, kept outside the
// repository: albano, dagli, fu, jakobs, mao, marques, poly, shapes, shirts,
// swim (as collected by the ESICUP working group on cutting and packing).

type instance struct {
	Name  string
	Width float64 `json:"strip_width"`
	Items []struct {
		Demand int
		Poses  []float64    `json:"allowed_rotations_deg"`
		Outer  [][2]float64 `json:"outer"`
	}
}

func loadInstance(t testing.TB, name string) Problem {
	t.Helper()
	path := filepath.Join("..", "..", "..", "shared", "data", "nest", name+".json")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Skipf("instance %s is not here: %v", name, err)
	}
	var in instance
	if err := json.Unmarshal(data, &in); err != nil {
		t.Fatal(err)
	}
	p := Problem{Containers: []Container{{Width: in.Width}}}
	// Some instances count in units of a few pieces' breadth; they are scaled
	// so that the clearance is as small beside them as beside cloth.
	scale := 1500 / in.Width
	p.Containers[0].Width = 1500
	for _, it := range in.Items {
		part := Part{}
		for _, d := range it.Poses {
			part.Poses = append(part.Poses, Orientation{Degrees: d})
		}
		for _, q := range it.Outer {
			part.Shape = append(part.Shape, Pt{q[0] * scale, q[1] * scale})
		}
		if signedArea(part.Shape) < 0 {
			t.Fatalf("%s: a clockwise shape", name)
		}
		for range it.Demand {
			p.Parts = append(p.Parts, part)
		}
	}
	return p
}

var instances = []string{"albano", "blaz1", "dagli", "fu", "jakobs1", "jakobs2", "mao", "marques", "poly1a", "shapes0", "shapes1", "shirts", "swim"}

func TestInstancesFirstLayout(t *testing.T) {
	for _, name := range instances {
		t.Run(name, func(t *testing.T) {
			p := loadInstance(t, name)
			l, st, err := Search(context.Background(), p, Budget{Lanes: 2, Seed: 1}, nil, nil)
			if err != nil {
				t.Fatal(err)
			}
			judge(t, p, l)
			if len(l.Unplaced) > 0 {
				t.Errorf("unplaced: %v", l.Unplaced)
			}
			if st.Density < 0.55 {
				t.Errorf("density %.3f", st.Density)
			}
			t.Logf("%d parts, density %.1f %%", len(p.Parts), 100*st.Density)
		})
	}
}

func BenchmarkInstances(b *testing.B) {
	for _, rounds := range []int{0, 300, 2000} {
		for _, name := range instances {
			b.Run(fmt.Sprintf("%s/rounds=%d", name, rounds), func(b *testing.B) {
				p := loadInstance(b, name)
				var st Stats
				for b.Loop() {
					_, st, _ = Search(context.Background(), p, Budget{Rounds: rounds, Lanes: 2, Seed: 1}, nil, nil)
				}
				b.ReportMetric(100*st.Density, "%density")
			})
		}
	}
}

// Densities after a fixed number of rounds, in per cent, as the literature
// states them: area of all pieces over the strip used. The floors are what the
// search reached when they were set, less one.
func TestInstanceDensities(t *testing.T) {
	for _, c := range []struct {
		name  string
		floor float64
	}{{"albano", 82.5}, {"dagli", 81.1}, {"mao", 79.4}, {"marques", 84.6}, {"shirts", 80.9}, {"swim", 69}} {
		t.Run(c.name, func(t *testing.T) {
			p := loadInstance(t, c.name)
			l, st := solve(t, p, Budget{Rounds: 400, Lanes: 2, Seed: 1})
			if 100*st.Density < c.floor {
				t.Errorf("density %.2f %%, at least %v wanted, length %v", 100*st.Density, c.floor, l.Length)
			}
			t.Logf("density %.2f %%", 100*st.Density)
		})
	}
}
