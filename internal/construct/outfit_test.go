package construct

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"gusset/demo/printed"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/unit"
)

// outfittedPlan plans a garment with swapped methods. Advice tells what is cut
// and not cut; anything worse fails.
func outfittedPlan(t *testing.T, g pattern.Garment, swap map[string]string) Plan {
	t.Helper()
	p, found := Construct(g, library(t), allCloths(1), swap)
	for _, f := range found {
		if f.Severity() != finding.Advice {
			t.Errorf("%s %s: %s", f.Code(), f.Place, f.Text())
		}
	}
	checkAccounted(t, p)
	return p
}

// checkAccounted wants something made of every millimetre of every outline, and
// every seam of a garment without stated ease to walk within half a millimetre.
func checkAccounted(t *testing.T, p Plan) {
	t.Helper()
	got := map[string]float64{}
	for _, d := range p.Demands() {
		got[copyName(d.Piece, d.Copy)+":"+d.Edge] += d.To - d.From
	}
	for _, u := range p.Garment().View.Uses {
		for _, c := range u.CopyList() {
			pc, _ := p.Garment().Copy(u.Piece, c)
			for _, e := range pc.Edges {
				name := copyName(u.Piece, c) + ":" + e.Name
				if math.Abs(got[name]-e.Curve.Length()) > 1e-6 {
					t.Errorf("%s: %.3f of %.3f mm", name, got[name], e.Curve.Length())
				}
			}
		}
	}
	seams, found := seam.Resolve(p.Garment())
	walked, more := seam.Walk(p.Garment(), seams, unit.Millimetre)
	if found.Stops()+more.Stops() > 0 || walked.Widest() > seam.Tolerance {
		t.Errorf("the seams walk with a gap of %.2f mm: %v %v", walked.Widest(), found.Codes(), more.Codes())
	}
}

func pieceNames(p Plan) []string {
	var out []string
	for _, u := range p.Garment().View.Uses {
		out = append(out, u.Piece)
	}
	slices.Sort(out)
	return out
}

func itemOps(p Plan, item string) (ids []string) {
	for _, o := range p.Operations() {
		if o.Item == item {
			ids = append(ids, o.ID)
		}
	}
	return ids
}

// An elastic waist in a casing turned from the waist itself: the fly is sewn
// shut, so its facing and shield are not cut, nor is the band, nor the loops
// that were caught in it. Worked by hand from the constructed trousers: fronts
// of 200 mm and backs of 220 mm make a ring of 840 mm; the fork seam of 80 + 200
// mm runs on through the opening of 120 mm; a casing 30 + 10 mm deep takes two
// turns of cloth of π/2 mm; elastic is 80 % of the ring and 20 mm of overlap.
func TestElasticCasing(t *testing.T) {
	p := outfittedPlan(t, trousers(), map[string]string{"fly": "sewn-shut", "waist": "elastic-casing"})
	if got := pieceNames(p); !slices.Equal(got, []string{"back", "front", "pocket"}) {
		t.Errorf("cut %v", got)
	}
	if d := demandOn(t, p, "front@left:waist"); math.Abs(d.Width-40-math.Pi) > 1e-9 || d.Kind != ForHem {
		t.Errorf("the waist gets %+v", d)
	}
	for _, s := range p.Seams() {
		if s.Join == "crotch" && math.Abs(s.Length()-400) > 1e-9 {
			t.Errorf("the crotch seam is %.1f mm", s.Length())
		}
	}
	for _, gone := range []string{"fly", "loops", "band-inside", "band-ends", "fly-facing"} {
		if ids := itemOps(p, gone); len(ids) > 0 {
			t.Errorf("%s is still made: %v", gone, ids)
		}
	}
	wantOrder(t, p, [][2]string{{"crotch.press", "waist.turn-under"}, {"outseam.fell@left", "waist.turn-under"}, {"waist.stitch", "waist.thread"}})
	elastic := notionOf(t, p, "elastic")
	if math.Abs(elastic.Length-(0.8*840+20)) > 1e-9 {
		t.Errorf("%.1f mm of elastic", elastic.Length)
	}
	if o := p.Openings(); len(o) != 1 || math.Abs(o[0].Round-840) > 1e-9 || o[0].Over != "hip" {
		t.Errorf("it must be pulled on: %+v", o)
	}
}

func notionOf(t *testing.T, p Plan, kind string) Notion {
	t.Helper()
	for _, n := range p.Notions() {
		if n.Kind == kind {
			return n
		}
	}
	t.Fatalf("no %s among the notions", kind)
	return Notion{}
}

