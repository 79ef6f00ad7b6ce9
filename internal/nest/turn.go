package nest

import "math"

// turn is the linear part of a placement.
type turn struct {
	cos, sin float64
	flip     bool
}

// turnOf keeps multiples of 90 degrees exact, so that a rectangle stays one.
func turnOf(o Orientation) turn {
	d := math.Mod(o.Degrees, 360)
	if d < 0 {
		d += 360
	}
	t := turn{flip: o.Flip}
	switch d {
	case 0:
		t.cos, t.sin = 1, 0
	case 90:
		t.cos, t.sin = 0, 1
	case 180:
		t.cos, t.sin = -1, 0
	case 270:
		t.cos, t.sin = 0, -1
	default:
		t.sin, t.cos = math.Sincos(d * math.Pi / 180)
	}
	return t
}

func (t turn) apply(p Pt) Pt {
	if t.flip {
		p.Y = -p.Y
	}
	return Pt{
		float64(p.X*t.cos) - float64(p.Y*t.sin),
		float64(p.X*t.sin) + float64(p.Y*t.cos),
	}
}

// polygon turns a counter-clockwise polygon and keeps it counter-clockwise.
func (t turn) polygon(shape []Pt) []Pt {
	out := make([]Pt, len(shape))
	for i, p := range shape {
		k := i
		if t.flip {
			k = len(shape) - 1 - i
		}
		out[k] = t.apply(p)
	}
	return out
}

// undo takes a turned point back.
func (t turn) undo(p Pt) Pt {
	q := Pt{
		float64(p.X*t.cos) + float64(p.Y*t.sin),
		float64(p.Y*t.cos) - float64(p.X*t.sin),
	}
	if t.flip {
		q.Y = -q.Y
	}
	return q
}
