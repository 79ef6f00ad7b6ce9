package source

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"
)

// affine is the matrix (a c e; b d f; 0 0 1) in SVG's order a b c d e f
// (CSS Transforms Level 1, section 8).
type affine [6]float64

func (m affine) apply(p [2]float64) [2]float64 {
	return [2]float64{
		float64(m[0]*p[0]) + float64(m[2]*p[1]) + m[4],
		float64(m[1]*p[0]) + float64(m[3]*p[1]) + m[5],
	}
}

// times is m after n: n is applied to a point first.
func (m affine) times(n affine) affine {
	return affine{
		float64(m[0]*n[0]) + float64(m[2]*n[1]), float64(m[1]*n[0]) + float64(m[3]*n[1]),
		float64(m[0]*n[2]) + float64(m[2]*n[3]), float64(m[1]*n[2]) + float64(m[3]*n[3]),
		float64(m[0]*n[4]) + float64(m[2]*n[5]) + m[4], float64(m[1]*n[4]) + float64(m[3]*n[5]) + m[5],
	}
}

func (m affine) det() float64 { return float64(m[0]*m[3]) - float64(m[1]*m[2]) }

// uniform gives the scale of a matrix that keeps circles round.
func (m affine) uniform() (scale float64, ok bool) {
	x, y := math.Hypot(m[0], m[1]), math.Hypot(m[2], m[3])
	dot := float64(m[0]*m[2]) + float64(m[1]*m[3])
	const slack = 1e-6
	return math.Sqrt(math.Abs(m.det())), math.Abs(x-y) <= slack*x && math.Abs(dot) <= slack*x*y
}

// transformed is the matrix inside an element with a transform.
func (d *drawing) transformed(m affine, tag xml.StartElement) affine {
	if strings.Contains(attr(tag, "style"), "transform") || attr(tag, "transform-origin") != "" {
		d.offset(d.start, svgTransform, "it is given as style")
		return m
	}
	value := attr(tag, "transform")
	if value == "" {
		return m
	}
	own, err := transformList(value)
	if err != nil {
		d.offset(d.valueOffset(tag, "transform"), svgTransform, err.Error())
		return m
	}
	return m.times(own)
}

// transformList reads "translate(3,4) rotate(90)"; the last is applied first.
func transformList(s string) (affine, error) {
	m := affine{1, 0, 0, 1, 0, 0}
	rest := strings.TrimLeft(s, " \t\n,")
	for rest != "" {
		name, after, ok := strings.Cut(rest, "(")
		if !ok {
			return m, fmt.Errorf("%q has no ( )", shortened(rest))
		}
		args, after, ok := strings.Cut(after, ")")
		if !ok {
			return m, fmt.Errorf("%q has no )", shortened(rest))
		}
		numbers, ok := numberList(args)
		if !ok {
			return m, fmt.Errorf("%q are not plain numbers", shortened(args))
		}
		one, err := transform(strings.TrimSpace(name), numbers)
		if err != nil {
			return m, err
		}
		m = m.times(one)
		rest = strings.TrimLeft(after, " \t\n,")
	}
	if det := m.det(); !(math.Abs(det) > 1e-12 && math.Abs(det) < 1e12) {
		return m, fmt.Errorf("it makes everything vanish or grow without bound")
	}
	return m, nil
}

func transform(name string, n []float64) (affine, error) {
	switch {
	case name == "translate" && len(n) == 1:
		return affine{1, 0, 0, 1, n[0], 0}, nil
	case name == "translate" && len(n) == 2:
		return affine{1, 0, 0, 1, n[0], n[1]}, nil
	case name == "scale" && len(n) == 1:
		return affine{n[0], 0, 0, n[0], 0, 0}, nil
	case name == "scale" && len(n) == 2:
		return affine{n[0], 0, 0, n[1], 0, 0}, nil
	case name == "rotate" && len(n) == 1:
		return rotation(n[0]), nil
	case name == "rotate" && len(n) == 3:
		to, back := affine{1, 0, 0, 1, n[1], n[2]}, affine{1, 0, 0, 1, -n[1], -n[2]}
		return to.times(rotation(n[0])).times(back), nil
	case name == "matrix" && len(n) == 6:
		return affine(n), nil
	case name == "skewX" || name == "skewY":
		return affine{}, fmt.Errorf("%s would distort the piece", name)
	}
	return affine{}, fmt.Errorf("%s with %d numbers is not read", shortened(name), len(n))
}

// rotation is exact for quarter turns, so that straight lines stay straight.
func rotation(degrees float64) affine {
	var sin, cos float64
	switch math.Mod(degrees, 360) {
	case 0:
		sin, cos = 0, 1
	case 90, -270:
		sin, cos = 1, 0
	case 180, -180:
		sin, cos = 0, -1
	case 270, -90:
		sin, cos = -1, 0
	default:
		sin, cos = math.Sincos(degrees * math.Pi / 180)
	}
	return affine{cos, sin, -sin, cos, 0, 0}
}
