package geom

// Extend returns the curve lengthened straight along its end tangents by
// before and after millimetres; amounts that are not positive change nothing.
// A straight end segment is lengthened itself, a curved one gets a straight
// segment added.
func (c Curve) Extend(before, after float64) Curve {
	if len(c) == 0 {
		return nil
	}
	out := append(Curve(nil), c...)
	if t := c.EndTangent(); after > 0 && t != (Pt{}) {
		out = out.endAt(c.End().Add(t.Mul(after)))
	}
	if t := c.StartTangent(); before > 0 && t != (Pt{}) {
		out = out.startAt(c.Start().Sub(t.Mul(before)))
	}
	return out
}

// endAt carries the curve on to p, which lies on the end tangent.
func (c Curve) endAt(p Pt) Curve {
	last := c[len(c)-1]
	if last.Straight {
		c[len(c)-1] = Line(last.P[0], p)
		return c
	}
	return append(c, Line(last.P[3], p))
}

// startAt makes the curve begin at p, which lies on the start tangent.
func (c Curve) startAt(p Pt) Curve {
	if c[0].Straight {
		c[0] = Line(p, c[0].P[3])
		return c
	}
	return append(Curve{Line(p, c[0].P[0])}, c...)
}
