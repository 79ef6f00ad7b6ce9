package change

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// The full bust is made by cut and spread. The front is cut from the hem up to
// the bust point and on to a hinge on the armhole, and from the side to the bust
// point. What lies between the two cuts turns about the hinge until the bust
// point stands further out by the amount; the side below follows it without
// turning, so that the upright cut opens evenly down to the hem; and the front
// below the bust goes down as far as the side did, which gives it the length
// that a fuller bust takes. At the side a dart has opened. Turning and shifting
// change no length: armhole and side seam still fit with the dart closed.
//
// By less than nothing the same is undone: the dart gets smaller, and closes.

// The edges of the dart that opens at the side.
const (
	dartLower = "bust-dart-lower"
	dartUpper = "bust-dart-upper"
)

const (
	dartShort = 25.0 // mm from the dart's point to the bust point (common practice: 2 to 3 cm)
	bustBand  = 40.0 // mm to either side of the bust point over which length and width are let in
	hingeBand = 30.0 // mm to either side of the hinge over which the armhole bends into its new course
	closedGap = 0.05 // mm: a dart this narrow is closed
	mostTurn  = 0.45 // radians (26°): a sharper dart wants to be two (common practice)
)

// bust is one front at work.
type bust struct {
	name          string
	p             piece.Piece
	side, armhole int
	sideFirst     bool // the outline runs up the side into the armhole
	apex, hinge   geom.Pt
	lower, upper  geom.Curve // the side below and above the dart, away from the hem
	out           float64    // +1: the side lies at greater x
	mark          int        // the bust point among the marks
	hadDart       bool
	sideName      string
}

// fullBust spreads, or closes, every front that has a bust point.
func fullBust(j *job) string {
	by := j.step.By.MM()
	hole, ok1 := j.seamOf(j.step.Edge)
	if _, ok2 := j.seamOf(j.step.Item); !ok1 || !ok2 {
		return ""
	}
	done := false
	for _, name := range j.drawingsIn(hole) {
		b, why := j.bustOf(name)
		if why == "" && b.mark < 0 {
			continue // a back or a sleeve
		}
		done = true
		if why == "" {
			why = j.spreadBust(&b, by)
		}
		if why != "" {
			j.tell(noBust, name, j.step.By, why)
			return ""
		}
		j.g.Pieces[name] = b.p
	}
	if !done {
		j.tell(noApex, j.step.At, j.step.Edge)
		return ""
	}
	words := map[bool]string{true: "let in for a full bust", false: "taken out for a smaller bust"}
	return fmt.Sprintf("%s %s on each front", strings.TrimLeft(j.step.By.String(), "+-"), words[by > 0])
}

// bustOf looks at a drawing from its bust point; a reason when it has one and
// still cannot be spread.
func (j *job) bustOf(name string) (bust, string) {
	p := j.g.Pieces[name].Clone()
	b := bust{name: name, p: p, mark: slices.IndexFunc(p.Marks, func(m piece.Mark) bool { return m.Name == j.step.At && m.Kind != piece.Notch })}
	if b.mark < 0 {
		return b, ""
	}
	b.apex = p.Marks[b.mark].P
	side, _ := j.seamOf(j.step.Item)
	hole, _ := j.seamOf(j.step.Edge)
	n := len(p.Edges)
	found := false
	for i := range p.Edges {
		if !inSeam(p, i, hole) {
			continue
		}
		before, after := (i+n-1)%n, (i+1)%n
		switch {
		case inSeam(p, before, side):
			b.armhole, b.side, b.sideFirst, found = i, before, true, true
		case inSeam(p, after, side):
			b.armhole, b.side, b.sideFirst, found = i, after, false, true
		}
	}
	if !found {
		return b, "its armhole does not meet the side seam"
	}
	b.hinge = hingeOn(p, b.armhole, b.sideFirst)
	if b.hadDart = p.Index(dartLower) >= 0; b.hadDart {
		return b.withDart()
	}
	return b.withoutDart(j.step.Where.MM())
}

