package nest

import (
	"fmt"
	"math"
)

// check refuses a problem that makes no sense. A part that fits nowhere is
// not an error: it stays unplaced.
func (p *Problem) check() error {
	if bad(p.Clearance) || p.Clearance < 0 {
		return fmt.Errorf("nest: clearance %v is not a length", p.Clearance)
	}
	if len(p.Containers) == 0 {
		return fmt.Errorf("nest: no containers")
	}
	for i, c := range p.Containers {
		if err := c.check(); err != nil {
			return fmt.Errorf("nest: container %d: %w", i, err)
		}
	}
	for i, h := range p.Hazards {
		if h.Container < 0 || h.Container >= len(p.Containers) {
			return fmt.Errorf("nest: hazard %d: no container %d", i, h.Container)
		}
		if err := checkPolygon(h.Shape); err != nil {
			return fmt.Errorf("nest: hazard %d: %w", i, err)
		}
	}
	for i := range p.Parts {
		if err := p.Parts[i].check(len(p.Containers)); err != nil {
			return fmt.Errorf("nest: part %d: %w", i, err)
		}
	}
	return p.checkLattices()
}

func (c *Container) check() error {
	if bad(c.Origin.X) || bad(c.Origin.Y) {
		return fmt.Errorf("origin %v is not finite", c.Origin)
	}
	if len(c.Outline) > 0 {
		return checkPolygon(c.Outline)
	}
	if bad(c.Width) || c.Width <= 0 {
		return fmt.Errorf("width %v is not a positive length", c.Width)
	}
	if math.IsNaN(c.MaxLength) || c.MaxLength < 0 {
		return fmt.Errorf("maximum length %v is not a length", c.MaxLength)
	}
	return nil
}

func (p *Part) check(containers int) error {
	if err := checkPolygon(p.Shape); err != nil {
		return err
	}
	if len(p.Poses) == 0 {
		return fmt.Errorf("no pose is allowed")
	}
	for _, o := range p.Poses {
		if bad(o.Degrees) {
			return fmt.Errorf("pose of %v degrees", o.Degrees)
		}
	}
	if bad(p.Tilt) || p.Tilt < 0 || p.Tilt > 45 {
		return fmt.Errorf("tilt of %v degrees is not in 0 to 45", p.Tilt)
	}
	for _, c := range p.Containers {
		if c < 0 || c >= containers {
			return fmt.Errorf("no container %d", c)
		}
	}
	if lo, hi := p.Across[0], p.Across[1]; bad(lo) || bad(hi) || lo > hi || lo == hi && lo != 0 {
		return fmt.Errorf("band across from %v to %v", lo, hi)
	}
	return checkPins(p.Pins)
}

func checkPins(pins []Pin) error {
	var seen [2]bool
	for _, pin := range pins {
		if pin.Axis != X && pin.Axis != Y || pin.Of < Low || pin.Of > Origin || bad(pin.Value) {
			return fmt.Errorf("pin %+v is not one", pin)
		}
		if seen[pin.Axis] {
			return fmt.Errorf("two pins on one axis")
		}
		seen[pin.Axis] = true
	}
	return nil
}

func checkPolygon(s []Pt) error {
	if len(s) < 3 {
		return fmt.Errorf("polygon of %d points", len(s))
	}
	for _, q := range s {
		if bad(q.X) || bad(q.Y) {
			return fmt.Errorf("polygon point %v is not finite", q)
		}
	}
	if a := signedArea(s); a <= 0 {
		return fmt.Errorf("polygon has area %g mm², counter-clockwise ones have more than 0", a)
	}
	if i, j, crossed := crossedEdges(s); crossed {
		return fmt.Errorf("polygon edges %d and %d cross", i, j)
	}
	return nil
}

func bad(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e7 }

// crossedEdges looks for two edges of a polygon that cross at an inner point
// of both. Touching is allowed.
func crossedEdges(s []Pt) (i, j int, found bool) {
	n := len(s)
	for i := 0; i < n; i++ {
		a, b := s[i], s[(i+1)%n]
		for j := i + 2; j < n; j++ {
			if crossing(a, b, s[j], s[(j+1)%n]) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

func crossing(a, b, c, d Pt) bool {
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// side is +1 when c lies left of the line from a to b, -1 when right, 0 when
// it cannot be told (closer than about a nanometre of triangle height).
func side(a, b, c Pt) int {
	v := float64((b.X-a.X)*(c.Y-a.Y)) - float64((b.Y-a.Y)*(c.X-a.X))
	eps := 1e-9 * (math.Abs(b.X-a.X) + math.Abs(b.Y-a.Y))
	switch {
	case v > eps:
		return 1
	case v < -eps:
		return -1
	}
	return 0
}

func signedArea(s []Pt) float64 {
	var sum float64
	for i, p := range s {
		q := s[(i+1)%len(s)]
		sum += float64((p.X-s[0].X)*(q.Y-s[0].Y)) - float64((q.X-s[0].X)*(p.Y-s[0].Y))
	}
	return sum / 2
}
