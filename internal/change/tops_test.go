package change

import (
	"math"
	"os"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/finding"
	"gusset/internal/fit"
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

func shoulder(k docket.ChangeKind, by float64) docket.Change {
	return docket.Change{Kind: k, Item: "shoulder", Edge: "armhole", By: unit.MM(by)}
}

func penPocket(hand piece.Copy) docket.Change {
	return docket.Change{
		Kind: docket.AddPocket, Piece: "pen-pocket", Edge: "front:edge", Where: unit.MM(90), At: "bust", By: unit.MM(-30),
		Wide: unit.MM(60), Deep: unit.MM(110), Hand: hand, Method: "patch-pocket",
	}
}

func fullBustBy(by float64) docket.Change {
	return docket.Change{Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), Method: "dart", By: unit.MM(by)}
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

// A shoulder made squarer turns about the neck point: it keeps its length, its
// tip and the foot of the armhole rise by the amount, the neck stays and so does
// the length of the armhole (identities of a hinge and of a shift; handbooks:
// raise the underarm as much as the shoulder tip). The facing's shoulder still
// lies on the front's.
func TestShoulderSlope(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{10, -12} {
			c, _ := apply(t, g, shoulder(docket.ShoulderSlope, by))
			now := c.Garment()
			for _, on := range []string{"front", "back"} {
				seam, was := edgeOn(t, now, on, "shoulder"), edgeOn(t, g, on, "shoulder")
				hole, old := edgeOn(t, now, on, "armhole"), edgeOn(t, g, on, "armhole")
				same(t, size+" "+on+" shoulder", seam.Length(), was.Length(), 0.1)
				same(t, size+" "+on+" armhole", hole.Length(), old.Length(), 0.5)
				tip, oldTip, foot, oldFoot := hole.End(), old.End(), hole.Start(), old.Start()
				if on == "back" {
					tip, foot, oldTip, oldFoot = foot, tip, oldFoot, oldTip
				}
				same(t, size+" "+on+" tip", tip.Y-oldTip.Y, by, 0.1)
				same(t, size+" "+on+" foot", foot.Y-oldFoot.Y, by, 0.1)
				same(t, size+" "+on+" neck", edgeOn(t, now, on, "neck").Length(), edgeOn(t, g, on, "neck").Length(), 0.05)
			}
			facing, front := edgeOn(t, now, "front-facing", "shoulder"), edgeOn(t, now, "front", "shoulder")
			turn := front.EndTangent()
			same(t, size+" slope of the facing's shoulder", math.Abs(facing.StartTangent().Y), math.Abs(turn.Y), 1e-3)
		}
	}
}

// A wider shoulder is longer by the amount along its own line; the armhole's
// foot and the neck stay. What the truing of the armhole shares out is within a
// fifth of a millimetre.
func TestShoulderWidth(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{10, -14} {
			c, _ := apply(t, g, shoulder(docket.ShoulderWidth, by))
			now := c.Garment()
			for _, on := range []string{"front", "back"} {
				seam, was := edgeOn(t, now, on, "shoulder"), edgeOn(t, g, on, "shoulder")
				same(t, size+" "+on+" shoulder", seam.Length(), was.Length()+by, 0.2)
				same(t, size+" "+on+" slope", seam.StartTangent().Cross(was.StartTangent()), 0, 2e-3)
			}
		}
	}
}

// An upper back made longer: the centre is longer by the amount and stays
// upright, the armhole keeps its length about the hinge, and the facing's neck
// is the back's new one.
func TestRoundBack(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{12, -8} {
			c, _ := apply(t, g, docket.Change{Kind: docket.RoundBack, At: "blade", Edge: "armhole", By: unit.MM(by)})
			now := c.Garment()
			centre := edgeOn(t, now, "back", "centre")
			same(t, size+" centre back", centre.Length(), edgeOn(t, g, "back", "centre").Length()+by, 0.05)
			same(t, size+" lean of the centre back", centre.Start().X, centre.End().X, 1e-6)
			same(t, size+" armhole", edgeOn(t, now, "back", "armhole").Length(), edgeOn(t, g, "back", "armhole").Length(), 0.1*math.Abs(by))
			same(t, size+" facing neck", edgeOn(t, now, "back-facing", "neck").Length(), edgeOn(t, now, "back", "neck").Length(), 0.5)
			same(t, size+" back side", edgeOn(t, now, "back", "side").Length(), edgeOn(t, g, "back", "side").Length(), 0.2)
		}
	}
}

