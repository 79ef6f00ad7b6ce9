package cloth

import (
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/source"
	"gusset/internal/unit"
)

var (
	flawOff = finding.Kind{
		Code: "cloth.flaw-off", Severity: finding.Warn,
		Text: "this flaw lies %[1]s from the end and %[2]s from the selvedge, beyond a cloth of %[3]s by %[4]s",
		Mend: "measure from the end that is cut from, and from the outer edge of the near selvedge",
	}
	badOutline = finding.Kind{
		Code: "cloth.bad-outline", Severity: finding.Stop,
		Text: "the outline of the remnant %[1]s",
		Mend: "measure its corners in order, once round",
	}
)

// largestFlaw is the widest flaw read, mm: more of the cloth than that is a
// remnant's outline.
const largestFlaw = 1000

// mostCorners bounds a remnant's outline.
const mostCorners = 200

func (c *Cloth) flaws(m *source.Map, out *finding.List) {
	if !m.Has("flaws") {
		return
	}
	m.Each("flaws", func(_ int, n source.Node) {
		before := len(*out)
		r := n.Reader(out)
		f := Flaw{Place: n.Place(), At: c.spot(r), Note: r.String("note")}
		f.Size = r.Required().Length("size", "", 1, largestFlaw)
		r.Done()
		if len(*out) > before {
			return
		}
		c.Flaws = append(c.Flaws, f)
		if c.beyond(f.At) {
			*out = append(*out, flawOff.At(f.Place, f.At.FromEnd, f.At.FromSelvedge, c.Length, c.Width))
		}
	})
}

func (c *Cloth) spot(r *source.Map) Spot {
	need := r.Required()
	return Spot{
		FromEnd:      need.Length("from-end", "", 0, unit.LongestMM),
		FromSelvedge: need.Length("from-selvedge", "", 0, 5000),
	}
}

func (c *Cloth) beyond(s Spot) bool {
	return s.FromEnd.MM() > c.Length.MM()+0.5 || s.FromSelvedge.MM() > c.Width.MM()+0.5
}

func (c *Cloth) outline(m *source.Map, out *finding.List) {
	if !m.Has("outline") {
		return
	}
	before := len(*out)
	var spots []Spot
	m.Each("outline", func(_ int, n source.Node) {
		r := n.Reader(out)
		spots = append(spots, c.spot(r))
		r.Done()
	})
	if len(*out) > before {
		return
	}
	if wrong := c.outlineFault(spots); wrong != "" {
		*out = append(*out, badOutline.At(m.Key("outline").Place(), wrong))
		return
	}
	c.Outline = spots
}

// outlineFault says what is wrong with a remnant's outline, or nothing.
func (c *Cloth) outlineFault(spots []Spot) string {
	var pts []geom.Pt
	for _, s := range spots {
		if c.beyond(s) {
			return "reaches beyond its width or length"
		}
		pts = append(pts, geom.Pt{X: s.FromEnd.MM(), Y: s.FromSelvedge.MM()})
	}
	if len(pts) < 3 || len(pts) > mostCorners {
		return "has fewer than 3 corners or more than 200"
	}
	if _, _, _, crosses := geom.SelfCrossing(pts); crosses {
		return "crosses itself"
	}
	if a := geom.Area(pts); a < 1e4 && a > -1e4 {
		return "encloses less than 100 cm²"
	}
	return ""
}
