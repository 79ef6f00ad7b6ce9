package fit

import (
	"math"
	"strings"

	"gusset/internal/body"
	"gusset/internal/finding"
	"gusset/internal/pattern"
	"gusset/internal/unit"
)

// LengthZone is the name under which a size for the lengths alone may be
// chosen: heights and inside legs then follow it, girths their own zones.
const LengthZone = "length"

// Choice says which sizes the maker wants. The zero Choice leaves every zone
// to the chart.
type Choice struct {
	// All is the size of every zone not named in Zones: a printed label, a
	// number between two numeric labels, or "auto"; empty means auto.
	All string
	// Zones holds the size of single zones in the same words.
	Zones map[string]string
	// Unit is what findings are written in; empty takes the chart's unit.
	Unit unit.Unit
	// Places says where each zone's size was written, "" for All.
	Places map[string]finding.Place
}

// text returns what is asked for at a zone, and where it was written.
func (c Choice) text(zone string) (string, finding.Place) {
	if t, ok := c.Zones[zone]; ok && t != "" {
		return t, c.Places[zone]
	}
	if c.All != "" && zone != LengthZone {
		return c.All, c.Places[""]
	}
	return auto, c.Places[zone]
}

const auto = "auto"

// tapeSlack is how far outside the chart a body may measure and still be taken
// for the outermost size: no tape is read closer (common practice).
const tapeSlack = 2.0

// bigJump is the difference between neighbouring zones, in sizes, above which
// the measures deserve a second look (common practice).
const bigJump = 2.0

// chosen is the outcome of the size choice.
type chosen struct {
	zones   []ZoneSize
	at      map[string]float64
	overall float64 // the size of the zone the pattern is chosen by
	nearest int     // the printed size nearest to it
	sized   bool    // that zone has a size
	length  float64 // size of the lengths, when hasLength
	hasLen  bool
}

// chooser works out the size at every zone.
type chooser struct {
	p pattern.Pattern
	b body.Body
	c Choice
	u unit.Unit
	// told holds the measures whose row has been told of.
	told map[body.Measure]bool
	// compared is the body beside the figures of adults, once it was asked for.
	compared *body.Comparison
	out      finding.List
}

// choose works out the size at every zone: the pattern's first measure before
// the others (skirts and trousers are chosen by the hip), since zones that the
// chart or the body says nothing about follow it.
func choose(p pattern.Pattern, b body.Body, c Choice) (chosen, finding.List) {
	k := &chooser{p: p, b: b, c: c, u: c.Unit, told: map[body.Measure]bool{}}
	if !k.u.Valid() {
		k.u = p.Chart.Unit
	}
	k.unknownZones()
	first := k.first()
	r := chosen{at: map[string]float64{}}
	for _, z := range p.Zones {
		s, ok := ZoneSize{}, false
		if z.Measure != "" && z.Measure == p.Choose {
			if first != nil {
				s, ok = *first, true
			}
		} else {
			s, ok = k.zone(z, first)
		}
		if !ok {
			continue
		}
		r.zones = append(r.zones, s)
		r.at[z.Name] = s.At
	}
	if first != nil {
		r.overall, r.nearest, r.sized = first.At, p.SizeIndex(first.Nearest), true
	}
	r.length, r.hasLen = k.length()
	k.jumps(r.zones)
	return r, k.out
}

func (k *chooser) add(f finding.Finding) { k.out = append(k.out, f) }

func (k *chooser) unknownZones() {
	known := map[string]bool{LengthZone: true}
	var names []string
	for _, z := range k.p.Zones {
		known[z.Name] = true
		names = append(names, z.Name)
	}
	for _, name := range sortedKeys(k.c.Zones) {
		if !known[name] {
			k.add(zoneUnknown.At(k.c.Places[name], name, strings.Join(append(names, LengthZone), ", ")))
		}
	}
}

// first returns the size at the zone of the pattern's first measure, nil when
// there is none to be had: why has then been said.
func (k *chooser) first() *ZoneSize {
	z := pattern.Zone{Name: string(k.p.Choose), Measure: k.p.Choose}
	for _, y := range k.p.Zones {
		if y.Measure == k.p.Choose {
			z = y
		}
	}
	s, ok := k.zone(z, nil)
	if !ok {
		return nil
	}
	return &s
}