// A band of its own for the elastic: a straight strip as long as the ring and
// twice 29 mm wide, its warp along it, its seam at the centre back, notched
// where the outseams and the front seam fall, 220 mm and 420 mm from its end.
// The belt loops, which it can hold, stay.
func TestElasticBand(t *testing.T) {
	p := outfittedPlan(t, trousers(), map[string]string{"fly": "sewn-shut", "waist": "elastic-band"})
	if got := pieceNames(p); !slices.Equal(got, []string{"back", "front", "loops", "pocket", "waist-strip"}) {
		t.Errorf("cut %v", got)
	}
	strip := p.Garment().Pieces["waist-strip"]
	lower, _ := strip.Edge("lower")
	end, _ := strip.Edge("end-left")
	if math.Abs(lower.Curve.Length()-840) > 1e-9 || math.Abs(end.Curve.Length()-58) > 1e-9 {
		t.Errorf("a strip of %.1f by %.1f mm", lower.Curve.Length(), end.Curve.Length())
	}
	if d := lower.Curve.End().Sub(lower.Curve.Start()).Unit(); math.Abs(d.X) > 1e-12 {
		t.Errorf("its length runs along %v, not with the grain", d)
	}
	var at []float64
	for _, m := range strip.Marks {
		at = append(at, math.Round(m.At))
	}
	slices.Sort(at)
	if !slices.Equal(at, []float64{220, 420, 620}) {
		t.Errorf("notches at %v", at)
	}
	for _, m := range strip.Marks {
		if q := lower.Curve.At(m.At); q.Dist(m.P) > 1e-9 {
			t.Errorf("notch %s lies %.1f mm from its place", m.Name, q.Dist(m.P))
		}
	}
	wantOrder(t, p, [][2]string{
		{"crotch.press", "waist.sew"}, {"waist-ends.press", "waist.sew"}, {"loops.cut", "waist.sew"}, {"waist.shut", "loops.tack"},
	})
	if d := demandOn(t, p, "waist-strip:upper"); d.Width != 10 {
		t.Errorf("the turned-in edge gets %.1f mm", d.Width)
	}
}

// A faced hem: the facing has the shape of the leg beside the hem, so on these
// square legs it is a rectangle as wide as the hem and as deep as the hem was,
// and its side seams lie over the leg's. The leg itself keeps 10 mm.
func TestFacedHem(t *testing.T) {
	g := trousers()
	g.View.Finishes[0].Values = map[string]unit.Length{"depth": unit.MM(35), "turn-under": unit.MM(9)}
	p := outfittedPlan(t, g, map[string]string{"hem": "faced-hem"})
	for name, wide := range map[string]float64{"hem-facing-front": 200, "hem-facing-back": 220} {
		pc, ok := p.Garment().Pieces[name]
		if lo, hi := geom.BoundsOf(pc.Outline(0.1)); !ok || math.Abs(hi.X-lo.X-wide) > 1e-6 || math.Abs(hi.Y-lo.Y-35) > 1e-6 {
			t.Errorf("%s is %v to %v", name, lo, hi)
		}
		if u, _ := p.Garment().Use(name); u.Copies != pattern.Pair || u.For != "hem" {
			t.Errorf("%s is cut as %+v", name, u)
		}
	}
	if d := demandOn(t, p, "back@right:hem"); d.Width != 10 || d.Kind != ForSeam {
		t.Errorf("the leg's hem gets %+v", d)
	}
	wantOrder(t, p, [][2]string{
		{"inseam.press@left", "hem.sew@left"}, {"outseam.fell@left", "hem.sew@left"},
		{"hem-outseam.press@left", "hem.sew@left"}, {"hem-inseam.press@right", "hem.sew@right"},
	})
}

// On a curved, slanting edge the facing lies in the leg: mirrored back it covers
// no cloth that the leg does not have, and its free edge runs parallel to the
// edge at its depth.
func TestFacingHasTheShapeOfItsEdge(t *testing.T) {
	edge := geom.Curve{geom.Seg{P: [4]geom.Pt{{X: 0, Y: 0}, {X: 60, Y: -25}, {X: 140, Y: -25}, {X: 200, Y: 10}}}}
	leg := piece.Piece{Name: "leg", Edges: []piece.Edge{
		{Name: "hem", Curve: edge},
		{Name: "out", Curve: geom.Polyline(geom.Pt{X: 200, Y: 10}, geom.Pt{X: 230, Y: 300})},
		{Name: "top", Curve: geom.Polyline(geom.Pt{X: 230, Y: 300}, geom.Pt{X: -20, Y: 300})},
		{Name: "in", Curve: geom.Polyline(geom.Pt{X: -20, Y: 300}, geom.Pt{X: 0, Y: 0})},
	}}
	p, err := facingOf(leg, []string{"hem"}, 30)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.EdgeNames(); !slices.Equal(got, []string{"in", "free", "out", "hem"}) {
		t.Errorf("edges %v", got)
	}
	back := p.Mirror()
	ring := leg.Outline(0.01)
	for _, q := range back.Outline(0.05) {
		if _, off := geom.Polyline(append(slices.Clone(ring), ring[0])...).Nearest(q); !geom.Inside(ring, q) && off > 0.02 {
			t.Errorf("%v lies %.3f mm outside the leg", q, off)
		}
	}
	free, _ := back.Edge("free")
	for _, share := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
		if _, off := edge.Nearest(free.Curve.At(share * free.Curve.Length())); math.Abs(off-30) > 0.02 {
			t.Errorf("the free edge is %.3f mm from the hem", off)
		}
	}
	if _, err := facingOf(leg, []string{"hem"}, 400); err == nil {
		t.Error("a facing deeper than the leg is drawn")
	}
}

