package geom

// Measured is a curve with the lengths of its segments kept, for asking many
// times where along it something lies.
type Measured struct {
	curve   Curve
	lengths []float64
}

// Measured returns the curve, measured.
func (c Curve) Measured() Measured {
	m := Measured{c, make([]float64, len(c))}
	for i, s := range c {
		m.lengths[i] = s.Length()
	}
	return m
}

// TangentAt is Curve.TangentAt.
func (m Measured) TangentAt(d float64) Pt {
	for i, s := range m.curve {
		if d <= m.lengths[i] || i == len(m.curve)-1 {
			return s.Tangent(s.ParamAt(d))
		}
		d -= m.lengths[i]
	}
	return Pt{}
}
