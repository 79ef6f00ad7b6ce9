package construct

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

func TestEveryEdgeIsAccountedFor(t *testing.T) { checkAccounted(t, planOf(t, trousers(), nil)) }

func demandOn(t *testing.T, p Plan, name string) Demand {
	t.Helper()
	for _, d := range p.Demands() {
		if copyName(d.Piece, d.Copy)+":"+d.Edge == name {
			return d
		}
	}
	t.Fatalf("no demand on %s", name)
	return Demand{}
}

// Widths follow from the methods' values by hand; a turn of cloth 1 mm thick
// is π/2 mm (half a circle on the middle surface).
func TestWidths(t *testing.T) {
	p := planOf(t, trousers(), nil)
	for name, want := range map[string]float64{
		"front@left:outseam": 10 + 8 + math.Pi/2, // felled, wide side
		"back@right:outseam": 10 - 2,             // felled, narrow side
		"front@left:hem":     20 + 10 + math.Pi,  // two turns of cloth
		"front@left:inseam":  15,                 // as the paper prints
		"front@left:waist":   10,                 // the band's own, not the paper's 15
		"band:lower":         10,
		"band:end-left":      10,
		"pocket@left:top":    25 + math.Pi/2,
		"loops:lower":        15,
		"shield:fold":        0,
	} {
		if d := demandOn(t, p, name); math.Abs(d.Width-want) > 1e-9 {
			t.Errorf("%s: %.4f mm, want %.4f", name, d.Width, want)
		}
	}
	if k := demandOn(t, p, "shield:fold").Kind; k != ForFold {
		t.Errorf("the fold is a %s", k)
	}
}

// A published jeans hem (historical tailoring notes): 7/8 in is two turns of
// 3/8 in and 1/8 in of turn of cloth, for cloth about 1 mm thick. The
// published figure is a round eighth, so a tenth of a millimetre is allowed.
func TestPublishedJeansHem(t *testing.T) {
	g := trousers()
	three, _ := unit.Parse("3/8 in", "")
	g.View.Finishes[0].Values = map[string]unit.Length{"depth": three, "turn-under": three}
	if d := demandOn(t, planOf(t, g, nil), "back@left:hem"); math.Abs(d.Width-7.0/8*25.4) > 0.1 {
		t.Errorf("the hem is %.3f mm, published %.3f", d.Width, 7.0/8*25.4)
	}
}

// reaches gives all operations that one waits for.
func reaches(p Plan) map[string]map[string]bool {
	by := map[string]Operation{}
	for _, o := range p.Operations() {
		by[o.ID] = o
	}
	out := map[string]map[string]bool{}
	var visit func(id string) map[string]bool
	visit = func(id string) map[string]bool {
		if out[id] != nil {
			return out[id]
		}
		out[id] = map[string]bool{}
		for _, a := range by[id].After {
			out[id][a] = true
			for x := range visit(a) {
				out[id][x] = true
			}
		}
		return out[id]
	}
	for id := range by {
		visit(id)
	}
	return out
}

// The order of trousers as handbooks give it: pockets before side seams, hem
// after the leg seams are pressed, seat seam after the inseams, fly before the band, band ends before the inside
// of the band is sewn down, loops caught in the waist and tacked at the end.
func TestWhatComesFirst(t *testing.T) {
	p := planOf(t, trousers(), nil)
	all := reaches(p)
	for _, c := range [][2]string{
		{"outseam.press-flat@left", "hem.turn@left"},
		{"inseam.press@right", "hem.turn@right"},
		{"inseam.press@left", "crotch.sew"},
		{"outseam.fell@left", "waist.sew"},
		{"crotch.press", "waist.sew"},
		{"fly-facing.press", "fly.edge"},
		{"fly-shield.press", "fly.edge"},
		{"fly.tack", "waist.sew"},
		{"waist.press", "fly.buttonhole"},
		{"band-inside.topstitch", "fly.buttonhole"},
		{"band-ends.turn", "fly.buttonhole"},
		{"waist.press", "band-ends.sew"},
		{"band-ends.turn", "band-inside.topstitch"},
		{"waist.press", "band-inside.topstitch"},
		{"pocket-top.topstitch@left", "pocket.turn@left"},
		{"loops.cut", "waist.sew"},
		{"pocket.set@left", "outseam.sew@left"},
		{"pocket.press@right", "inseam.sew@right"},
		{"band-inside.topstitch", "loops.tack"},
	} {
		if all[c[1]] == nil {
			t.Errorf("no operation %s", c[1])
		} else if !all[c[1]][c[0]] {
			t.Errorf("%s does not wait for %s", c[1], c[0])
		}
	}
	for _, c := range [][2]string{{"hem.turn@left", "outseam.sew@right"}, {"hem.turn@left", "inseam.press@right"}, {"waist.sew", "hem.turn@left"}} {
		if all[c[0]][c[1]] {
			t.Errorf("%s waits for %s without need", c[0], c[1])
		}
	}
}