// A facing is not drawn across a dart or pleat that opens in its edge: one cut to
// the two parts beside it would not fit the edge once the dart is closed. It is
// told, with what to do, and the rest of the garment is planned.
func TestFacingAcrossADart(t *testing.T) {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	for name, front := range map[string]piece.Piece{
		"dart": outline("front", []string{"hem", "outseam", "waist-out", "leg-out", "leg-in", "waist", "centre", "crotch", "inseam"},
			pt(0, 0), pt(200, 0), pt(200, 800), pt(120, 800), pt(105, 700), pt(90, 800), pt(0, 800), pt(0, 680), pt(0, 600)),
		"pleat": outline("front", []string{"hem", "outseam", "waist-out", "across", "waist", "centre", "crotch", "inseam"},
			pt(0, 0), pt(200, 0), pt(200, 800), pt(120, 800), pt(90, 800), pt(0, 800), pt(0, 680), pt(0, 600)),
	} {
		if _, err := facingOf(front, []string{"waist-out", "waist"}, 30); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
		g := trousers()
		g.Pieces["front"] = front
		v := &g.View
		v.Joins = slices.DeleteFunc(v.Joins, func(j pattern.Join) bool { return j.ID == "waist" || j.ID == "band-inside" })
		v.Parts, v.Closures = nil, nil
		if name == "dart" {
			v.Joins = append(v.Joins, join("fold", "dart", refs("front:leg-out"), refs("front:leg-in")))
		} else {
			front.Lines = []piece.Line{
				{Kind: piece.Placement, Name: "fold", Curve: geom.Polyline(pt(120, 800), pt(120, 650))},
				{Kind: piece.Placement, Name: "place", Curve: geom.Polyline(pt(90, 800), pt(90, 650))},
			}
			g.Pieces["front"] = front
			pleat := join("fold", "pleat", refs("front:/fold"), refs("front:/place"))
			pleat.Intake = refs("front:across")
			v.Joins = append(v.Joins, pleat)
		}
		v.Finishes = append(v.Finishes, pattern.Finish{ID: "top", Title: "top", Method: "faced-hem", Edges: refs("front:waist-out", "front:waist", "back:waist")})
		_, found := Outfit(g, library(t))
		i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code() == "construct.not-drawn" })
		if i < 0 || !strings.Contains(found[i].Text(), "a dart or a pleat") {
			t.Errorf("%s: %v", name, found.Codes())
		}
	}
}

// Tabs with buttonholes in the place of belt loops: two plies for each, sewn
// round three sides once, a buttonhole for each (17 + 3 + 3 mm long), caught in
// the waist seam. By hand: six tabs of 70 by 30 mm are sewn 6 · (70+30+70) mm.
func TestTabsForLoops(t *testing.T) {
	p := outfittedPlan(t, trousers(), map[string]string{"loops": "tab-buttonhole"})
	u, ok := p.Garment().Use("loops-tab")
	if _, strip := p.Garment().Use("loops"); !ok || strip || u.Number != 6 || u.Copies != pattern.Pair {
		t.Errorf("tabs are cut as %+v", u)
	}
	by := map[string]Operation{}
	for _, o := range p.Operations() {
		by[o.ID] = o
	}
	if got := by["loops.sew"].Length; math.Abs(got-6*170) > 1e-9 {
		t.Errorf("the tabs are sewn %.1f mm", got)
	}
	if do := by["loops.baste"].Actions[0]; !strings.HasPrefix(do, "mark 6 places along the waist, 140 mm apart") {
		t.Errorf("six tabs along a waist of 840 mm: %q", do)
	}
	if got := by["loops.hole"].Length; math.Abs(got-6*23) > 1e-9 {
		t.Errorf("%.1f mm of buttonholes", got)
	}
	if n := notionOf(t, p, "button"); n.Count < 1 {
		t.Errorf("%+v", n)
	}
	if d := demandOn(t, p, "loops-tab@left:foot"); d.Width != 10 {
		t.Errorf("the caught end gets %.1f mm", d.Width)
	}
	wantOrder(t, p, [][2]string{{"loops.baste", "waist.sew"}, {"waist.press", "loops.button"}})
}

