package making

import (
	"context"
	"os"
	"slices"
	"testing"

	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/unit"
)

// Swapping a method of the demo's trousers moves pieces, allowances, operations
// and materials together, in both views, in the smallest, a middle and the
// largest size: no finding stops, every seam walks, and every piece is cut. The
// hip is set to what every waist passes; TestPutOn is about that.
func TestSwapsOfPieces(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("many makes one after the other: left out of the quick run")
	}
	for _, c := range []struct {
		methods   map[string]string
		cut, gone []string // pieces
		made      string   // an operation
		bought    string   // a notion
	}{
		{map[string]string{"fly": "sewn-shut", "waist": "elastic-band"},
			[]string{"waist-strip"}, []string{"band", "fly-facing", "shield"}, "waist.thread", "elastic"},
		{map[string]string{"hem": "faced-hem"}, []string{"hem-facing-"}, nil, "hem.understitch@left", ""},
		{map[string]string{"loops": "tab-buttonhole"}, []string{"loops-tab"}, []string{"loops"}, "loops.hole", "button"},
	} {
		for _, name := range demoDockets {
			for _, size := range []string{"8", "14", "20"} {
				in := openDemo(t, name)
				in.Docket.Methods, in.Docket.Changes = c.methods, nil
				in.Docket.Size = docket.Size{All: size}
				in.Body.Measures["hip"] = unit.MM(600)
				r := Run(context.Background(), in, Finish, Effort{}, nil)
				for _, f := range r.Findings {
					if f.Severity() == finding.Stop {
						t.Errorf("%s %s %v: %s: %s", name, size, c.methods, f.Code(), f.Text())
					}
				}
				checkSwapped(t, r, c.cut, c.gone, c.made, c.bought)
			}
		}
	}
}

func checkSwapped(t *testing.T, r Result, cut, gone []string, made, bought string) {
	t.Helper()
	has := func(want string) bool {
		for _, k := range r.Cut.Pieces() {
			if k.Piece == want || len(k.Piece) > len(want) && want[len(want)-1] == '-' && k.Piece[:len(want)] == want {
				return true
			}
		}
		return false
	}
	for _, want := range cut {
		if !has(want) {
			t.Errorf("%s is not cut", want)
		}
	}
	for _, not := range gone {
		if has(not) {
			t.Errorf("%s is cut", not)
		}
	}
	if r.Walked.Widest() > 0.5 {
		t.Errorf("a seam gapes by %.2f mm", r.Walked.Widest())
	}
	ordered := false
	for _, o := range r.Plan.Operations() {
		ordered = ordered || o.ID == made
	}
	if !ordered {
		t.Errorf("%s is not done", made)
	}
	if bought == "" {
		return
	}
	var kinds []string
	for _, n := range r.Plan.Notions() {
		kinds = append(kinds, n.Kind)
	}
	if !slices.Contains(kinds, bought) {
		t.Errorf("%s is not among the needs %v", bought, kinds)
	}
}

// A waist without an opening must pass the hips: the demo's trousers with the
// fly sewn shut cannot be put on until the outseams are let out.
func TestPutOn(t *testing.T) {
	in := openDemo(t, "dockets/quay-long.yaml")
	in.Docket.Methods = map[string]string{"fly": "sewn-shut", "waist": "elastic-band"}
	if r := Run(context.Background(), in, Construct, Effort{}, nil); !r.Findings.Has("making.cannot-put-on") {
		t.Errorf("it is put on over the hips: %v", r.Findings.Codes())
	}
	in.Docket.Changes = append(in.Docket.Changes, docket.Change{ID: "waist", Kind: docket.TakeIn, Item: "outseam", By: unit.MM(-60), At: "waist", From: "hip"})
	if r := Run(context.Background(), in, Construct, Effort{}, nil); r.Findings.Stops() > 0 {
		t.Errorf("let out, it is still refused: %v", r.Findings.Codes())
	}
	delete(in.Body.Measures, "hip")
	in.Docket.Size = docket.Size{All: "12"}
	if r := Run(context.Background(), in, Construct, Effort{}, nil); !r.Findings.Has("making.put-on-unknown") {
		t.Errorf("nobody knows whether it passes: %v", r.Findings.Codes())
	}
}

// The buttonhole that is worked is the one that the list of needs names:
// diameter, thickness and 3 mm for the cloth (published sewing handbooks), of the
// button that the docket has measured and not of the method's usual one.
func TestButtonholeAsMeasured(t *testing.T) {
	for _, size := range [][2]float64{{18, 3}, {25, 4.5}} {
		in := openDemo(t, "dockets/quay-long.yaml")
		in.Docket.Button = docket.Button{Diameter: unit.MM(size[0]), Thickness: unit.MM(size[1])}
		r := Run(context.Background(), in, Construct, Effort{}, nil)
		worked := 0.0
		for _, o := range r.Plan.Operations() {
			if o.ID == "fly.buttonhole" {
				worked = o.Length
			}
		}
		if want := size[0] + size[1] + 3; worked != want {
			t.Errorf("a button %.0f by %.1f mm has a hole of %.1f mm, want %.1f", size[0], size[1], worked, want)
		}
	}
}

// A seam let out at the level of the waist, which its edges end just short of:
// four edges let out by 20 mm make the waist 80 mm longer (CWU Costume Text ch.
// 17: divide by the number of seam edges), less what their slant takes, and the
// hip, where the letting out begins, stays as it was.
func TestLetOutAtTheWaist(t *testing.T) {
	measure := func(changes ...docket.Change) (waist, hip float64) {
		in := openDemo(t, "dockets/quay-long.yaml")
		in.Docket.Methods = map[string]string{"fly": "sewn-shut", "waist": "elastic-band"}
		in.Docket.Changes = changes
		in.Body.Measures["hip"] = unit.MM(600)
		in.Docket.Size = docket.Size{All: "14"}
		r := Run(context.Background(), in, Walk, Effort{}, nil)
		if r.Findings.Stops() > 0 {
			t.Fatal(r.Findings.Codes())
		}
		for _, s := range r.Walked.Seams() {
			if s.Seam.ID == "waist" {
				waist = s.Lengths[0]
			}
		}
		for _, name := range []string{"front", "back"} {
			p := r.Garment().Pieces[name]
			l, _ := p.LineNamed("hip")
			y := l.Curve.Start().Y
			line := geom.Polyline(geom.Pt{X: -1e4, Y: y}, geom.Pt{X: 1e4, Y: y})
			var xs []float64
			for _, e := range p.Edges {
				for _, c := range geom.Crossings(e.Curve, line) {
					xs = append(xs, c.P.X)
				}
			}
			hip += slices.Max(xs) - slices.Min(xs)
		}
		return waist, hip
	}
	w0, h0 := measure()
	w1, h1 := measure(docket.Change{ID: "out", Kind: docket.TakeIn, Item: "outseam", By: unit.MM(-20), At: "waist", From: "hip"})
	if d := w1 - w0; d < 78 || d > 86 {
		t.Errorf("the waist is %.1f mm longer", d)
	}
	if d := h1 - h0; d < -0.5 || d > 0.5 {
		t.Errorf("the hip is %.2f mm wider", d)
	}
}
