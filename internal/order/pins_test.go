package order

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gusset/internal/construct"
	"gusset/internal/docket"
)

// pinOf reads "x first", "x last" or "x before y".
func pinOf(t interface{ Fatal(...any) }, text string) docket.Pin {
	words := strings.Fields(text)
	p := docket.Pin{Step: listed(t, words[0])[0], First: words[1] == "first", Last: words[1] == "last"}
	if words[1] == "before" {
		p.Before = listed(t, words[2])[0]
	}
	return p
}

func TestPins(t *testing.T) {
	for name, c := range map[string]struct {
		pins []string
		want []string // the order
		code string
		text string
	}{
		"none":             {nil, []string{"a.sew", "b.sew", "b.press", "a.press", "a.top", "b.top"}, "", ""},
		"an item first":    {[]string{"b first"}, []string{"b.sew", "b.press", "b.top", "a.sew", "a.press", "a.top"}, "", ""},
		"a step first":     {[]string{"b.press first"}, []string{"b.sew", "b.press", "a.sew", "a.press", "a.top", "b.top"}, "", ""},
		"last":             {[]string{"a.sew last"}, []string{"b.sew", "b.press", "b.top", "a.sew", "a.press", "a.top"}, "", ""},
		"before":           {[]string{"b.top before a.press"}, nil, "", ""},
		"against the seam": {[]string{"a.top before a.sew"}, nil, "order.pin-impossible", "the pin of a.top before a.sew cannot be kept: a.top needs a.press, a.press needs a.sew"},
		"two against":      {[]string{"a.sew before b.sew", "b.sew before a.sew"}, nil, "order.pin-impossible", "the pin of b.sew before a.sew cannot be kept: b.sew needs a.sew"},
		"nothing":          {[]string{"c first"}, nil, "order.pin-unknown", "a pin names c, which this making has not"},
	} {
		var pins []docket.Pin
		for _, p := range c.pins {
			pins = append(pins, pinOf(t, p))
		}
		ops, found := Pin(twoSeams, pins)
		if c.code == "" && len(found) > 0 || c.code != "" && (len(found) != 1 || found[0].Code() != c.code || found[0].Text() != c.text) {
			t.Errorf("%s: %v", name, found)
		}
		s, _ := Plan(ops, nil, nil, Costs{})
		got := ids(s.Steps())
		if c.want != nil && !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		if name == "before" && slices.Index(got, "b.top") > slices.Index(got, "a.press") {
			t.Errorf("%s: %v", name, got)
		}
	}
	if len(twoSeams[0].After) > 0 {
		t.Error("the operations given were changed")
	}
}

// A pin is kept in the order planned, or told; what else is needed is kept in
// any case.
func TestPinsAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ops := draw(t, rapid.IntRange(2, 16).Draw(t, "n"))
		step := func(label string) string { return stem(rapid.SampledFrom(ops).Draw(t, label).ID) }
		text := step("step") + rapid.SampledFrom([]string{" first", " last", " before " + step("other")}).Draw(t, "where")
		p := pinOf(t, text)
		with, found := Pin(ops, []docket.Pin{p})
		s, _ := Plan(with, nil, nil, Costs{})
		got := ids(s.Steps())
		valid(t, got, ops)
		if len(found) > 0 {
			return
		}
		g, _ := newGraph(ops)
		for i, o := range ops {
			if names(p.Step, o) == 0 {
				continue
			}
			for j, other := range ops {
				before := slices.Index(got, other.ID) < slices.Index(got, o.ID)
				free := names(p.Step, other) == 0 && !g.all[i].has(j) && !g.all[j].has(i) && !heldNeeds(ops, g, p, i, j)
				if free && (p.First && before || p.Last && !before || !p.First && !p.Last && names(p.Before, other) > 0 && before) {
					t.Fatalf("%s: %s before %s is %v in %v", text, other.ID, o.ID, before, got)
				}
			}
		}
	})
}

// heldNeeds reports whether another held operation ties j to the pin: what one
// hand needs comes before both.
func heldNeeds(ops []construct.Operation, g graph, p docket.Pin, i, j int) bool {
	for k, o := range ops {
		if k != i && names(p.Step, o) > 0 && (g.all[k].has(j) || g.all[j].has(k)) {
			return true
		}
	}
	return false
}
