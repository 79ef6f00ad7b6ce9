package change

import (
	"fmt"
	"math"

	"gusset/internal/geom"
)

// smoothEdge draws an edge anew in one sweep between its corners, leaving them in
// the directions it had there: a hem after a slash, a waist that has been cut up.
// It says how far the line has moved.
func smoothEdge(j *job) string {
	p, e, ok := j.edgeAt(j.step.Edge)
	if !ok {
		return ""
	}
	i := p.Index(e.Name)
	if fold := foldEdge(j.g, p.Name); fold == e.Name {
		j.tell(noEdge, e.Name+" of "+p.Name+" lies on the fold, which stays straight")
		return ""
	}
	was := e.Curve
	p.Edges[i].Curve = sweep(was)
	var off float64
	for _, q := range p.Edges[i].Curve.Flatten(0.05) {
		_, d := was.Nearest(q)
		off = math.Max(off, d)
	}
	if most := mostSweep * was.Length(); off > most {
		j.tell(noSweep, e.Name, p.Name, j.say(off), j.say(most))
		return ""
	}
	if off < 1e-6 {
		j.tell(nothing, e.Name+" of "+p.Name+" is one sweep")
	}
	j.mark(&p.Edges[i])
	j.relay(&p, i)
	j.g.Pieces[p.Name] = p
	return fmt.Sprintf("%s of %s drawn in one sweep, moved by up to %s", e.Name, p.Title, j.say(off))
}

// mostSweep is how far an edge may move when it is drawn anew, as a share of its
// length: further, and it was meant to bend both ways.
const mostSweep = 0.04

// sweep is one cubic between the ends of a curve in its end directions. Where the
// lines along these meet between the ends, each handle goes the same share of the
// way to that point, 4 tan(turn/4) / (3 tan(turn/2)), which makes a circular arc of
// it where the ways are equally long and never bends back; else each handle is a
// third of the chord.
func sweep(c geom.Curve) geom.Curve {
	a, z := c.Start(), c.End()
	da, dz := c.StartTangent(), c.EndTangent()
	ha, hz := a.Dist(z)/3, a.Dist(z)/3
	if turn := da.Cross(dz); math.Abs(turn) > 1e-9 {
		t := math.Atan2(turn, da.Dot(dz))
		share := 4 * math.Tan(t/4) / (3 * math.Tan(t/2))
		toMeetA, toMeetZ := z.Sub(a).Cross(dz)/turn, da.Cross(z.Sub(a))/turn
		if toMeetA > 0 && toMeetZ > 0 && math.Max(toMeetA, toMeetZ) < 3*a.Dist(z) {
			ha, hz = share*toMeetA, share*toMeetZ
		}
	}
	return geom.Curve{geom.Cubic(a, a.Add(da.Mul(ha)), z.Sub(dz.Mul(hz)), z)}
}