func TestOperations(t *testing.T) {
	p := planOf(t, trousers(), nil)
	seen := map[string]Operation{}
	for _, o := range p.Operations() {
		if _, twice := seen[o.ID]; twice {
			t.Errorf("%s twice", o.ID)
		}
		if strings.ContainsAny(o.Do, "{}") {
			t.Errorf("%s: %q", o.ID, o.Do)
		}
		seen[o.ID] = o
	}
	for _, o := range p.Operations() {
		for _, a := range o.After {
			if _, ok := seen[a]; !ok {
				t.Errorf("%s waits for %s, which is not there", o.ID, a)
			}
		}
	}
	if o := seen["hem.topstitch@left"]; o.Length != 420 || o.Plies != 3 || o.Thickness != 3 {
		t.Errorf("the hem is sewn %.0f mm through %d plies, %.1f mm", o.Length, o.Plies, o.Thickness)
	}
	if o := seen["outseam.fell@left"]; o.Length != 800 || o.Plies != 4 || o.Rows != 2 {
		t.Errorf("the outseam is felled %.0f mm through %d plies in %d rows", o.Length, o.Plies, o.Rows)
	}
	if o := seen["outseam.sew@right"]; o.Plies != 2 || !slices.Equal(o.Pieces, []string{"front@right", "back@right"}) {
		t.Errorf("the outseam is sewn through %d plies of %v", o.Plies, o.Pieces)
	}
	if o := seen["fly.outside"]; o.Plies != 2 || !slices.Equal(o.Pieces, []string{"front@left", "facing", "front@right", "shield"}) {
		t.Errorf("the fly is topstitched through %d plies of %v", o.Plies, o.Pieces)
	}
	for id, want := range map[string]string{
		"inseam.sew@right": "sew right inseam, front to back, right sides together",
		"crotch.sew":       "sew crotch, left front and back to right front and back, right sides together",
		"hem.turn@left":    "turn hem of left front and back up 20 mm on the hem line; press the fold",
	} {
		if o := seen[id]; o.Do != want {
			t.Errorf("%q, want %q", o.Do, want)
		}
	}
}

func TestNotions(t *testing.T) {
	p := planOf(t, trousers(), nil)
	var zip Notion
	for _, n := range p.Notions() {
		if n.Kind == "zip" {
			zip = n
		}
	}
	if zip.Count != 1 || math.Abs(zip.Length-(120-15)) > 1e-9 { // ends 15 mm short of the opening
		t.Errorf("zip %+v", zip)
	}
}

func TestSwappedMethod(t *testing.T) {
	g := trousers()
	g.View.Finishes[0].Values = map[string]unit.Length{"depth": unit.MM(35), "turn-under": unit.MM(9)}
	p := planOf(t, g, map[string]string{"hem": "single-hem"})
	if d := demandOn(t, p, "front@left:hem"); math.Abs(d.Width-35-math.Pi/2) > 1e-9 || len(d.Folds) != 1 {
		t.Errorf("%+v", d)
	}
	if !slices.ContainsFunc(p.Operations(), func(o Operation) bool { return o.ID == "hem.overlock@right" }) {
		t.Error("the swapped hem is not overlocked")
	}
}

