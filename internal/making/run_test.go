package making

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"gusset/demo"
	"gusset/internal/body"
	"gusset/internal/docket"
	"gusset/internal/unit"
)

// printedSlips are what each docket's printed order has out of turn.
var printedSlips = map[string][]string{
	"dockets/quay-long.yaml": {"order.out-of-turn: step 12 of the printed order does fly.outside before fly.unpick: " +
		"while the opening is basted shut the slider cannot be moved clear of the needle, and the top of the line goes wrong"},
}

var demoDockets = []string{"dockets/quay-long.yaml", "dockets/quay-cropped.yaml"}

func openDemo(t testing.TB, docket string) Inputs {
	t.Helper()
	in, found, err := Open(demo.Files, docket)
	if err != nil || found.Stops() > 0 {
		t.Fatal(err, found)
	}
	return in
}

// Both demo dockets run through every stage without a stop; every seam is
// within half a millimetre after the changes. The only warning is of the line
// that the long view's printed order has out of turn.
func TestRunDemo(t *testing.T) {
	for _, d := range demoDockets {
		r := Run(context.Background(), openDemo(t, d), Needs, Effort{Seed: 1}, nil)
		var warned []string
		for _, f := range r.Findings {
			if f.Severity().String() != "advice" {
				warned = append(warned, f.Code()+": "+f.Text())
			}
		}
		if want := printedSlips[d]; !slices.Equal(warned, want) {
			t.Errorf("%s: warned of %q, want %q", d, warned, want)
		}
		if r.Reached != Needs || r.Walked.Widest() > 0.5 || len(r.Lays) < 2 || len(r.Needs.Threads()) == 0 {
			t.Errorf("%s: reached %d, widest %.2f mm, %d lays", d, r.Reached, r.Walked.Widest(), len(r.Lays))
		}
	}
}

// A stage whose inputs have not changed is not run again, and the result is
// the same as from nothing.
func TestRunAgain(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	first := Run(context.Background(), in, Needs, Effort{Seed: 1}, nil)
	again := Run(context.Background(), in, Needs, Effort{Seed: 1}, &first)
	if again.Digest != first.Digest || len(again.Findings) != len(first.Findings) {
		t.Errorf("digest %s, then %s", first.Digest, again.Digest)
	}
	in.Docket.Changes = in.Docket.Changes[:1]
	less := Run(context.Background(), in, Needs, Effort{Seed: 1}, &first)
	fresh := Run(context.Background(), in, Needs, Effort{Seed: 1}, nil)
	if less.Digest == first.Digest || less.Digest != fresh.Digest || less.Lays[0].Length != fresh.Lays[0].Length {
		t.Errorf("a changed recipe: digest %s from the earlier result, %s from nothing", less.Digest, fresh.Digest)
	}
}

// Of several earlier results each stage is taken over from the one that has it.
func TestRunAgainOfSeveral(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	in.Docket.Fold = "open"
	before := Run(context.Background(), in, Needs, Effort{Seed: 1}, nil)
	in.Docket.Threads = map[string]string{"main": "rust"}
	pieces := Run(context.Background(), in, Finish, Effort{}, nil) // made anew, of the same
	again := Run(context.Background(), in, Needs, Effort{Seed: 1}, &pieces, &before)
	if &again.Cut.Pieces()[0] != &pieces.Cut.Pieces()[0] || &again.Steps.Steps()[0] != &before.Steps.Steps()[0] {
		t.Error("pieces or order were made again")
	}
	if fresh := Run(context.Background(), in, Needs, Effort{Seed: 1}, nil); again.Digest != fresh.Digest || again.Digest == before.Digest {
		t.Errorf("digest %s, of nothing %s, before %s", again.Digest, fresh.Digest, before.Digest)
	}
}