// zone works out one zone's size. first is the size that zones without a
// measure take over; nil while that one itself is worked out.
func (k *chooser) zone(z pattern.Zone, first *ZoneSize) (ZoneSize, bool) {
	text, at := k.c.text(z.Name)
	if text != auto {
		return k.written(z, text, at)
	}
	r, charted := k.row(z.Measure)
	_, has := k.b.MM(z.Measure)
	switch {
	case charted && has:
		return k.charted(z, r)
	case z.Measure == k.p.Choose:
		k.add(chooseMissing.At(k.b.Place, z.Measure, lacking(charted, z.Measure)))
		return ZoneSize{}, false
	case first == nil:
		return ZoneSize{}, false
	}
	s := *first
	s.Zone, s.From = z.Name, string(k.p.Choose)
	if charted {
		k.add(k.estimated(z.Measure, r, measureMissing.At(k.b.Place, z.Measure, z.Name, s.Label, k.p.Choose)))
	}
	return s, true
}

func lacking(charted bool, m body.Measure) string {
	if charted {
		return "body has no " + string(m) + " measured"
	}
	return "chart has no row for it"
}

// written reads a size that the docket sets.
func (k *chooser) written(z pattern.Zone, text string, place finding.Place) (ZoneSize, bool) {
	sizes := k.p.Sizes
	at, below, above, ok := position(text, sizes)
	switch {
	case ok:
		return ZoneSize{
			Zone: z.Name, At: at, Label: label(at, sizes),
			Nearest: sizes[nearestSize(at, len(sizes))], From: "docket",
		}, true
	case below:
		k.add(sizeOutside.At(place, text, z.Name, "before", sizes[0], sizes[0], sizes[len(sizes)-1]))
	case above:
		last := sizes[len(sizes)-1]
		k.add(sizeOutside.At(place, text, z.Name, "beyond", last, sizes[0], last))
	default:
		k.add(sizeUnknown.At(place, text, z.Name, strings.Join(sizes, ", ")))
	}
	return ZoneSize{}, false
}

// charted reads a size off the chart.
func (k *chooser) charted(z pattern.Zone, r row) (ZoneSize, bool) {
	if z.Measure == body.Waist && k.b.WaistAt == "midway" {
		k.add(waistMidway.At(k.b.Places[body.Waist]))
	}
	by, mm, drawn := z.Measure, k.b.Measures[z.Measure].MM(), r
	if k.byHighBust(z.Measure) {
		by, mm = body.HighBust, k.b.Measures[body.HighBust].MM()
		if high, ok := k.row(by); ok {
			r = high
		}
	}
	if off, word, size, value := r.outside(mm); off > tapeSlack {
		k.add(outsideRange.At(k.b.Places[by], by, unit.Format(mm, k.u), unit.Format(off, k.u), word,
			unit.Format(value, k.u), k.p.Sizes[size], z.Name))
		return ZoneSize{}, false
	}
	at, from := r.at(mm), "chart"
	k.tell(z.Measure, drawn, at)
	switch {
	case by != z.Measure:
		from = string(by)
	case r.finished:
		from = "finished"
	}
	return ZoneSize{Zone: z.Name, At: at, Label: label(at, k.p.Sizes), Nearest: k.p.Sizes[r.nearest(mm)], From: from}, true
}

// estimated adds to a finding what the figures of adults put a missing measure
// at, where that is good enough, and the size it would be.
func (k *chooser) estimated(m body.Measure, r row, f finding.Finding) finding.Finding {
	if k.compared == nil {
		c := body.Compare(k.b)
		k.compared = &c
	}
	e := k.compared.Row(m)
	if e.Verdict != body.Estimated {
		return f
	}
	return f.Note(finding.Place{}, "figures of adults put it at %s ± %s, which would be size %s",
		unit.Format(e.Usual, k.u), unit.Format(e.Within, k.u), label(r.at(e.Usual), k.p.Sizes))
}

// length works out the size of the lengths, when the docket asks for one. With
// "auto" it is read from the first length the chart and the body both know.
func (k *chooser) length() (float64, bool) {
	text, ok := k.c.Zones[LengthZone]
	if !ok || text == "" {
		return 0, false
	}
	if text != auto {
		s, ok := k.written(pattern.Zone{Name: LengthZone}, text, k.c.Places[LengthZone])
		return s.At, ok
	}
	for _, m := range []body.Measure{body.InsideLeg, body.OutsideLeg, body.BackWaist, body.Height} {
		r, charted := k.row(m)
		mm, has := k.b.MM(m)
		if !charted || !has {
			continue
		}
		if off, word, size, value := r.outside(mm); off > tapeSlack {
			k.add(lengthOutside.At(k.b.Places[m], m, unit.Format(mm, k.u), unit.Format(off, k.u), word,
				unit.Format(value, k.u), k.p.Sizes[size]))
		}
		return r.at(mm), true
	}
	return 0, false
}

func (k *chooser) jumps(zones []ZoneSize) {
	for i := 1; i < len(zones); i++ {
		a, b := zones[i-1], zones[i]
		if d := math.Abs(a.At - b.At); d > bigJump {
			k.add(sizeJump.At(k.b.Place, a.Zone, a.Label, b.Zone, b.Label, d))
		}
	}
}