// A fuller upper arm is wider by the amount at its level and as wide as before
// at the wrist; the head keeps its length (identity of spreading about the
// crown), so the armhole needs no change.
func TestUpperArm(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{30, -25} {
			c, _ := apply(t, g, docket.Change{Kind: docket.UpperArm, At: "upper-arm", By: unit.MM(by)})
			now := c.Garment()
			l, _ := now.Pieces["sleeve"].Line(piece.Level, "upper-arm")
			y := height(l.Curve)
			same(t, size+" upper arm", widthAt(now.Pieces["sleeve"], y), widthAt(g.Pieces["sleeve"], y)+by, 0.05)
			same(t, size+" wrist", edgeOn(t, now, "sleeve", "wrist").Length(), edgeOn(t, g, "sleeve", "wrist").Length(), 0.02)
			same(t, size+" head", edgeOn(t, now, "sleeve", "cap").Length(), edgeOn(t, g, "sleeve", "cap").Length(), 0.02)
			if by > 0 == (edgeOn(t, now, "sleeve", "cap").At(200).Y > edgeOn(t, g, "sleeve", "cap").At(200).Y) {
				t.Errorf("size %s: the crown of a wider sleeve does not come down", size)
			}
		}
	}
}

// A deeper armhole: the foot goes down by the amount on front and back, the tip
// and the hollow stay, the underarm seam is shorter by about the amount, and the
// sleeve is eased as before (identity: the head gains what the armhole gains).
func TestArmholeDepth(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{12, -10} {
			c, _ := apply(t, g, shoulder(docket.ArmholeDepth, by))
			now := c.Garment()
			var hole, old float64
			for _, on := range []string{"front", "back"} {
				a, b := edgeOn(t, now, on, "armhole"), edgeOn(t, g, on, "armhole")
				foot, was := a.Start(), b.Start()
				if on == "back" {
					foot, was = a.End(), b.End()
				}
				same(t, size+" foot", was.Y-foot.Y, by, 0.1)
				same(t, size+" "+on+" shoulder", edgeOn(t, now, on, "shoulder").Length(), edgeOn(t, g, on, "shoulder").Length(), 0.05)
				hole, old = hole+a.Length(), old+b.Length()
			}
			same(t, size+" ease of the head", edgeOn(t, now, "sleeve", "cap").Length()-hole, edgeOn(t, g, "sleeve", "cap").Length()-old, 0.05)
			same(t, size+" underarm", edgeOn(t, now, "sleeve", "under-back").Length(), edgeOn(t, g, "sleeve", "under-back").Length()-by, 0.2*math.Abs(by))
			if turns := edgeOn(t, now, "front", "armhole").Kinks(1e-3); len(turns) > 0 {
				t.Errorf("size %s: the armhole has a corner at %v", size, turns)
			}
		}
	}
}

// An added pocket is as wide and deep as asked for and its mouth lies as far
// from the edge and the level; what is in the way is refused.
func TestAddPocket(t *testing.T) {
	for size, g := range topSizes(t) {
		c, found := apply(t, g, penPocket(piece.Right))
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		now := c.Garment()
		l, ok := now.Pieces["front"].LineNamed("add-pocket")
		if !ok {
			t.Fatal("no placement")
		}
		level, _ := g.Pieces["front"].Line(piece.Level, "bust")
		same(t, size+" from the edge", l.Curve.Start().X-edgeOn(t, g, "front", "edge").Start().X, 90, 1e-6)
		same(t, size+" above the bust", l.Curve.Start().Y-height(level.Curve), 30, 1e-6)
		same(t, size+" round the pocket", l.Curve.Length(), 2*110+60, 1e-6)
		u, _ := now.Use("pen-pocket")
		if u.Copies != pattern.Single {
			t.Errorf("size %s: a pocket for one hand is cut %s", size, u.Copies)
		}
		off := penPocket(piece.Both)
		off.Where = unit.MM(320)
		twice := penPocket(piece.Both)
		twice.Piece = "breast-pocket"
		for _, s := range []docket.Change{off, twice} {
			if _, found := apply(t, g, s); !found.Has("change.no-pocket") {
				t.Errorf("size %s: %v", size, told(found))
			}
		}
	}
}

