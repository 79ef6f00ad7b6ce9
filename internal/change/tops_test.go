package change

import (
	"math"
	"os"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// topSizes is the demo's overshirt in every printed size; in one size only in
// the quick run for the race detector.
func topSizes(t *testing.T) map[string]pattern.Garment {
	t.Helper()
	const folder = "../../demo/patterns/mooring/"
	read := func(name string) (source.File, error) {
		data, err := os.ReadFile(folder + name)
		return source.File{Path: "patterns/mooring/" + name, Data: data}, err
	}
	f, err := read("pattern.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, found := pattern.Load(f, read)
	if len(found) > 0 {
		t.Fatal(found)
	}
	out := map[string]pattern.Garment{}
	for k, size := range p.Sizes {
		if os.Getenv("GUSSET_QUICK") != "" && k != 3 {
			continue
		}
		g := pattern.Garment{View: p.Views[0], Pieces: map[string]piece.Piece{}, Order: p.Order}
		for name, graded := range p.Pieces {
			g.Pieces[name] = graded.In[k]
		}
		out[size] = g
	}
	return out
}

// top is a change of a top with the step that takes it back.
type top struct {
	name string
	step docket.Change
	back func(docket.Change) docket.Change
}

func against(c docket.Change) docket.Change {
	c.By = unit.MM(-c.By.MM())
	return c
}

var topSteps = []top{
	{"square shoulders", shoulder(docket.ShoulderSlope, 10), against},
	{"sloping shoulders", shoulder(docket.ShoulderSlope, -12), against},
	{"wide shoulders", shoulder(docket.ShoulderWidth, 10), against},
	{"narrow shoulders", shoulder(docket.ShoulderWidth, -14), against},
	{"round back", docket.Change{Kind: docket.RoundBack, At: "blade", Edge: "armhole", By: unit.MM(12)}, against},
	{"erect back", docket.Change{Kind: docket.RoundBack, At: "blade", Edge: "armhole", By: unit.MM(-8)}, against},
	{"full arm", docket.Change{Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(30)}, against},
	{"thin arm", docket.Change{Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(-25)}, against},
	{"full bust", fullBustBy(20), against},
	{"fuller bust", fullBustBy(35), against},
	{"deeper armhole", shoulder(docket.ArmholeDepth, 12), against},
	{"shallower armhole", shoulder(docket.ArmholeDepth, -10), against},
	{"pen pocket", penPocket(piece.Right), nil},
	{"two pockets", penPocket(piece.Both), nil},
	{"faced hem", docket.Change{Kind: docket.Face, Item: "hem", By: unit.MM(50), Method: "facing"}, nil},
	{"wider overlap", docket.Change{Kind: docket.Overlap, Edge: "edge", By: unit.MM(8)}, against},
	{"narrower overlap", docket.Change{Kind: docket.Overlap, Edge: "edge", By: unit.MM(-5)}, against},
	{"longer sleeve", docket.Change{Kind: docket.Lengthen, At: "arm", By: unit.MM(25)}, nil},
	{"shorter sleeve", docket.Change{Kind: docket.Lengthen, At: "arm", By: unit.MM(-25)}, nil},
	{"longer body", docket.Change{Kind: docket.Lengthen, At: "body", By: unit.MM(40)}, nil},
	{"shorter body", docket.Change{Kind: docket.Lengthen, At: "body", By: unit.MM(-25)}, nil},
	{"higher neck", docket.Change{Kind: docket.RaiseEdge, Edge: "neck", By: unit.MM(8)}, nil},
	{"lower neck", docket.Change{Kind: docket.RaiseEdge, Edge: "neck", By: unit.MM(-10)}, nil},
	{"shrinkage", docket.Change{Kind: docket.Shrinkage, Cloth: cloth.Main, Warp: 0.03, Weft: 0.01}, nil},
}

// Each change, in every printed size: it takes effect, no outline crosses
// itself, and every seam differs from its stated ease by no more than half a
// millimetre.
func TestTopsEverySize(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, c := range topSteps {
			done, found := apply(t, g, c.step)
			if found.Stops() > 0 || len(done.Applied()) != 1 {
				t.Errorf("size %s, %s: %d applied: %v", size, c.name, len(done.Applied()), told(found))
				continue
			}
			if w := widest(done.Garment()); w > 0.5 {
				t.Errorf("size %s, %s: a seam misses by %.3f mm", size, c.name, w)
			}
			for _, p := range done.Garment().Pieces {
				if _, _, _, crosses := geom.SelfCrossing(p.Outline(0.05)); crosses {
					t.Errorf("size %s, %s: %s crosses itself", size, c.name, p.Name)
				}
			}
		}
	}
}

func told(found finding.List) []string {
	var out []string
	for _, f := range found {
		out = append(out, f.Code()+" "+f.Text())
	}
	return out
}

// Where a change has an inverse, the step that takes it back, computed anew from
// the changed pieces, returns every outline within a hundredth of a millimetre:
// the changes themselves and the facings that follow them, without the truing of
// seams, which shares what is left over and has no inverse of its own.
func TestTopsThereAndBack(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, c := range topSteps {
			if c.back == nil {
				continue
			}
			there, found := untrued(g, c.step, "there")
			again, found2 := untrued(there, c.back(c.step), "back")
			if found.Stops()+found2.Stops() > 0 {
				t.Errorf("size %s, %s: no way back: %v %v", size, c.name, told(found), told(found2))
				continue
			}
			for name, p := range again.Pieces {
				// A side that was cut off at the armhole's foot runs on straight again,
				// not along its old curve.
				within := 0.01
				if cutsSide(c.step) {
					within = 0.1
				}
				edge, off := apart(p, g.Pieces[name])
				if edge == "free" { // shared out evenly along a length that has changed itself
					within = 0.05
				}
				if off > within {
					t.Errorf("size %s, %s: %s:%s comes back %.4f mm off", size, c.name, name, edge, off)
				}
			}
		}
	}
}

