package demo

import (
	"context"
	"io/fs"
	"math"
	"os"
	"path"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/making"
	"gusset/internal/needs"
	"gusset/internal/unit"
)

// typical is what a garment usually takes of cloth 58 to 60 in wide, mm. Source:
// typical needs by width of the United States extension service, read in two
// copies: capri pants 1 1/2 yd, straight skirt 1 1/4 yd; jeans about 1.6 m of
// denim.
var typical = map[string]float64{
	"quay/long":    1600,
	"quay/cropped": 1.5 * 914.4,
	"weir/knee":    1.25 * 914.4,
}

// longer says why the main cloth of a docket takes more than is typical; none
// does at present.
var longer = map[string]string{}

// Every fold plan of every docket is told with its length; the one chosen is
// never longer than any other, every cloth fits, and the main cloth takes no
// more than is typical for the garment on cloth of that width, or it is said
// here why. For one-way cloth the same source adds a quarter of a yard.
func TestLaysOfTheDockets(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: the dockets are laid in full without the race detector")
	}
	files, err := fs.Glob(Files, "dockets/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, file := range files {
		in, found, err := making.Open(Files, file)
		if err != nil || found.Stops() > 0 {
			t.Fatal(file, err, found.Codes())
		}
		r := making.Run(context.Background(), in, making.Lay, making.Effort{Rounds: 200, Seed: 1}, nil)
		if r.Findings.Stops() > 0 {
			t.Errorf("%s: %v", file, r.Findings.Codes())
		}
		for _, l := range r.Lays {
			for _, a := range l.Tried {
				t.Logf("%s, %s: %-12s %7.1f mm after %d rounds", path.Base(file), l.Role, a.Plan, a.Length, a.Rounds)
				if a.Unplaced == 0 && a.Length < l.Length {
					t.Errorf("%s, %s: %s takes %.1f mm, %s was chosen with %.1f mm", file, l.Role, a.Plan, a.Length, l.Plan, l.Length)
				}
			}
			if l.Role == cloth.Main {
				againstTypical(t, in, l.Length, l.Cloth)
			}
		}
	}
}

func againstTypical(t *testing.T, in making.Inputs, length float64, c cloth.Cloth) {
	t.Helper()
	usual, ok := typical[in.Pattern.Name+"/"+in.Docket.View]
	if !ok {
		t.Logf("%s: nothing typical is known of %s/%s", in.Docket.Name, in.Pattern.Name, in.Docket.View)
		return
	}
	width := c.Width.MM() * (1 - c.ShrinkWeft)
	if other, ok := needs.Yardage(usual, unit.Of(59, unit.Inch).MM(), width); ok {
		usual = other
	}
	if c.TopsOneWay() {
		usual += 914.4 / 4
	}
	why := longer[in.Docket.Name]
	switch over := length - usual; {
	case over > 0 && why == "":
		t.Errorf("%s takes %.0f mm, %.0f more than is typical, and nothing says why", in.Docket.Name, length, math.Round(over))
	case over <= 0 && why != "":
		t.Errorf("%s takes %.0f mm of the typical %.0f, and is said to take more: %s", in.Docket.Name, length, usual, why)
	default:
		t.Logf("%s takes %.0f mm, typical %.0f mm", in.Docket.Name, length, usual)
	}
}