// Facings in place of a hem are cut from the very edges they face (common
// practice): as long at the hem, as wide as asked for where the sides meet it
// square, their ends joined as the sides are, and nothing is left unfinished.
func TestFace(t *testing.T) {
	for size, g := range topSizes(t) {
		c, found := apply(t, g, docket.Change{ID: "low", Kind: docket.Face, Item: "hem", By: unit.MM(50), Method: "facing"})
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		now := c.Garment()
		for _, on := range []string{"front", "back"} {
			p := now.Pieces[on+"-low"]
			for _, e := range []string{"hem", "free"} {
				same(t, size+" "+e+" of the "+on+"'s facing", edgeOn(t, now, on+"-low", e).Length(), edgeOn(t, g, on, "hem").Length(), 0.01)
			}
			same(t, size+" end of the "+on+"'s facing", edgeOn(t, now, on+"-low", endAfter).Length(), 50, 0.01)
			area := 0.0
			for i, a := range p.Outline(0.01) {
				b := p.Outline(0.01)[(i+1)%len(p.Outline(0.01))]
				area += a.Cross(b) / 2
			}
			same(t, size+" area of the "+on+"'s facing", area, 50*edgeOn(t, g, on, "hem").Length(), 1)
		}
		if u, _ := now.Use("back-low"); u.Copies != pattern.OnFold || u.FoldEdge != endAfter {
			t.Errorf("size %s: the back's facing is cut %s on %s", size, u.Copies, u.FoldEdge)
		}
		if !slices.ContainsFunc(now.View.Joins, func(j pattern.Join) bool { return j.ID == "low-side" }) {
			t.Errorf("size %s: the facings are not joined at the side", size)
		}
		if _, found := apply(t, g, docket.Change{Kind: docket.Face, Item: "hem", By: unit.MM(700), Method: "facing"}); !found.Has("change.no-facing") {
			t.Errorf("size %s: a facing longer than the side is cut: %v", size, told(found))
		}
	}
}

// A fuller bust by cut and spread (identities of turning about a hinge and of
// shifting): the bust line and the hem are wider by the amount, the side seam is
// as long with its dart closed and so is the armhole, both legs of the dart are
// equally long, the neck and the shoulder stay, and the front is longer than
// before by as much as the bust point went down on its circle about the hinge.
// The same taken out again closes the dart and gives back the view.
func TestFullBust(t *testing.T) {
	for size, g := range topSizes(t) {
		const by = 25.0
		c, found := apply(t, g, fullBustBy(by))
		if found.Stops() > 0 {
			t.Fatal(told(found))
		}
		now := c.Garment()
		level, _ := g.Pieces["front"].Line(piece.Level, "bust")
		y := height(level.Curve)
		same(t, size+" bust line", widthAt(now.Pieces["front"], y), widthAt(g.Pieces["front"], y)+by, 0.03*by) // the side turns as it goes out
		same(t, size+" hem", edgeOn(t, now, "front", "hem").Length(), edgeOn(t, g, "front", "hem").Length()+by, 0.1)
		lower, upper := edgeOn(t, now, "front", "side"), edgeOn(t, now, "front", "side-upper")
		same(t, size+" side", lower.Length()+upper.Length(), edgeOn(t, g, "front", "side").Length(), 0.1)
		same(t, size+" side above the dart", upper.Length(), 60, 0.1)
		same(t, size+" armhole", edgeOn(t, now, "front", "armhole").Length(), edgeOn(t, g, "front", "armhole").Length(), 0.4)
		a, b := edgeOn(t, now, "front", dartLower), edgeOn(t, now, "front", dartUpper)
		same(t, size+" legs of the dart", a.Length(), b.Length(), 0.05)
		for _, e := range []string{"neck", "shoulder"} {
			same(t, size+" "+e, edgeOn(t, now, "front", e).Length(), edgeOn(t, g, "front", e).Length(), 0.1)
		}
		hinge, _ := g.Pieces["front"].Notch("armhole", "front-pitch")
		apex, was := markOf(now.Pieces["front"], "apex"), markOf(g.Pieces["front"], "apex")
		same(t, size+" swing of the bust point", apex.Dist(hinge.P), was.Dist(hinge.P), 1e-6)
		down := was.Y - apex.Y
		same(t, size+" front edge", edgeOn(t, now, "front", "edge").Length(), edgeOn(t, g, "front", "edge").Length()+down, 0.1)
		same(t, size+" edge of the facing", edgeOn(t, now, "front-facing", "edge").Length(), edgeOn(t, now, "front", "edge").Length(), 0.1)
		if down < 1 || down > 40 {
			t.Errorf("size %s: the front is %.1f mm longer", size, down)
		}
		if !slices.ContainsFunc(now.View.Joins, func(j pattern.Join) bool { return j.Method == "dart" }) {
			t.Errorf("size %s: the dart is sewn by no join", size)
		}
		again, found := apply(t, now, docket.Change{ID: "back", Kind: docket.FullBust, At: "apex", Edge: "armhole", Item: "side", Where: unit.MM(60), Method: "dart", By: unit.MM(-by)})
		if found.Stops() > 0 || len(again.Garment().View.Joins) != len(g.View.Joins) || len(again.Garment().Pieces["front"].Edges) != len(g.Pieces["front"].Edges) {
			t.Errorf("size %s: the dart does not close: %v", size, told(found))
		}
		if _, found := apply(t, g, fullBustBy(-10)); !found.Has("change.no-bust") {
			t.Errorf("size %s: a bust without a dart is made smaller: %v", size, told(found))
		}
	}
}