// hingeOn is where an armhole is hinged: at its notch nearest the foot, else a
// third of the way up.
func hingeOn(p piece.Piece, armhole int, footFirst bool) geom.Pt {
	c := p.Edges[armhole].Curve
	l := c.Length()
	at := l / 3
	for _, m := range p.Marks {
		up := m.At
		if !footFirst {
			up = l - m.At
		}
		if m.Kind == piece.Notch && m.Edge == p.Edges[armhole].Name && up > 2*hingeBand {
			at = up
			break
		}
	}
	if !footFirst {
		at = l - at
	}
	return c.At(at)
}

// withoutDart cuts the side a given way below the armhole.
func (b bust) withoutDart(down float64) (bust, string) {
	b.sideName = b.p.Edges[b.side].Name
	c := b.upwards(b.side)
	l := c.Length()
	if l-down < leastPart || down < leastPart {
		return b, "the side is too short for a dart there"
	}
	b.lower, b.upper = c.Split(l - down)
	b.out = math.Copysign(1, c.End().X-b.apex.X)
	return b, ""
}

// withDart takes the two parts of a side that a dart divides already.
func (b bust) withDart() (bust, string) {
	n := len(b.p.Edges)
	low := (b.side + n - 3) % n
	if !b.sideFirst {
		low = (b.side + 3) % n
	}
	b.sideName = b.p.Edges[low].Name
	b.upper, b.lower = b.upwards(b.side), b.upwards(low)
	b.out = math.Copysign(1, b.upper.End().X-b.apex.X)
	return b, ""
}

// upwards is an edge of the side walked towards the armhole.
func (b bust) upwards(i int) geom.Curve {
	if b.sideFirst {
		return b.p.Edges[i].Curve
	}
	return b.p.Edges[i].Curve.Reverse()
}

// spreadBust does the cut and spread on one front; a reason when it cannot.
func (j *job) spreadBust(b *bust, by float64) string {
	arm := b.apex.Sub(b.hinge)
	turn, ok := turnOut(arm, b.out*by)
	if !ok {
		return "the bust point cannot swing so far about the armhole"
	}
	apex := b.hinge.Add(arm.Rot(turn))
	v := apex.Sub(b.apex)
	lower := b.lower.Transform(geom.Shift(v))
	upper := b.upper.Transform(geom.Turn(turn, b.hinge))
	foot, head := lower.End(), upper.Start() // the two lips of the dart
	open := head.Sub(apex).Cross(foot.Sub(apex)) / (head.Dist(apex) * foot.Dist(apex))
	if b.upper.End().X < b.apex.X {
		open = -open
	}
	open = -open // the upper lip lies above the lower
	gap := foot.Dist(head)
	switch {
	case gap > closedGap && open < 0:
		return "there is no bust dart to take it from: take in the side seam and shorten the front instead"
	case math.Asin(math.Min(open, 1)) > mostTurn:
		return fmt.Sprintf("the dart would open by more than %.0f degrees", mostTurn*180/math.Pi)
	}
	b.moveRest(j, v)
	j.bendArmhole(b, turn)
	b.p.Marks[b.mark].P = apex
	mouth := foot.Lerp(head, 0.5)
	tip := apex.Add(mouth.Sub(apex).Unit().Mul(math.Min(dartShort, mouth.Dist(apex)/2)))
	b.layside(j, lower, upper, tip, gap <= closedGap)
	closeCorners(&b.p)
	respan(&b.p)
	j.tellPocketsOnDart(b.p)
	return ""
}

// tellPocketsOnDart tells of what is set across the dart.
func (j *job) tellPocketsOnDart(p piece.Piece) {
	for _, leg := range []string{dartLower, dartUpper} {
		e, ok := p.Edge(leg)
		for _, l := range p.Lines {
			if ok && j.isSet(p.Name, l.Name) && len(geom.Crossings(e.Curve, l.Curve)) > 0 {
				j.tell(pocketOnDart, l.Name, p.Name)
				return
			}
		}
	}
}

// turnOut is the angle that turns an arm so that its end moves across by an
// amount.
func turnOut(arm geom.Pt, across float64) (float64, bool) {
	r := arm.Len()
	from, to := math.Asin(arm.X/r), (arm.X+across)/r
	if math.Abs(to) > 0.95 || arm.Y >= 0 {
		return 0, false
	}
	// The arm hangs down from the hinge: turning it to the left swings it to greater x.
	return math.Asin(to) - from, true
}

