package follow

import (
	"math"

	"gusset/internal/geom"
)

// Dashes are closed by looking along the line: the ink of a place is the most
// that lies, on average, on a straight piece of line through it. The line at hand
// is told from its neighbours by how much of it that is.
const (
	along      = 8.0 // mm of line to each side of a place: a period of usual dashes
	alongStep  = 0.8
	directions = 24
)

// close fills in line.
func (m *inkMap) close(from, to geom.Pt) {
	m.line = make([]float32, len(m.ink))
	busy, wide := m.busy(), m.widened()
	var offsets [directions][]int
	n := int(math.Floor(along / alongStep))
	for d := range directions {
		s, c := math.Sincos(math.Pi * float64(d) / directions)
		for k := -n; k <= n; k++ {
			r := float64(k) * alongStep / step
			offsets[d] = append(offsets[d], int(math.Round(r*s))*m.nx+int(math.Round(r*c)))
		}
	}
	rim := int(math.Ceil(along/step)) + 1
	for y := rim; y < m.ny-rim; y++ {
		for x := rim; x < m.nx-rim; x++ {
			k := y*m.nx + x
			if !busy(x, y) {
				continue
			}
			var most float32
			for _, list := range offsets {
				var sum float32
				for _, o := range list {
					sum += wide[k+o]
				}
				most = max(most, sum)
			}
			m.line[k] = most / float32(2*n+1)
		}
	}
	level := max((m.strongest(from)+m.strongest(to))/2, 0.25)
	for k, v := range m.line {
		m.line[k] = 0.96*likeness(v/level) + 0.04*m.ink[k] // the middle of a line is better than its rim
	}
}

// likeness is 1 for about as much ink as the line at hand has, and falls off
// for less, which is paper, and for more, which is another size's line with
// longer dashes.
func likeness(part float32) float32 {
	off := max(part-1, 1-part)
	return min(max(1-2*(off-0.2), 0), 1)
}

// widened gives every place the most ink of itself and its neighbours, so that a
// bend does not lead off the line within the look.
func (m *inkMap) widened() []float32 {
	out := m.ink
	for _, o := range [2]int{1, m.nx} {
		from := out
		out = make([]float32, len(from))
		for k := o; k < len(from)-o; k++ {
			out[k] = max(from[k], from[k-o], from[k+o])
		}
	}
	return out
}

// strongest is how much ink the line has near a place, on average over a
// centimetre to that side of it where there is most: the place may be a corner.
func (m *inkMap) strongest(p geom.Pt) float32 {
	k := m.snapped(p)
	at := m.at(k%m.nx, k/m.nx)
	var most float64
	for d := range 3 * directions {
		dir := geom.Pt{X: 1}.Rot(2 * math.Pi * float64(d) / (3 * directions))
		var sum, n float64
		for r := 0.0; r <= 2*along; r += step {
			// The line may bend away by a step from a straight look.
			q := at.Add(dir.Mul(r))
			side := dir.Left().Mul(step)
			sum, n = sum+max(m.between(q), m.between(q.Add(side)), m.between(q.Sub(side))), n+1
		}
		most = max(most, sum/n)
	}
	return float32(most)
}

// busy reports whether there is ink within reach of a place: blocks without any
// are passed over.
func (m *inkMap) busy() func(x, y int) bool {
	const n = 8
	bx, by := m.nx/n+1, m.ny/n+1
	some := make([]bool, bx*by)
	for k, v := range m.ink {
		if v > 0.3 {
			some[(k/m.nx/n)*bx+(k%m.nx)/n] = true
		}
	}
	reach := int(math.Ceil(along/step))/n + 1
	return func(x, y int) bool {
		for j := max(y/n-reach, 0); j <= min(y/n+reach, by-1); j++ {
			for i := max(x/n-reach, 0); i <= min(x/n+reach, bx-1); i++ {
				if some[j*bx+i] {
					return true
				}
			}
		}
		return false
	}
}
