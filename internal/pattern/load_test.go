package pattern

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/source"
)

const plain = `gusset: pattern/1
title: a cape's panel
sizes: ["8", "10", "12"]
choose: hip
chart:
  unit: in
  waist: [26 1/2, 28, 29 1/2]
  hip: [36, 38, 40]
zones:
  - {zone: hip, measure: hip}
printed: {line: cutting, allowance: 15 mm}
pieces:
  front:
    title: Front
    edges: {centre: {line: fold}, hem: {line: cutting, allowance: 40 mm}}
  back: {}
views:
  long:
    title: long
    pieces:
      - {piece: front, copies: fold, fold-edge: centre, cloth: [main]}
      - {piece: back, copies: pair, cloth: [main, interfacing]}
    joins:
      side: {sew: [front:side, back:side], method: plain-open, notches: [hip]}
    finishes:
      hem: {edges: [front:hem, back:hem], method: double-hem, values: {depth: 20 mm}}
    girths:
      hip: {pieces: [front@left:/hip, back@left:/hip]}
    printed-order: [side, hem]
`

// quarter draws, for radius r, a quarter disc whose curved edge is the print of
// a stitching line of radius r-15: two cubic arcs (the handle 4/3·tan(θ/4) is
// the standard one, good to 3e-5 of the radius here), straight sides at print.
func quarter(size string, r float64) string {
	k := 4.0 / 3 * math.Tan(math.Pi/16) * r
	c := r * math.Sqrt2 / 2
	d := k * math.Sqrt2 / 2
	return fmt.Sprintf(`<g id="S%[1]s"><path id="S%[1]s.hem" d="M0 600 H%[2]f"/><path id="S%[1]s.side" d="M%[2]f 600 C%[2]f %[3]f %[4]f %[5]f %[6]f %[7]f C%[8]f %[9]f %[10]f %[11]f 0 %[11]f"/>`+
		`<path id="S%[1]s.centre" d="M0 %[11]f V600"/><path id="S%[1]s.grain.grain" d="M50 580 V400"/><path id="S%[1]s.level.hip" d="M0 550 H100"/>`+
		`<circle id="S%[1]s.notch.side.hip" cx="%[6]f" cy="%[7]f" r="1"/></g>`,
		size, r, 600-k, c+d, 600-c+d, c, 600-c, c-d, 600-c-d, k, 600-r)
}

func svg(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 600" width="600mm" height="600mm">` + body + `</svg>`
}

func drawings(quarters func(size string, r float64) string) map[string]string {
	all := svg(quarter("8", 300) + quarters("10", 320) + quarter("12", 340))
	return map[string]string{"front.svg": all, "back.svg": svg(quarter("8", 300) + quarter("10", 320) + quarter("12", 340))}
}

func load(yaml string, files map[string]string) (Pattern, []string) {
	p, found := Load(source.File{Path: "patterns/cape/pattern.yaml", Data: []byte(yaml)}, func(name string) (source.File, error) {
		text, ok := files[name]
		if !ok {
			return source.File{}, errors.New("not there")
		}
		return source.File{Path: "patterns/cape/" + name, Data: []byte(text)}, nil
	})
	var codes []string
	for _, f := range found {
		codes = append(codes, f.Code()+" "+f.Place.String()+": "+f.Text())
	}
	return p, codes
}

