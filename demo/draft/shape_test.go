package main

import (
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
)

// corner is the inner angle in degrees between the edge that ends and the one
// that begins at a corner of a piece.
func corner(t *testing.T, d draft, name, ends, begins string) float64 {
	t.Helper()
	in := edgeOf(t, d, name, ends).EndTangent()
	out := edgeOf(t, d, name, begins).StartTangent()
	return 180 - math.Atan2(in.Cross(out), in.Dot(out))*180/math.Pi
}

// TestSeamsRunOn checks the angles that meet when seams are joined: together
// they must be straight, or the garment has a point there (common practice:
// pieces are laid together and the edge is checked across the seam).
func TestSeamsRunOn(t *testing.T) {
	for i, d := range drafts(t) {
		near := func(what string, got, want, tol float64) {
			t.Helper()
			if math.Abs(got-want) > tol {
				t.Errorf("size %s: %s is %.1f degrees, want %.0f", labels[i], what, got, want)
			}
		}
		for _, v := range [][2]string{{"front", "back"}, {"front-cropped", "back-cropped"}} {
			f, b := v[0], v[1]
			near("fork, front and back joined", corner(t, d, f, "fork", "inseam")+corner(t, d, b, "inseam", "seat"), 180, 5)
			near("waist across the side seam", corner(t, d, f, "outseam", "waist")+corner(t, d, "yoke", "waist", "side"), 180, 1)
			near("waist at the centre front", corner(t, d, f, "waist", "centre"), 90, 1)
			near("hem at the front inseam", corner(t, d, f, "inseam", "hem"), 90, 2)
			near("hem at the front outseam", corner(t, d, f, "hem", "outseam"), 90, 2)
			near("hem at the back inseam", corner(t, d, b, "hem", "inseam"), 90, 2)
			near("hem at the back outseam", corner(t, d, b, "outseam", "hem"), 90, 2)
			near("fly into fork", corner(t, d, f, "centre", "fork"), 180, 1e-6)
			near("side across the yoke seam", corner(t, d, b, "top", "outseam")+corner(t, d, "yoke", "side", "lower"), 180, 1e-6)
			near("seat across the yoke seam", corner(t, d, b, "seat", "top")+corner(t, d, "yoke", "lower", "centre"), 180, 1e-6)
		}
		near("waist at the centre back", corner(t, d, "yoke", "centre", "waist"), 90, 1)
	}
}

// TestHipHasNoHollow checks that the side bends one way only from hip to waist.
func TestHipHasNoHollow(t *testing.T) {
	for i, d := range drafts(t) {
		c := edgeOf(t, d, "front", "outseam")
		_, hip := kneeAndHip(c)
		for at := hip; at < c.Length()-1; at += 2 {
			a, b := c.TangentAt(at), c.TangentAt(at+1)
			if a.Cross(b) < 0 {
				t.Errorf("size %s: the side is hollow %.0f mm above the hip", labels[i], at-hip)
				break
			}
		}
	}
}

// TestWearingEase measures the garment against its own chart. The smallest ease
// allowed is from the CWU Costume Text, chapter 16: hip 2 to 2 3/4 in, waist of trousers 1/2 to 3/4 in, thigh at least
// 1 in. The pattern promises the wider end of the first two, and half a
// centimetre over at the hip.
func TestWearingEase(t *testing.T) {
	for i, d := range drafts(t) {
		s := sizes[i]
		for _, v := range [][2]string{{"front", "back"}, {"front-cropped", "back-cropped"}} {
			f, b := d[v[0]], d[v[1]]
			hip := 2 * (levelWidth(t, f, "hip") + levelWidth(t, b, "hip"))
			thigh := levelWidth(t, f, "thigh") + levelWidth(t, b, "thigh")
			waist := 2 * (edgeOf(t, d, v[0], "waist").Length() + edgeOf(t, d, "yoke", "waist").Length())
			for _, c := range []struct {
				at            string
				has, min, max float64
			}{
				{"hip", hip - s.hip, 2.25 * inch, 2.75 * inch},
				{"waist", waist - s.waist, 0.75 * inch, 2 * inch},
				{"thigh", thigh - s.thigh, 1 * inch, 4 * inch},
			} {
				if c.has < c.min || c.has > c.max {
					t.Errorf("size %s: %s ease %.1f mm, want %.1f to %.1f", s.label, c.at, c.has, c.min, c.max)
				}
			}
		}
	}
}

func levelWidth(t *testing.T, p piece.Piece, level string) float64 {
	t.Helper()
	l, ok := p.Line(piece.Level, level)
	if !ok {
		t.Fatalf("%s has no level %s", p.Name, level)
	}
	return l.Curve.Length()
}

// TestGradingRises checks that every girth, every length and every edge that is
// not meant to stay the same grows from size to size.
func TestGradingRises(t *testing.T) {
	same := map[string]bool{
		"yoke:side": true, "yoke:centre": true, "fly-facing:waist": true, "shield:top": true,
		"shield:bottom": true, "band:left-end": true, "band:right-end": true, "bag-front:mouth": true,
		"bag-back:mouth": true,
		"loops:left":     true, "loops:right": true, "loops:lower-end": true, "loops:upper-end": true,
	}
	all := drafts(t)
	for i := 1; i < len(all); i++ {
		for name, p := range all[i] {
			for _, e := range p.Edges {
				was := edgeOf(t, all[i-1], name, e.Name).Length()
				grows := e.Curve.Length() - was
				ok := grows > 0.05
				if same[name+":"+e.Name] {
					ok = math.Abs(grows) <= 0.05
				}
				if !ok {
					t.Errorf("%s:%s grows by %.2f mm from %s to %s", name, e.Name, grows, labels[i-1], labels[i])
				}
			}
			for _, l := range p.Lines {
				if l.Kind != piece.Level {
					continue
				}
				if grows := l.Curve.Length() - levelWidth(t, all[i-1][name], l.Name); grows < 0.5 {
					t.Errorf("%s grows by %.2f mm at %s from %s to %s", name, grows, l.Name, labels[i-1], labels[i])
				}
			}
		}
	}
}

// TestSizesMatch checks that every size of a piece has the same edges, segment
// kinds, lines and marks, and runs counter-clockwise without crossing itself.
func TestSizesMatch(t *testing.T) {
	all := drafts(t)
	for i, d := range all {
		for name, p := range d {
			if got, want := structure(p), structure(all[0][name]); got != want {
				t.Errorf("%s in size %s is built %s, in %s %s", name, labels[i], got, labels[0], want)
			}
			pts := p.Outline(0.05)
			if geom.Area(pts) <= 0 {
				t.Errorf("%s in size %s runs clockwise", name, labels[i])
			}
			if at, _, _, found := geom.SelfCrossing(pts); found {
				t.Errorf("%s in size %s crosses itself at %.0f %.0f", name, labels[i], at.X, at.Y)
			}
		}
	}
}

func structure(p piece.Piece) string {
	var b []byte
	for _, e := range p.Edges {
		b = append(b, e.Name+" "...)
		for _, s := range e.Curve {
			if s.Straight {
				b = append(b, 'l')
			} else {
				b = append(b, 'c')
			}
		}
		b = append(b, ' ')
	}
	for _, l := range p.Lines {
		b = append(b, string(l.Kind)+"."+l.Name+" "...)
	}
	for _, m := range p.Marks {
		b = append(b, string(m.Kind)+"."+m.Edge+"."+m.Name+" "...)
	}
	return string(b)
}