// Another lay leaves the order of work as it is, and what names the whole make
// tells the two apart.
func TestOrderOfAnotherLay(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	in.Docket.Fold = "open"
	first := Run(context.Background(), in, Needs, Effort{Seed: 1}, nil)
	other := Run(context.Background(), in, Needs, Effort{Seed: 1, Rounds: 2}, &first)
	if &first.Steps.Steps()[0] != &other.Steps.Steps()[0] || first.DigestOf(Order) != other.DigestOf(Order) {
		t.Error("the order of work was made again")
	}
	if first.Digest == other.Digest || first.On(context.Background(), in, Needs).DigestOf(Order) != other.DigestOf(Order) {
		t.Errorf("digests %s and %s", first.Digest, other.Digest)
	}
	laid, again := Run(context.Background(), in, Order, Effort{Seed: 1}, nil), Run(context.Background(), in, Order, Effort{Seed: 1, Rounds: 2}, nil)
	if laid.Digest == again.Digest || laid.DigestOf(Needs) != "" {
		t.Errorf("up to the order, of two lays: %s and %s", laid.Digest, again.Digest)
	}
}

// Amounts that read alike, written out, are not taken for the same.
func TestRunAgainTinyStep(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	step := docket.Change{Kind: docket.Lengthen, At: "leg", By: unit.MM(4)}
	first := Run(context.Background(), oneMore(in, step), Change, Effort{}, nil)
	step.By = unit.MM(4.004)
	if step.By.String() != unit.MM(4).String() {
		t.Fatalf("%s does not read alike", step.By)
	}
	again := Run(context.Background(), oneMore(in, step), Change, Effort{}, &first)
	was, now := first.Garment().Pieces["front"].Outline(0.1), again.Garment().Pieces["front"].Outline(0.1)
	if first.Digest == again.Digest || slices.Equal(was, now) {
		t.Error("the legs are as they were before the last four thousandths")
	}
}

// Ten random blends of each view: all seams within half a millimetre of their
// stated ease (the figure asked of walking).
func TestRandomBlendsWalk(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 7))
	for _, d := range demoDockets {
		in := openDemo(t, d)
		in.Docket.Changes = nil
		for range 10 {
			at := 8 + 12*rnd.Float64()
			zones := map[string]string{}
			for _, z := range in.Pattern.Zones {
				zones[z.Name] = unitless(at)
				at = min(20, max(8, at+4*rnd.Float64()-2))
			}
			in.Docket.Size.All, in.Docket.Size.Zones = "", zones
			r := Run(context.Background(), in, Walk, Effort{}, nil)
			if r.Findings.Stops() > 0 || r.Walked.Widest() > 0.5 {
				t.Errorf("%s %v: widest %.3f mm, %v", d, zones, r.Walked.Widest(), r.Findings)
			}
		}
	}
}

func unitless(v float64) string {
	s := unit.Format(v, unit.Millimetre)
	return s[:len(s)-len(" mm")]
}

// BenchmarkMake is the whole make with its first lay.
func BenchmarkMake(b *testing.B) {
	in := openDemo(b, demoDockets[0])
	for b.Loop() {
		Run(context.Background(), in, Needs, Effort{Seed: 1}, nil)
	}
}

// A row of a published body table goes through the demo's pattern: misses size
// 16 (bust 38, waist 30, hip 40 in; body tables of the US pattern industry, as
// reproduced on sewingscholar.blogspot.com, February 2011). By its hip that
// body lies between our printed 12 (38 1/2 in) and 14 (40 1/2 in), three
// quarters of the way; by its waist between 12 (29 1/2) and 14 (31 1/2), a
// quarter.
func TestPublishedBody(t *testing.T) {
	in := openDemo(t, demoDockets[0])
	in.Docket.Changes = nil
	in.Body = body.Body{Title: "misses 16", WaistAt: "natural", Measures: map[body.Measure]unit.Length{
		body.Waist: unit.Of(30, unit.Inch), body.Hip: unit.Of(40, unit.Inch),
	}}
	r := Run(context.Background(), in, Walk, Effort{}, nil)
	if r.Findings.Stops() > 0 {
		t.Fatal(r.Findings)
	}
	want := map[string]string{"waist": "12.5", "hip": "13.5"}
	for _, z := range r.Sized.Zones() {
		if w, ok := want[z.Zone]; ok && z.Label != w {
			t.Errorf("%s is size %s, want %s", z.Zone, z.Label, w)
		}
	}
	if r.Walked.Widest() > 0.5 {
		t.Errorf("a seam misses by %.2f mm", r.Walked.Widest())
	}
}
