package reach

import "math"

// Access says how well a line can be got at, at its worst point. Lengths are in
// mm and infinite where there is nothing to measure.
type Access struct {
	Level Level
	// Girth is the tube's, where the point lies in one; Depth is the way to the
	// nearest opening wide enough, Deep the tube's length when it is open at both
	// ends, else the same as Depth.
	Girth, Depth, Deep float64
	Along              bool     // the line runs along the tube, not round it
	Thickness          float64  // mm under the foot, when that is what hinders
	Around             []string // pieces that the tube is made of
	Caught             []string // pieces beneath the line that would be sewn in with it
	Machine            Machine
}

// worse orders accesses: by level, then, where cloth is bunched up, the deeper,
// else the narrower tube, and of tubes as wide the deeper.
func worse(a, b Access) bool {
	const alike = 1.01 // girths this near are one: they vary with the sample points
	switch {
	case a.Level != b.Level:
		return a.Level > b.Level
	case a.Level != Awkward && (a.Girth*alike < b.Girth || b.Girth*alike < a.Girth):
		return a.Girth < b.Girth
	}
	return a.Depth > b.Depth
}

// best is the access of those on several machines that is least bad.
func best(list []Access) Access {
	out := list[0]
	for _, a := range list[1:] {
		if worse(out, a) {
			out = a
		}
	}
	return out
}

// judge tells what a point means for a machine. ply is the thickness of one
// ply, stack that of all under the needle, in mm.
func (m Machine) judge(f tightness, ply, stack float64) Access {
	a := Access{
		Girth: f.girth, Depth: f.depth, Deep: f.depth, Along: f.angle >= alongFrom, Machine: m,
	}
	if !math.IsInf(f.second, 1) {
		a.Deep += f.second
	}
	a.Level = m.level(f, ply)
	if m.Lift > 0 && stack > m.Lift {
		a.Level, a.Thickness = max(a.Level, ByHand), stack
	}
	return a
}

func (m Machine) level(f tightness, ply float64) Level {
	switch {
	case math.IsInf(f.depth, 1):
		return f.byHand()
	case f.girth >= 2*(m.Throat+foot):
		return m.flat(f, ply)
	case f.girth < m.ArmGirth+ease:
		if f.angle < alongFrom && f.girth/2 >= 2*foot+ring {
			return RoundArm
		}
		return f.byHand()
	case f.depth <= m.ArmLength:
		return RoundArm
	case m.ArmGirth+m.bunched(f.depth, ply) <= f.girth:
		return Awkward
	}
	return f.byHand()
}

// flat is the level of what can be laid open: the cloth between the line and
// the nearest edge lies rolled in the throat and may fill half of it.
func (m Machine) flat(f tightness, ply float64) Level {
	if f.depth*ply*loft > m.Throat*m.Height/2 {
		return Awkward
	}
	return Easy
}

// bunched is how much longer the way round the arm is with the cloth from
// depth bunched up on it: as many layers as arm lengths, each a little further
// out.
func (m Machine) bunched(depth, ply float64) float64 {
	return 2 * math.Pi * loft * ply * depth / m.ArmLength
}

// byHand is the level of what no machine reaches.
func (f tightness) byHand() Level {
	if f.handDepth <= fingers || f.girth >= hand && !math.IsInf(f.handDepth, 1) {
		return ByHand
	}
	return Impossible
}
