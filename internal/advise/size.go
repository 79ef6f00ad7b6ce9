package advise

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"gusset/internal/docket"
	"gusset/internal/fit"
	"gusset/internal/making"
)

// smallerSize takes every zone that has ease to spare down the blend, by half
// of what it can spare and by all of it, and by one printed size at the most.
func (c *counsel) smallerSize() []way {
	spare := c.spare()
	most := c.mostShare(spare)
	var w way
	for _, share := range []float64{0.5 * most, most} {
		if e, ok := c.blended(spare, share); ok {
			w = append(w, e)
		}
	}
	return []way{w}
}

// mostShare is the share of what the zones can spare that they can spare
// together: the size runs smoothly from zone to zone, so that a smaller thigh
// takes something off the hip as well.
func (c *counsel) mostShare(spare map[string]float64) float64 {
	for share := 1.0; share > 0.25; share -= 0.15 {
		in := copied(c.in)
		in.Docket.Size = c.sizes(spare, func(zone string) float64 { return share * spare[zone] })
		r := making.Run(c.ctx, in, making.Fit, making.Effort{}, nil)
		if c.worse(r) == "" {
			return share
		}
	}
	return 0
}

// spare is how far down the list of sizes each zone can go before its ease is
// the least that a body needs to move in; measured on the garment one printed
// size smaller in those zones.
func (c *counsel) spare() map[string]float64 {
	ease := map[string]float64{} // to spare, mm
	for _, e := range c.base.Sized.Ease() {
		if e.HasBody && e.HasMinimum && e.Ease > e.Minimum {
			ease[e.Zone] = e.Ease - e.Minimum
		}
	}
	in := copied(c.in)
	in.Docket.Size = c.sizes(ease, func(string) float64 { return 1 })
	r := making.Run(c.ctx, in, making.Fit, making.Effort{}, nil)
	out := map[string]float64{}
	for _, now := range r.Sized.Ease() {
		was := slices.IndexFunc(c.base.Sized.Ease(), func(e fit.Ease) bool { return e.Zone == now.Zone })
		if least, ok := ease[now.Zone]; ok && was >= 0 {
			if lost := c.base.Sized.Ease()[was].Garment - now.Garment; lost > 0 {
				out[now.Zone] = min(1, least/lost)
			}
		}
	}
	return out
}

// blended takes each zone down by a share of what it can spare.
func (c *counsel) blended(spare map[string]float64, share float64) (edit, bool) {
	size := c.sizes(spare, func(zone string) float64 { return share * spare[zone] })
	var changed, all []string
	for _, z := range c.base.Sized.Zones() {
		text := z.Label
		if t, ok := size.Zones[z.Zone]; ok {
			text = t
		}
		if text != z.Label {
			changed = append(changed, fmt.Sprintf("%s %s instead of %s", z.Zone, text, z.Label))
		}
		all = append(all, fmt.Sprintf("%s: %q", z.Zone, text))
	}
	if len(changed) == 0 {
		return edit{}, false
	}
	return edit{
		step: Step{
			Way: "size", Text: "size " + strings.Join(changed, ", "),
			Warning: "closer to the body, with no less ease than it needs to move in: baste and try it on before the seams are sewn",
			File:    c.docketFile(), Write: "size: {" + strings.Join(all, ", ") + "}",
		},
		apply: func(in *making.Inputs) {
			in.Docket.Size.All, in.Docket.Size.Zones = size.All, maps.Clone(size.Zones)
		},
	}, true
}

// sizes is the docket's choice with some zones written out, each so many sizes
// smaller, downwards to a tenth of the way between two printed labels. A zone
// that would be below the smallest size stays as it is.
func (c *counsel) sizes(zones map[string]float64, down func(string) float64) docket.Size {
	out := c.in.Docket.Size
	out.Zones = maps.Clone(out.Zones)
	if out.Zones == nil {
		out.Zones = map[string]string{}
	}
	for _, z := range c.base.Sized.Zones() {
		_, ok := zones[z.Zone]
		text := labelAt(c.in.Pattern.Sizes, z.At-down(z.Zone))
		if ok && text != "" {
			out.Zones[z.Zone] = text
			continue
		}
		// Zones that took their size over from another keep it.
		if z.From != "chart" {
			out.Zones[z.Zone] = z.Label
		}
	}
	return out
}

// labelAt is the size at a place in the list of sizes, rounded up to a tenth of
// the way between two labels; "" below the list, and between labels that are
// not numbers.
func labelAt(sizes []string, at float64) string {
	at = math.Ceil(at*10-1e-6) / 10
	i := int(at)
	if at < 0 || i >= len(sizes) {
		return ""
	}
	part := at - float64(i)
	if part < 0.05 {
		return sizes[i]
	}
	if i+1 == len(sizes) {
		return ""
	}
	lo, err1 := strconv.ParseFloat(sizes[i], 64)
	hi, err2 := strconv.ParseFloat(sizes[i+1], 64)
	if err1 != nil || err2 != nil {
		return ""
	}
	return strconv.FormatFloat(math.Round(10*(lo+part*(hi-lo)))/10, 'f', -1, 64)
}