// The stitching line of a printed arc of radius r with 15 mm allowance is the
// arc of radius r-15, cut by the hem line 40 mm up and by the fold where it
// was printed: plane geometry.
func TestRecover(t *testing.T) {
	p, codes := load(plain, drawings(quarter))
	if len(codes) > 0 {
		t.Fatal(strings.Join(codes, "\n"))
	}
	for k, r := range []float64{300, 320, 340} {
		front := p.Pieces["front"].In[k]
		inner := r - 15
		side, _ := front.Edge("side")
		for _, q := range side.Curve.Flatten(0.01) {
			if off := math.Abs(q.Len() - inner); off > 0.03 {
				t.Errorf("size %s: side at %v is off by %.4f mm", p.Sizes[k], q, off)
			}
		}
		hem, _ := front.Edge("hem")
		wantEnd := geom.Pt{X: math.Sqrt(inner*inner - 40*40), Y: 40}
		if d := hem.Curve.End().Dist(wantEnd); d > 0.03 {
			t.Errorf("size %s: hem ends at %v, want %v", p.Sizes[k], hem.Curve.End(), wantEnd)
		}
		if s := hem.Curve.Start(); s.Dist(geom.Pt{Y: 40}) > 1e-6 {
			t.Errorf("size %s: hem begins at %v, the fold is at x 0", p.Sizes[k], s)
		}
		n, ok := front.Notch("side", "hip")
		if want := (geom.Pt{X: inner / math.Sqrt2, Y: inner / math.Sqrt2}); !ok || n.P.Dist(want) > 0.03 {
			t.Errorf("size %s: notch at %v, want %v", p.Sizes[k], n.P, want)
		}
		back := p.Pieces["back"].In[k]
		if _, _, _, crosses := geom.SelfCrossing(back.Outline(0.05)); crosses {
			t.Errorf("size %s: back crosses itself", p.Sizes[k])
		}
		centre, _ := back.Edge("centre")
		if x := centre.Curve.Start().X; math.Abs(x-15) > 1e-6 {
			t.Errorf("size %s: back's centre at x %.4f, want 15", p.Sizes[k], x)
		}
	}
	v := p.Views[0]
	if !v.Joins[0].Each || v.Uses[0].FoldEdge != "centre" || v.Printed[1].Item != "hem" || p.Chart.Rows["waist"][0].MM() != 26.5*25.4 {
		t.Errorf("read as %+v", v)
	}
}