// A neck faced with a bias strip of the cloth: as long as the neck edge, its
// warp at 45° to it, open at the front.
func TestBiasStrip(t *testing.T) {
	fix := fixture(t, "overshirt")
	plain := garmentOf(t, fix, "buttoned", 1, nil)
	var neck float64
	for _, d := range plain.Demands() {
		if d.Source == "neck" {
			neck += d.To - d.From
		}
	}
	v, _ := fix.View("buttoned")
	p := outfittedPlan(t, printed.Garment(fix, v, 1), map[string]string{"neck": "neck-bias-cut"})
	strip := p.Garment().Pieces["neck-strip"]
	lower, _ := strip.Edge("lower")
	if math.Abs(lower.Curve.Length()-neck) > 1e-6 || neck < 100 {
		t.Errorf("a strip of %.2f mm for a neck of %.2f mm", lower.Curve.Length(), neck)
	}
	grain, _ := strip.Line(piece.Grain, "")
	g, l := grain.Curve.End().Sub(grain.Curve.Start()).Unit(), lower.Curve.End().Sub(lower.Curve.Start()).Unit()
	if a := math.Abs(g.Dot(l)); math.Abs(a-math.Sqrt2/2) > 1e-9 || math.Abs(g.X) > 1e-9 {
		t.Errorf("the warp lies at %.1f° to the strip", math.Acos(a)*180/math.Pi)
	}
	if slices.ContainsFunc(p.Notions(), func(n Notion) bool { return n.Kind == "tape" && n.Item == "neck" }) {
		t.Error("binding is still bought")
	}
}

// A zip that is sewn shut lets the seam below it run on; the skirt must then
// pass the hips at its waist.
func TestZipSewnShut(t *testing.T) {
	fix := fixture(t, "skirt")
	v, _ := fix.View("faced")
	p := outfittedPlan(t, printed.Garment(fix, v, 0), map[string]string{"zip": "sewn-shut"})
	whole := p.Garment().Pieces["back"]
	centre, _ := whole.Edge("centre")
	for _, s := range p.Seams() {
		if s.Join == "back-seam" && math.Abs(s.Length()-centre.Curve.Length()) > 1e-6 {
			t.Errorf("the seam is %.1f mm of %.1f mm", s.Length(), centre.Curve.Length())
		}
	}
	var half float64
	for _, s := range p.Seams() {
		if s.Join == "waist" {
			half = s.Length()
		}
	}
	if o := p.Openings(); len(o) != 1 || o[0].Item != "waist" || math.Abs(o[0].Round-2*half) > 1e-6 {
		t.Errorf("openings %+v", o)
	}
}

// A garment that is outfitted is one like any other: outfitting it again changes
// nothing.
func TestOutfitTwice(t *testing.T) {
	lib := library(t)
	for _, swap := range []map[string]string{
		{"fly": "sewn-shut", "waist": "elastic-band", "hem": "faced-hem", "loops": "tab-stud"},
		{"fly": "sewn-shut", "waist": "elastic-overlocked"},
		nil,
	} {
		once, _ := Choose(trousers(), lib, swap)
		once, _ = Outfit(once, lib)
		twice, found := Outfit(once, lib)
		if !reflect.DeepEqual(once, twice) || len(found) > 0 {
			t.Errorf("%v: %v", swap, found.Codes())
		}
	}
}

// What cannot stand in is refused, and what cannot be drawn is told.
func TestOutfitRefusals(t *testing.T) {
	for _, c := range []struct {
		g    pattern.Garment
		swap map[string]string
		code string
	}{
		{trousers(), map[string]string{"outseam": "elastic-band"}, "construct.method-instead"},
		{trousers(), map[string]string{"inseam": "elastic-casing"}, "construct.method-use"},
		{trousers(), map[string]string{"loops": "sewn-shut"}, "construct.method-use"},
		{trousers(), map[string]string{"flies": "sewn-shut"}, "construct.item-unknown"},
		{trousers(), map[string]string{"pocket-top": "faced-hem"}, "construct.method-use"},
	} {
		if _, found := Construct(c.g, library(t), allCloths(1), c.swap); !found.Has(c.code) {
			t.Errorf("%v: %v", c.swap, found.Codes())
		}
	}
}
