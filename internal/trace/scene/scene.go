package scene

import (
	"math"

	"gusset/internal/cards"
	"gusset/internal/geom"
	"gusset/internal/trace/camera"
)

// Line is a printed line.
type Line struct {
	Points []geom.Pt
	Width  float64 // mm
}

// Card is a card on the table.
type Card struct {
	ID    cards.ID
	At    geom.Pt
	Angle float64 // radians counter-clockwise
	Curl  float64 // height of its upper right corner above the table in mm
}

// Light is linear light, red, green and blue; of a surface, what part of the
// light it gives back.
type Light = [3]float64

// Scene is all that a photo shows. The zero value of what is optional leaves it
// out.
type Scene struct {
	Seed     uint64
	W, H     int
	View     camera.View
	K3       float64    // third radial coefficient, which the solver lacks
	Decentre [2]float64 // decentring coefficients p1, p2 (Brown 1971), likewise

	Outline []geom.Pt // of the paper, with its notches
	Ink     []Line
	Paper   Light
	Table   Light
	Wood    float64 // strength of the table's grain, 0 plain .. 1
	Cards   []Card
	Scale   float64 // true size of the printed cards over what was meant
	Stretch float64 // how much longer up the printed sheet, as a fraction

	Shadow  float64 // part of the light that a soft shadow takes, 0..1
	Falloff float64 // change of light across a metre, as a fraction
	Noise   float64 // standard deviation in steps of the coded picture
	Blur    float64 // standard deviation in pixels
	Quality int     // of the JPEG

	Lift func(geom.Pt) float64 // height of the paper above the table, mm

	prints Printing
	cells  *cells
	grain  *roughness
}

// ray returns the direction in focal lengths that a pixel looks in, through the
// whole lens: the radial part that the solver has, K3 and Decentre.
func (s *Scene) ray(px geom.Pt) (x, y float64) {
	l := s.View.Lens
	u, v := (px.X-l.CX)/l.F, (px.Y-l.CY)/l.F
	x, y = u, v
	for range 12 {
		r2 := x*x + y*y
		k := 1 + r2*(l.K1+r2*(l.K2+r2*s.K3))
		dx := 2*s.Decentre[0]*x*y + s.Decentre[1]*(r2+2*x*x)
		dy := s.Decentre[0]*(r2+2*y*y) + 2*s.Decentre[1]*x*y
		wasX, wasY := x, y
		x, y = (u-dx)/k, (v-dy)/k
		if math.Abs(x-wasX)+math.Abs(y-wasY) < 1e-13 {
			break
		}
	}
	return x, y
}

// hit is where rays of a view meet planes above the table.
type hit struct {
	eye geom.Pt
	h   float64
	d   [3]float64
}

func (s *Scene) hit(px geom.Pt) hit {
	x, y := s.ray(px)
	eye, h := s.View.Eye()
	r := s.View.R
	var d [3]float64
	for i := range d {
		d[i] = r[0][i]*x + r[1][i]*y + r[2][i]
	}
	return hit{eye, h, d}
}

// at returns the point at a height.
func (h hit) at(z float64) geom.Pt {
	k := (z - h.h) / h.d[2]
	return h.eye.Add(geom.Pt{X: h.d[0], Y: h.d[1]}.Mul(k))
}

// on follows a ray down to a surface whose height depends on the place.
func (h hit) on(height func(geom.Pt) float64) geom.Pt {
	p := h.at(0)
	if height == nil {
		return p
	}
	for range 4 {
		p = h.at(height(p))
	}
	return p
}

// surface is the colour seen along a ray, and a number for what it belongs to:
// where neighbours differ in it there is an edge.
func (s *Scene) surface(h hit) (Light, int) {
	flat := h.at(0)
	for i, c := range s.Cards {
		if c.At.Dist(flat) > cards.Cut {
			continue
		}
		p := h.on(c.height()).Sub(c.At).Rot(-c.Angle)
		if v, ok := s.prints[c.ID].at(s.meant(c.ID, p)); ok {
			tone := int(v * 3)
			return Light{0.04 + 0.66*v, 0.04 + 0.66*v, 0.04 + 0.65*v}, 8 + 4*i + tone
		}
	}
	if p := h.on(s.Lift); s.cells.in(p) {
		switch on, near := s.cells.inked(p); {
		case on:
			return Light{0.05, 0.05, 0.05}, 2
		case near:
			return s.Paper, 3
		}
		return s.Paper, 1
	}
	k := 1 + s.Wood*s.grain.at(flat)
	return Light{s.Table[0] * k, s.Table[1] * k, s.Table[2] * k}, 0
}

// meant returns which point of the card as designed is printed at p.
func (s *Scene) meant(id cards.ID, p geom.Pt) geom.Pt {
	along, across := s.Scale*(1+s.Stretch), s.Scale*(1-s.Stretch)
	if id.Turned() {
		along, across = across, along
	}
	return geom.Pt{X: p.X / across, Y: p.Y / along}
}

// height is that of a curling card: it bends up towards its upper right corner
// with the square of the distance from the other diagonal.
func (c Card) height() func(geom.Pt) float64 {
	if c.Curl == 0 {
		return nil
	}
	return func(p geom.Pt) float64 {
		d := p.Sub(c.At).Rot(-c.Angle)
		return c.Curl * math.Pow(max(d.X+d.Y, 0)/(2*cards.Reach), 2)
	}
}

// Tape returns the true distance between the crosses of two cards.
func (s *Scene) Tape(a, b cards.ID) float64 {
	var at [2]geom.Pt
	for _, c := range s.Cards {
		for i, id := range []cards.ID{a, b} {
			if c.ID == id {
				t := cards.Tape()
				along := s.Scale * (1 + s.Stretch)
				if id.Turned() {
					along = s.Scale * (1 - s.Stretch)
				}
				at[i] = c.At.Add(geom.Pt{X: t.X, Y: t.Y * along}.Rot(c.Angle))
			}
		}
	}
	return at[0].Dist(at[1])
}

// lit is how much light falls on a place of the table.
func (s *Scene) lit(p geom.Pt) float64 {
	k := 1 + s.Falloff*(0.8*p.X+0.6*p.Y)/1000
	if s.Shadow > 0 { // of something that stands beside the table, with a soft edge 60 mm wide
		d := (p.X*0.5 - p.Y*0.86 - 120) / 30
		k *= 1 - s.Shadow/(1+math.Exp(d))
	}
	return k
}