func TestUnsound(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(g *pattern.Garment)
		swap  map[string]string
		want  []string
		mend  string
	}{
		"open edge": {spoil: func(g *pattern.Garment) { g.View.Finishes = g.View.Finishes[1:] },
			want: []string{"construct.edge-open", "construct.edge-open", "construct.edge-open", "construct.edge-open"}},
		"unknown method": {spoil: func(g *pattern.Garment) { g.View.Finishes[0].Method = "duoble-hem" },
			want: []string{"construct.method-unknown"}, mend: "did you mean double-hem?"},
		"wrong use": {swap: map[string]string{"hem": "felled-seam"}, want: []string{"construct.method-use"}},
		"unknown item": {swap: map[string]string{"hen": "single-hem"}, want: []string{"construct.item-unknown"},
			mend: "did you mean hem?"},
		"unknown value": {spoil: func(g *pattern.Garment) {
			g.View.Finishes[0].Values = map[string]unit.Length{"dept": unit.MM(20)}
		}, want: []string{"construct.value-unknown"}, mend: "did you mean depth?"},
		"lost join":       {spoil: func(g *pattern.Garment) { g.View.Joins[2].Sides[0][0].Edge = "nowhere" }, want: []string{"seam.unresolved", "seam.unresolved"}},
		"no such closing": {spoil: func(g *pattern.Garment) { g.View.Closures[0].Joins[0] = "flap" }, want: []string{"construct.unresolved"}},
		"no cloth": {spoil: func(g *pattern.Garment) { g.View.Uses[4].Cloths = append(g.View.Uses[4].Cloths, "lining") },
			want: []string{"construct.no-cloth"}},
	} {
		t.Run(name, func(t *testing.T) {
			g := trousers()
			if c.spoil != nil {
				g.View.Uses[4].Cloths = slices.Clone(g.View.Uses[4].Cloths)
				c.spoil(&g)
			}
			_, found := Construct(g, library(t), drill(), c.swap)
			if !slices.Equal(found.Codes(), c.want) {
				for _, f := range found {
					t.Log(f.Place, f.Text())
				}
				t.Fatalf("%v, want %v", found.Codes(), c.want)
			}
			if c.mend != "" && found[0].Mend() != c.mend {
				t.Errorf("mend %q", found[0].Mend())
			}
		})
	}
}

func TestOpenEdgeNamesItsPlace(t *testing.T) {
	g := trousers()
	g.View.Joins[1].Sides[0] = refs("front:outseam[mark..waist]")
	f := g.Pieces["front"]
	f.Marks = []piece.Mark{{Kind: piece.Notch, Name: "mark", Edge: "outseam", At: 100, P: geom.Pt{X: 200, Y: 100}}}
	g.Pieces["front"] = f
	_, found := Construct(g, library(t), drill(), nil)
	open := found.Filter(func(f finding.Finding) bool { return f.Code() == "construct.edge-open" })
	if len(open) != 2 || open[0].Text() != "nothing is made of front@left:outseam from 0.0 to 100.0 mm: no join, finish or fold takes it" {
		t.Errorf("%v", open)
	}
}

// An outseam taken once more by a plain seam of another width: the larger
// counts and is told.
func TestTwoWidths(t *testing.T) {
	g := trousers()
	again := join("again", "plain-overlocked", refs("front:outseam"), refs("back:outseam"))
	g.View.Joins = append(g.View.Joins, again)
	p, found := Construct(g, library(t), drill(), nil)
	if !found.Has("construct.two-widths") || found.Stops() > 0 {
		t.Errorf("%v", found.Codes())
	}
	if d := demandOn(t, p, "back@left:outseam"); d.Width != 15 {
		t.Errorf("%.2f mm cut", d.Width)
	}
}

// Four strips round a square, each crossing the end of the last: quilters sew
// this with a partial seam, for no order of whole seams will do.
func TestCycle(t *testing.T) {
	g := pattern.Garment{Pieces: map[string]piece.Piece{
		"square": box("square", 100, 100, "side-a", "side-b", "side-c", "side-d")}}
	g.View.Uses = []pattern.Use{{Piece: "square", Copies: pattern.Single, Cloths: trousers().View.Uses[0].Cloths}}
	next := map[string]string{"a": "b", "b": "c", "c": "d", "d": "a"}
	for _, k := range []string{"a", "b", "c", "d"} {
		// The inner edge runs against the square's side and past it along the
		// end of the next strip.
		g.Pieces["strip-"+k] = box("strip-"+k, 150, 50, "outer", "end", "inner", "far")
		g.View.Uses = append(g.View.Uses, pattern.Use{Piece: "strip-" + k, Copies: pattern.Single, Cloths: g.View.Uses[0].Cloths})
		g.View.Joins = append(g.View.Joins, join("seam-"+k, "plain-overlocked",
			refs("square@single:side-"+k, "strip-"+next[k]+"@single:end"), refs("strip-"+k+"@single:inner")))
		g.View.Finishes = append(g.View.Finishes, pattern.Finish{ID: "edge-" + k, Method: "raw",
			Edges: refs("strip-"+k+":outer", "strip-"+k+":far")})
	}
	_, found := Construct(g, library(t), drill(), nil)
	if !slices.Equal(found.Codes(), []string{"construct.cycle"}) {
		t.Fatalf("%v", found.Codes())
	}
	if text := found[0].Text(); strings.Count(text, "seam-") < 3 {
		t.Error(text)
	}
}

func TestWording(t *testing.T) {
	for _, k := range []finding.Kind{unknownMethod, wrongMethod, unknownItem, unknownValue, unresolved, noCloth, edgeOpen, twoWidths, intakeShape, cyclic} {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}