// moveRest lets length in below the bust and width beside the upright cut, on
// all edges but those of side and armhole, and on what lies inside.
func (b *bust) moveRest(j *job, v geom.Pt) {
	at := b.apex
	f := func(q geom.Pt) geom.Pt {
		low := smooth((at.Y + bustBand - q.Y) / (2 * bustBand))
		wide := smooth((b.out*(q.X-at.X) + bustBand) / (2 * bustBand))
		return geom.Pt{X: q.X + v.X*low*wide, Y: q.Y + v.Y*low}
	}
	was := b.p.Clone()
	for i, e := range b.p.Edges {
		if e.Name != b.sideName && i != b.side && i != b.armhole && e.Name != dartLower && e.Name != dartUpper {
			j.mapFine(&b.p, i, func(q geom.Pt, _ float64) geom.Pt { return f(q) })
		}
	}
	for i, l := range was.Lines {
		switch {
		case l.Kind == piece.Grain:
		case l.Kind == piece.Level || l.Kind == piece.Lengthen || j.isSet(b.p.Name, l.Name):
			lo, hi := l.Curve.Bounds()
			mid := lo.Lerp(hi, 0.5)
			by := f(mid).Sub(mid)
			if math.Abs(mid.Y-at.Y) < 1 { // the bust line itself
				by = geom.Pt{}
			}
			b.p.Lines[i].Curve = l.Curve.Transform(geom.Shift(by))
		default:
			b.p.Lines[i].Curve = l.Curve.MapPoints(func(q geom.Pt, _ float64) geom.Pt { return f(q) }, fineFit)
		}
	}
	for i, m := range was.Marks {
		if m.Kind != piece.Notch && i != b.mark {
			b.p.Marks[i].P = f(m.P)
		}
	}
}

// bendArmhole turns the armhole below the hinge. How much of the turn a point
// takes is told by its distance from the hinge, which turning does not change.
func (j *job) bendArmhole(b *bust, turn float64) {
	at, _ := b.p.Edges[b.armhole].Curve.Nearest(b.hinge)
	j.mapFine(&b.p, b.armhole, func(q geom.Pt, walked float64) geom.Pt {
		below := walked < at
		if !b.sideFirst {
			below = walked > at
		}
		far := q.Dist(b.hinge)
		if !below {
			far = -far
		}
		return b.hinge.Add(q.Sub(b.hinge).Rot(turn * smooth((far+hingeBand)/(2*hingeBand))))
	})
}

// layside puts the side back in its two parts with the dart between, or in one
// where the dart has closed.
func (b *bust) layside(j *job, lower, upper geom.Curve, tip geom.Pt, closed bool) {
	like := b.p.Edges[b.p.Index(b.sideName)]
	made := func(name string, printed float64, c geom.Curve) piece.Edge {
		if !b.sideFirst {
			c = c.Reverse()
		}
		return piece.Edge{Name: name, Curve: c, Printed: printed, Place: like.Place, Steps: append(slices.Clone(like.Steps), j.step.ID)}
	}
	parts := []piece.Edge{
		made(b.sideName, like.Printed, lower),
		made(dartLower, 0, geom.Polyline(lower.End(), tip)),
		made(dartUpper, 0, geom.Polyline(tip, upper.Start())),
		made(b.upperName(), like.Printed, upper),
	}
	if closed {
		parts = []piece.Edge{made(b.sideName, like.Printed, append(slices.Clone(lower), upper...))}
	}
	if !b.sideFirst {
		slices.Reverse(parts)
	}
	was := b.p.Clone()
	first, count := b.side, 1
	if b.hadDart {
		count = 4
		if b.sideFirst {
			first = b.side - 3
		}
	}
	edges := slices.Clone(was.Edges)
	for first < 0 { // the run wraps round the end of the list
		edges = append(edges[len(edges)-1:], edges[:len(edges)-1]...)
		first++
	}
	edges = slices.Concat(edges[:first], parts, edges[first+count:])
	b.p.Edges = edges
	b.sideNotches(was)
	b.armhole = b.p.Index(was.Edges[b.armhole].Name)
	switch {
	case closed:
		b.joinUp(j)
	case !b.hadDart:
		b.partUp(j)
	}
}

func (b bust) upperName() string { return b.sideName + "-upper" }