// cutsSide reports whether a step brings the foot of the armhole down.
func cutsSide(c docket.Change) bool {
	return c.Kind == docket.ShoulderSlope && c.By.MM() < 0 || c.Kind == docket.ArmholeDepth && c.By.MM() > 0
}

// untrued does one step and lets the facings follow.
func untrued(g pattern.Garment, c docket.Change, id string) (pattern.Garment, finding.List) {
	c.ID = id
	j := &job{g: g.Clone(), step: c, unit: unit.Centimetre}
	topChanges[c.Kind](j)
	j.recutFacings(look(g))
	return j.g, j.found
}

// apart is how far the edges of two drawings of a piece lie apart, and where
// most.
func apart(p, q piece.Piece) (edge string, most float64) {
	for i, e := range p.Edges {
		old := q.Edges[i].Curve
		for k := range 41 {
			_, off := old.Nearest(e.Curve.At(e.Curve.Length() * float64(k) / 40))
			_, back := e.Curve.Nearest(old.At(old.Length() * float64(k) / 40))
			if off = math.Max(off, back); off > most {
				edge, most = e.Name, off
			}
		}
	}
	return edge, most
}

func edgeOn(t *testing.T, g pattern.Garment, name, edge string) geom.Curve {
	t.Helper()
	e, ok := g.Pieces[name].Edge(edge)
	if !ok {
		t.Fatalf("%s has no edge %s", name, edge)
	}
	return e.Curve
}

func same(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s is %.4f, want %.4f", what, got, want)
	}
}

// 200 cm of cloth that shrinks by 5 % want 210.53 cm, not 210 (identity: what is
// left is 1 - s of it); across, the weft's share.
func TestShrinkage(t *testing.T) {
	for size, g := range topSizes(t) {
		c, found := apply(t, g, docket.Change{Kind: docket.Shrinkage, Cloth: cloth.Main, Warp: 0.05, Weft: 0.02})
		if !found.Has("change.cut-unwashed") {
			t.Errorf("size %s: not told that the cloth is cut unwashed", size)
		}
		now := c.Garment()
		same(t, size+" centre back", edgeOn(t, now, "back", "centre").Length(), edgeOn(t, g, "back", "centre").Length()*210.526316/200, 1e-3)
		same(t, size+" wrist", edgeOn(t, now, "sleeve", "wrist").Length(), edgeOn(t, g, "sleeve", "wrist").Length()/0.98, 1e-6)
	}
}