// Each fault is told with its code.
func TestBroken(t *testing.T) {
	replace := func(old, with string) func() (string, map[string]string) {
		if !strings.Contains(plain, old) {
			t.Fatalf("the pattern has no %q", old)
		}
		return func() (string, map[string]string) { return strings.Replace(plain, old, with, 1), drawings(quarter) }
	}
	redraw := func(old, with string) func() (string, map[string]string) {
		return func() (string, map[string]string) {
			return plain, drawings(func(size string, r float64) string {
				q := quarter(size, r)
				if !strings.Contains(q, old) {
					t.Fatalf("the drawing has no %q: %s", old, q)
				}
				return strings.Replace(q, old, with, 1)
			})
		}
	}
	cases := []struct {
		name string
		make func() (string, map[string]string)
		code string
	}{
		{"sizes unquoted", replace(`["8", "10", "12"]`, `[8, 10, 12]`), "source.unquoted-label"},
		{"size twice", replace(`["8", "10", "12"]`, `["8", "10", "10"]`), "pattern.size-twice"},
		{"no sizes", replace(`["8", "10", "12"]`, `[]`), "pattern.no-sizes"},
		{"chart out of order", replace("[36, 38, 40]", "[36, 40, 38]"), "pattern.chart-order"},
		{"chart flat", replace("[36, 38, 40]", "[36, 36, 40]"), "pattern.chart-order"},
		{"chart short", replace("[36, 38, 40]", "[36, 38]"), "pattern.chart-count"},
		{"chart unit", replace("unit: in", "unit: inch"), "source.unknown-word"},
		{"chart decimal comma", replace("[36, 38, 40]", "[36,5, 38, 40]"), "source.comma-in-list"},
		{"choose without row", replace("choose: hip", "choose: bust"), "pattern.choose"},
		{"unknown measure", replace("choose: hip", "choose: hips"), "source.unknown-word"},
		{"no such piece", replace("{piece: back, copies: pair", "{piece: bakc, copies: pair"), "pattern.unknown-piece"},
		{"no such edge", replace("back:side]", "back:sied]"), "pattern.bad-reference"},
		{"ease after one notch", replace("notches: [hip]", "notches: [hip], ease-between: [hip]"), "pattern.ease-between"},
		{"no such notch", replace("notches: [hip]", "notches: [knee]"), "pattern.bad-reference"},
		{"no such point", replace("back:side]", "'back:side[hem..elbow]']"), "pattern.bad-reference"},
		{"one side", replace("[front:side, back:side]", "[front:side]"), "pattern.few-sides"},
		{"sewn to itself", replace("[front:side, back:side]", "[back:side, back:side]"), "pattern.self-join"},
		{"hands mixed", replace("[front:side, back:side]", "[front@left:side, back:side]"), "pattern.mixed-hands"},
		{"no such item", replace("[side, hem]", "[side, hme]"), "pattern.unknown-item"},
		{"no such zone", replace("      hip: {pieces", "      knee: {pieces"), "pattern.unknown-zone"},
		{"no fold edge", replace("fold-edge: centre", "fold-edge: middle"), "pattern.fold-edge"},
		{"no drawing", replace("  back: {}", "  back: {file: bak.svg}"), "pattern.no-drawing"},
		{"a file elsewhere", replace("  back: {}", "  back: {file: ../../secret.svg}"), "pattern.file-name"},
		{"allowance wider than the piece", replace("allowance: 40 mm", "allowance: 299 mm"), "pattern.inset"},
		{"allowance without unit", replace("allowance: 15 mm", "allowance: 15"), "source.bad-length"},
		{"undeclared print", replace("printed: {line: cutting, allowance: 15 mm}\n", ""), "source.missing-key"},
		{"size not drawn", func() (string, map[string]string) {
			return plain, drawings(func(string, float64) string { return "" })
		}, "pattern.size-missing"},
		{"edge missing in one size", redraw(`id="S10.centre"`, `id="S10.grain.other"`), "pattern.structure"},
		{"edge called otherwise", redraw(`id="S10.centre"`, `id="S10.middle"`), "pattern.structure"},
		{"segments differ", redraw(`d="M0 600 H`, `d="M0 600 H100 H`), "pattern.structure"},
		{"open corner", redraw(`d="M0 600 H320`, `d="M0 600 H319`), "pattern.open-corner"},
		{"crossing", redraw(" V600", " L500 590 L0 600"), "pattern.structure"},
		{"bad id", redraw(`id="S10.notch.side.hip"`, `id="S10.nick.side.hip"`), "pattern.bad-id"},
		{"notch off the line", redraw(`cx="`, `cx="1`), "pattern.notch-off"},
		{"grain leans", redraw(`d="M50 580 V400"`, `d="M50 580 L60 400"`), "pattern.grain-leans"},
		{"NaN", redraw(`d="M0 600 H`, `d="MNaN 600 H`), "source.svg-path"},
		{"arc", redraw(`d="M0 600 H`, `d="M0 600 A5 5 0 0 1 9 9 H`), "source.svg-arc"},
		{"empty drawing", func() (string, map[string]string) {
			d := drawings(quarter)
			d["back.svg"] = ""
			return plain, d
		}, "source.empty"},
		{"binary drawing", func() (string, map[string]string) {
			d := drawings(quarter)
			d["back.svg"] = "\x89PNG\r\n\x1a\n\x00\x00"
			return plain, d
		}, "source.not-text"},
		{"sizes exchanged", func() (string, map[string]string) {
			d := drawings(quarter)
			d["back.svg"] = svg(quarter("8", 340) + quarter("10", 320) + quarter("12", 300))
			return plain, d
		}, "pattern.grading"},
		{"clockwise", func() (string, map[string]string) {
			d := drawings(quarter)
			d["back.svg"] = svg(`<g transform="matrix(-1 0 0 1 600 0)">` + quarter("8", 300) + quarter("10", 320) + quarter("12", 340) + `</g>`)
			return plain, d
		}, "pattern.open-corner|pattern.clockwise"},
		{"set on each other", replace("notches: [hip]}", "notches: [hip]}\n      a: {sew: [front:side, back:/hip], method: patch-pocket}\n      b: {sew: [back:side, front:/hip], method: patch-pocket}"), "pattern.cyclic-join"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, codes := load(c.make())
			for _, want := range strings.Split(c.code, "|") {
				for _, got := range codes {
					if strings.HasPrefix(got, want+" ") {
						return
					}
				}
			}
			t.Errorf("want %s, got\n%s", c.code, strings.Join(codes, "\n"))
		})
	}
}

// FuzzLoad: no pattern file makes the loader panic.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(plain))
	files := drawings(quarter)
	f.Fuzz(func(_ *testing.T, data []byte) { load(string(data), files) })
}

// FuzzDrawing: no drawing makes the loader panic.
func FuzzDrawing(f *testing.F) {
	f.Add([]byte(drawings(quarter)["front.svg"]))
	good := drawings(quarter)["back.svg"]
	f.Fuzz(func(_ *testing.T, data []byte) {
		load(plain, map[string]string{"front.svg": string(data), "back.svg": good})
	})
}