// sideNotches sets the notches of the side anew: each keeps its distance from
// the end of its part.
func (b *bust) sideNotches(was piece.Piece) {
	lowLong := b.lower.Length()
	for k, m := range b.p.Marks {
		if m.Kind != piece.Notch || m.Edge != b.sideName && m.Edge != b.upperName() {
			continue
		}
		old, _ := was.Edge(m.Edge)
		up := m.At // from the hem
		if !b.sideFirst {
			up = old.Curve.Length() - m.At
		}
		if m.Edge == b.upperName() {
			up += lowLong
		}
		name := b.sideName
		if _, parted := b.p.Edge(b.upperName()); parted && up > lowLong {
			name, up = b.upperName(), up-lowLong
		}
		e, _ := b.p.Edge(name)
		m.Edge, m.At = name, up
		if !b.sideFirst {
			m.At = e.Curve.Length() - up
		}
		m.P = e.Curve.At(m.At)
		b.p.Marks[k] = m
	}
}

// partUp lets every reference to the side mean its two parts, and adds the join
// of the dart.
func (b *bust) partUp(j *job) {
	j.eachRef(func(r piece.Ref, against bool) []piece.Ref {
		if r.Piece != b.p.Name || r.Inside || r.Edge != b.sideName || r.From != "" {
			return []piece.Ref{r}
		}
		up := r
		up.Edge = b.upperName()
		out := []piece.Ref{r, up} // up the side
		if b.sideFirst == (against != r.Reversed != (r.Copy == piece.Right)) {
			slices.Reverse(out)
		}
		return out
	})
	u, _ := j.g.Use(b.p.Name)
	j.g.View.Joins = append(slices.Clone(j.g.View.Joins), pattern.Join{
		ID: j.step.ID, Title: "bust dart", Each: len(u.CopyList()) > 1,
		Sides:  [][]piece.Ref{{{Piece: b.p.Name, Edge: dartLower}}, {{Piece: b.p.Name, Edge: dartUpper}}},
		Method: j.step.Method, Place: j.place(),
	})
}

// joinUp takes the dart and the upper part of the side out of the view again.
func (b *bust) joinUp(j *job) {
	j.eachRef(func(r piece.Ref, _ bool) []piece.Ref {
		if r.Piece == b.p.Name && r.Edge == b.upperName() {
			return nil
		}
		return []piece.Ref{r}
	})
	j.g.View.Joins = slices.DeleteFunc(slices.Clone(j.g.View.Joins), func(x pattern.Join) bool {
		return x.Sides[0][0].Piece == b.p.Name && x.Sides[0][0].Edge == dartLower
	})
}

// eachRef puts in place of every reference of the view what f makes of it.
func (j *job) eachRef(f func(r piece.Ref, against bool) []piece.Ref) {
	v := &j.g.View
	each := func(refs []piece.Ref, against bool) []piece.Ref {
		var out []piece.Ref
		for _, r := range refs {
			out = append(out, f(r, against)...)
		}
		return out
	}
	v.Joins = slices.Clone(v.Joins)
	for i := range v.Joins {
		v.Joins[i].Sides = slices.Clone(v.Joins[i].Sides)
		for k, side := range v.Joins[i].Sides {
			v.Joins[i].Sides[k] = each(side, k > 0)
		}
	}
	v.Finishes, v.Closures, v.Girths = slices.Clone(v.Finishes), slices.Clone(v.Closures), slices.Clone(v.Girths)
	for i := range v.Finishes {
		v.Finishes[i].Edges = each(v.Finishes[i].Edges, false)
	}
	for i := range v.Closures {
		v.Closures[i].Along = each(v.Closures[i].Along, false)
	}
	for i := range v.Girths {
		v.Girths[i].Edges, v.Girths[i].Pieces = each(v.Girths[i].Edges, false), each(v.Girths[i].Pieces, false)
	}
}

// respan draws the levels and lengthen lines of a piece from side to side.
func respan(p *piece.Piece) {
	for i, l := range p.Lines {
		if l.Kind == piece.Level || l.Kind == piece.Lengthen {
			h := height(l.Curve)
			span := acrossAt(*p, h)
			p.Lines[i].Curve = geom.Polyline(geom.Pt{X: span[0], Y: h}, geom.Pt{X: span[1], Y: h})
		}
	}
}