// Many changes one after another, as a figure asks for them: all are done, every
// seam and notch still fits, and what is cut on the fold keeps it upright.
func TestTopsTogether(t *testing.T) {
	recipe := []docket.Change{
		shoulder(docket.ShoulderSlope, 5), shoulder(docket.ShoulderWidth, -6),
		{Kind: docket.RoundBack, At: "blade", Edge: "armhole", By: unit.MM(6)},
		{Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(20)}, fullBustBy(20),
		shoulder(docket.ArmholeDepth, 10), {Kind: docket.RaiseEdge, Edge: "neck", By: unit.MM(-5)},
		penPocket(piece.Right), {Kind: docket.Overlap, Edge: "edge", By: unit.MM(5)},
		{Kind: docket.Lengthen, At: "arm", By: unit.MM(20)}, {Kind: docket.Lengthen, At: "body", By: unit.MM(-20)},
	}
	for i := range recipe {
		recipe[i].ID = string(rune('a' + i))
	}
	for size, g := range topSizes(t) {
		c, found := apply(t, g, recipe...)
		if found.Stops() > 0 || len(c.Applied()) != len(recipe) {
			t.Errorf("size %s: %d of %d applied: %v", size, len(c.Applied()), len(recipe), told(found))
			continue
		}
		for _, r := range walk(c.Garment()) {
			if r.Widest() > 0.5 {
				t.Errorf("size %s: %s misses by %.3f mm, notches %v", size, r.Seam.ID, r.Widest(), r.Notches)
			}
		}
		for _, name := range []string{"back", "back-facing"} {
			fold := edgeOn(t, c.Garment(), name, "centre")
			same(t, size+" lean of the fold of "+name, fold.Start().X, fold.End().X, 1e-6)
		}
		neck := edgeOn(t, c.Garment(), "front-facing", "neck").Length() - edgeOn(t, c.Garment(), "front", "neck").Length()
		same(t, size+" neck of the front facing over the front's", neck, 0, 0.5)
	}
}

// What a change of a top cannot do is told, and nothing is changed.
func TestTopsRefused(t *testing.T) {
	g := topSizes(t)["14"]
	for code, s := range map[string]docket.Change{
		"change.no-seam":           {Kind: docket.ShoulderSlope, Item: "yoke", Edge: "armhole", By: unit.MM(5)},
		"change.no-armhole":        {Kind: docket.ShoulderSlope, Item: "underarm", Edge: "side", By: unit.MM(5)},
		"change.steep-shoulder":    {Kind: docket.ShoulderWidth, Item: "shoulder", Edge: "armhole", By: unit.MM(-140)},
		"change.no-blade":          {Kind: docket.RoundBack, At: "waist", Edge: "armhole", By: unit.MM(5)},
		"change.wide-wedge":        {Kind: docket.RoundBack, At: "blade", Edge: "armhole", By: unit.MM(80)},
		"change.no-level-anywhere": {Kind: docket.UpperArm, At: "wrist", By: unit.MM(5)},
		"change.no-arm":            {Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(-330)},
		"change.no-apex":           {Kind: docket.FullBust, At: "point", Edge: "armhole", Item: "side", Where: unit.MM(60), By: unit.MM(5)},
		"change.no-bust":           {Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), By: unit.MM(78)},
		"change.bent-edge":         {Kind: docket.Overlap, Edge: "neck", By: unit.MM(5)},
		"change.no-edge":           {Kind: docket.Overlap, Edge: "front", By: unit.MM(5)},
		"change.no-cloth-piece":    {Kind: docket.Shrinkage, Cloth: cloth.Role("pocketing"), Warp: 0.03},
	} {
		c, found := apply(t, g, s)
		if !slices.Contains(found.Codes(), code) || len(c.Applied()) > 0 {
			t.Errorf("want %s, got %v and %d applied", code, found.Codes(), len(c.Applied()))
		}
	}
}
