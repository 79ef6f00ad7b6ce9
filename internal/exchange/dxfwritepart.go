package exchange

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// block writes one piece in one size.
func (d *dxfWriter) block(name string, p Part) {
	d.put(0, "BLOCK")
	d.put(8, strconv.Itoa(layerBoundary))
	d.put(2, name)
	d.put(70, "0")
	d.point(geom.Pt{})
	d.put(3, name)
	d.outline(layerBoundary, p.Cut)
	if len(p.Sewn) > 0 {
		d.outline(layerSew, p.Sewn)
	}
	for _, l := range p.Lines {
		d.line(l)
	}
	for _, m := range p.Marks {
		d.mark(p, m)
	}
	if len(p.Mirror) > 0 {
		d.polyline(layerMirror, flat(p.Mirror), false)
	}
	d.systemText(p)
	d.put(0, "ENDBLK")
	d.put(8, strconv.Itoa(layerBoundary))
}

// outline writes a closed line with its turn and curve points, and the names of
// its edges.
func (d *dxfWriter) outline(layer int, edges []Edge) {
	var pts []geom.Pt
	loop := whole(edges)
	turn := turns(loop)
	corner := map[geom.Pt]bool{}
	for _, e := range edges {
		pts = append(pts, dropLast(flat(e.Curve))...)
		if len(edges) > 1 {
			corner[e.Curve.Start()] = true
		}
	}
	d.polyline(layer, pts, true)
	for i, s := range loop {
		switch {
		case corner[s.P[0]] || math.Abs(turn[i]) > sharp:
			d.dot(layerTurn, s.P[0])
		case !s.Straight || !loop[(i+len(loop)-1)%len(loop)].Straight:
			d.dot(layerCurve, s.P[0])
		}
	}
	for _, e := range edges {
		if e.Name != "" {
			d.text(layerText, e.Curve.Start(), "EDGE "+e.Name)
		}
	}
}

// sharp is the turn, in radians, above which a joint is a turn point.
const sharp = 1 * math.Pi / 180

// sharpTurns are the places inside a line at which it turns sharply.
func sharpTurns(c geom.Curve) []geom.Pt {
	var out []geom.Pt
	for i := 1; i < len(c); i++ {
		a, b := c[i-1].Tangent(1), c[i].Tangent(0)
		if math.Abs(math.Atan2(a.Cross(b), a.Dot(b))) > sharp {
			out = append(out, c[i].P[0])
		}
	}
	return out
}

func dropLast(pts []geom.Pt) []geom.Pt { return pts[:max(0, len(pts)-1)] }

// flat is the points of a curve, those of no length between them left out.
func flat(c geom.Curve) []geom.Pt {
	var out []geom.Pt
	for _, p := range c.Flatten(flatTol) {
		if len(out) == 0 || p.Dist(out[len(out)-1]) > 1e-4 {
			out = append(out, p)
		}
	}
	if len(out) > 1 {
		out[len(out)-1] = c.End()
	}
	return out
}

func (d *dxfWriter) line(l piece.Line) {
	layer := layerInternal
	switch l.Kind {
	case piece.Grain:
		layer = layerGrain
	case piece.Stitch:
		layer = layerSew
	}
	for _, p := range sharpTurns(l.Curve) {
		d.dot(layerTurn, p)
	}
	pts := flat(l.Curve)
	if len(pts) == 2 {
		d.put(0, "LINE")
		d.put(8, strconv.Itoa(layer))
		d.point(pts[0])
		d.number(11, pts[1].X*d.scale)
		d.number(21, pts[1].Y*d.scale)
		d.number(31, 0)
	} else {
		d.polyline(layer, pts, false)
	}
	d.text(layerText, l.Curve.Start(), "LINE "+string(l.Kind)+" "+l.Name)
}

// mark writes a notch on the boundary, with the direction in which it is cut, or
// a point inside.
func (d *dxfWriter) mark(p Part, m piece.Mark) {
	if m.Kind != piece.Notch {
		d.dot(layerDrill, m.P)
		d.text(layerText, m.P, "MARK "+string(m.Kind)+" "+m.Name)
		return
	}
	at, inwards := onBoundary(p, m)
	d.dot(layerNotch, at)
	d.number(50, inwards*180/math.Pi)
	if m.Edge != "" || m.Name != "" {
		d.text(layerText, m.P, strings.TrimSpace("NOTCH "+m.Edge+" "+m.Name))
	}
}

// onBoundary is a notch's place on the boundary and the direction inwards, in
// radians.
func onBoundary(p Part, m piece.Mark) (geom.Pt, float64) {
	best, dist := geom.Pt{}, math.Inf(1)
	inwards := 0.0
	for _, e := range p.Cut {
		if m.Edge != "" && e.Name != "" && e.Name != m.Edge || len(e.Curve) == 0 {
			continue
		}
		if at, d := e.Curve.Nearest(m.P); d < dist {
			best, dist = e.Curve.At(at), d
			inwards = e.Curve.TangentAt(at).Left().Angle()
		}
	}
	if math.IsInf(dist, 1) {
		return m.P, 0
	}
	return best, inwards
}

// systemText describes the piece, in the middle of it.
func (d *dxfWriter) systemText(p Part) {
	lines := []string{"PIECE NAME: " + p.Name, "SIZE: " + p.Size}
	if p.Left+p.Right > 0 {
		lines = append(lines, fmt.Sprintf("QUANTITY: %d,%d", p.Left, p.Right))
	}
	if p.Material != "" {
		lines = append(lines, "MATERIAL: "+p.Material)
	}
	if p.Title != "" && p.Title != p.Name {
		lines = append(lines, "ANNOTATION: "+p.Title)
	}
	lo, hi := p.bounds()
	at := lo.Lerp(hi, 0.5)
	for i, line := range lines {
		d.text(layerBoundary, at.Sub(geom.Pt{Y: 1.5 * textHeight * float64(i)}), line)
	}
}

// blockNames are names of release 12 (letters, digits, $, _ and -, at most 31),
// no two the same.
func blockNames(parts []Part) []string {
	out := make([]string, len(parts))
	seen := map[string]bool{}
	for i, p := range parts {
		name := strings.ToUpper(p.Name)
		if p.Size != "" {
			name += "-" + strings.ToUpper(p.Size)
		}
		name = strings.Map(func(r rune) rune {
			if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '$' {
				return r
			}
			return '_'
		}, name)
		base := name[:min(len(name), 26)]
		if len(name) <= 31 {
			base = name
		}
		name = base
		for k := 2; seen[name] || name == ""; k++ {
			name = fmt.Sprintf("%s_%d", base[:min(len(base), 26)], k)
		}
		seen[name] = true
		out[i] = name
	}
	return out
}
