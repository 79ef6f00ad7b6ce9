package exchange

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// blob is a piece of random edges: corners on a ring of changing radius, the edges
// between them straight, curved, or curved and then straight, notches and lines
// inside, in sizes that grow.
func blob(t *rapid.T, sizes []string) []Part {
	n := rapid.IntRange(3, 7).Draw(t, "corners")
	num := func(label string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, label) }
	radius, kind, bulge, at := make([]float64, n), make([]int, n), make([]float64, n), make([]float64, n)
	for i := range n {
		radius[i], kind[i] = num("radius", 120, 240), rapid.IntRange(0, 2).Draw(t, "kind")
		bulge[i], at[i] = num("bulge", -0.12, 0.2), num("notch", 0.1, 0.9)
	}
	var out []Part
	for k, size := range sizes {
		grow := 1 + 0.04*float64(k)
		corner := func(i int) geom.Pt {
			return geom.Pt{X: radius[i%n] * grow}.Rot(2 * math.Pi * float64(i) / float64(n))
		}
		p := Part{Name: "blob", Title: "blob", Size: size, Left: 1}
		for i := range n {
			a, b := corner(i), corner(i+1)
			v := b.Sub(a)
			off := v.Left().Mul(-bulge[i])
			c := geom.Curve{geom.Line(a, b)}
			switch kind[i] {
			case 1:
				c = geom.Curve{geom.Cubic(a, a.Lerp(b, 1.0/3).Add(off), a.Lerp(b, 2.0/3).Add(off.Mul(0.5)), b)}
			case 2:
				m := a.Lerp(b, 0.6)
				d := v.Unit().Mul(v.Len() * 0.2)
				c = geom.Curve{geom.Cubic(a, a.Add(d.Mul(0.9)).Add(off), m.Sub(d), m), geom.Line(m, b)}
			}
			name := fmt.Sprintf("e%d", i)
			p.Sewn = append(p.Sewn, Edge{Name: name, Curve: c})
			l := c.Length()
			p.Marks = append(p.Marks, piece.Mark{Kind: piece.Notch, Edge: name, Name: "n", P: c.At(l * at[i]), At: l * at[i]})
		}
		p.Cut = p.Sewn
		p.Lines = []piece.Line{{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{Y: -40 * grow}, geom.Pt{Y: 50 * grow})}}
		out = append(out, p)
	}
	return out
}

// Whatever a piece looks like, it comes back from a DXF within a hundredth of a
// millimetre, its sizes drawn alike.
func TestRandomRoundTrip(t *testing.T) {
	sizes := []string{"8", "10", "12"}
	rapid.Check(t, func(t *rapid.T) {
		style := Style{Title: "blob", Sizes: sizes, Sample: "10", Parts: blob(t, sizes)}
		for _, p := range style.Parts {
			if _, _, _, crosses := geom.SelfCrossing(loopPoints(whole(p.Sewn))); crosses {
				t.Skip("crosses itself")
			}
		}
		var b bytes.Buffer
		if err := WriteDXF(&b, style, unit.Millimetre); err != nil {
			t.Fatal(err)
		}
		back, found := ReadDXF(source.File{Path: "blob.dxf", Data: b.Bytes()}, "")
		if len(found) > 0 {
			t.Fatal(found[0].Text())
		}
		pieces, _, found := Grade(back, nil, nil)
		if len(found) > 0 || len(pieces) != 1 {
			t.Fatalf("%d pieces, %v", len(pieces), found.Codes())
		}
		for k, in := range pieces[0].In {
			for i, e := range in.Edges {
				want := style.Parts[k].Sewn[i]
				if d := apart(want.Curve, e.Curve); d > 0.01 || e.Name != want.Name {
					t.Errorf("size %s: %s comes back as %s, %.4f mm off", sizes[k], want.Name, e.Name, d)
				}
				if form(e.Curve) != form(pieces[0].In[0].Edges[i].Curve) {
					t.Errorf("size %s: %s is drawn otherwise than in size %s", sizes[k], e.Name, sizes[0])
				}
			}
			for i, m := range style.Parts[k].Marks {
				if q, ok := in.Notch(m.Edge, m.Name); !ok || q.P.Dist(m.P) > 0.01 {
					t.Errorf("size %s: notch %d comes back at %v, was at %v", sizes[k], i, q.P, m.P)
				}
			}
		}
	})
}