func markOf(p piece.Piece, name string) geom.Pt {
	for _, m := range p.Marks {
		if m.Name == name {
			return m.P
		}
	}
	return geom.Pt{}
}

// A wider overlap moves the edge and its facing, and nothing else: the girths,
// which are measured with the front closed, stay.
func TestOverlap(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{8, -5} {
			c, _ := apply(t, g, docket.Change{Kind: docket.Overlap, Edge: "edge", By: unit.MM(by)})
			now := c.Garment()
			same(t, size+" hem of the front", edgeOn(t, now, "front", "hem").Length(), edgeOn(t, g, "front", "hem").Length()+by, 1e-6)
			same(t, size+" hem of the facing", edgeOn(t, now, "front-facing", "hem").Length(), edgeOn(t, g, "front-facing", "hem").Length()+by, 1e-6)
			for i, girth := range now.View.Girths {
				a, err := fit.Girth(g, g.View.Girths[i])
				b, err2 := fit.Girth(now, girth)
				if err != nil || err2 != nil {
					t.Fatal(err, err2)
				}
				same(t, size+" girth at the "+girth.Zone, b, a, 1e-6)
			}
		}
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

// The line of the buttons ends as far from neck and hem as before, whatever moves
// them.
func TestButtonLineFollows(t *testing.T) {
	gaps := func(g pattern.Garment) (top, foot float64) {
		p := g.Pieces["front"]
		l, _ := p.LineNamed("buttons")
		neck, _ := edgeOn(t, g, "front", "neck").Bounds()
		hem, _ := edgeOn(t, g, "front", "hem").Bounds()
		return neck.Y - l.Curve.Start().Y, l.Curve.End().Y - hem.Y
	}
	for size, g := range topSizes(t) {
		top, foot := gaps(g)
		for _, s := range []docket.Change{
			{Kind: docket.RaiseEdge, Edge: "neck", By: unit.MM(-12)},
			{Kind: docket.MoveHem, Edge: "hem", By: unit.MM(-30)},
			{Kind: docket.Lengthen, At: "body", By: unit.MM(40)},
			fullBustBy(20),
		} {
			c, found := apply(t, g, s)
			if found.Stops() > 0 {
				t.Errorf("size %s, %s: %v", size, s.Kind, told(found))
				continue
			}
			a, b := gaps(c.Garment())
			same(t, size+" "+string(s.Kind)+" below the neck", a, top, 0.1)
			same(t, size+" "+string(s.Kind)+" above the hem", b, foot, 0.1)
		}
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

// A longer sleeve gains the amount at both underarm edges and keeps its head and
// its wrist.
func TestSleeveLength(t *testing.T) {
	for size, g := range topSizes(t) {
		for _, by := range []float64{25, -25} {
			c, _ := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "arm", By: unit.MM(by)})
			now := c.Garment()
			for _, e := range []string{"cap", "wrist"} {
				same(t, size+" "+e, edgeOn(t, now, "sleeve", e).Length(), edgeOn(t, g, "sleeve", e).Length(), 0.02)
			}
			same(t, size+" underarm", edgeOn(t, now, "sleeve", "under-back").Length(), edgeOn(t, g, "sleeve", "under-back").Length()+by, 0.05*math.Abs(by))
		}
	}
}

// A pocket set on a line keeps its place's shape when the body is lengthened
// through it.
func TestPlacesStayInShape(t *testing.T) {
	for size, g := range topSizes(t) {
		c, _ := apply(t, g, docket.Change{Kind: docket.Lengthen, At: "body", By: unit.MM(80)})
		for _, name := range []string{"breast", "hip-pocket"} {
			a, _ := g.Pieces["front"].LineNamed(name)
			b, _ := c.Garment().Pieces["front"].LineNamed(name)
			shift := b.Curve.Start().Sub(a.Curve.Start())
			for i, s := range a.Curve {
				if off := s.End().Add(shift).Dist(b.Curve[i].End()); off > 1e-6 {
					t.Errorf("size %s: %s is pulled %.3f mm out of shape", size, name, off)
				}
			}
		}
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
