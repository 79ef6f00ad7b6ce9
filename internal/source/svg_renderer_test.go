package source

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"
)

// The drawing read here and the one drawn by librsvg (rsvg-convert, an
// independent SVG renderer) are the same: librsvg writes filled paths with all
// transforms applied, in px of 1/96 in, with y down and curves raised to
// cubics. It rounds to 1/256 px, some 0.001 mm.
func TestAgainstRenderer(t *testing.T) {
	renderer, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("rsvg-convert (Debian package librsvg2-bin) is not installed")
	}
	rng := rand.New(rand.NewPCG(1, 2))
	var body strings.Builder
	for range 400 {
		fmt.Fprintf(&body, "<g transform=%q><path transform=%q d=%q/></g>\n", randomTransform(rng), randomTransform(rng), randomPath(rng))
	}
	const size = 5000 // so that nothing falls off the page, which the renderer would leave out
	drawing := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="-2000 -2000 %d %d" width="%dmm" height="%dmm">%s</svg>`, size, size, size, size, body.String())
	svg, found := ReadSVG(File{Data: []byte(drawing)})
	if len(found) > 0 {
		t.Fatal(texts(found))
	}
	cmd := exec.Command(renderer, "-f", "svg")
	cmd.Stdin = strings.NewReader(drawing)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	drawn := drawnPaths(t, out)
	if len(drawn) != len(svg.Elements) {
		t.Fatalf("%d paths read, %d drawn", len(svg.Elements), len(drawn))
	}
	worst := 0.0
	for i, e := range svg.Elements {
		var got [][2]float64
		for _, p := range e.Subpaths {
			got = append(got, outline(p)...)
		}
		if len(got) != len(drawn[i]) {
			t.Errorf("path %d: %d points read, %d drawn\n%v\n%v", i, len(got), len(drawn[i]), got, drawn[i])
			continue
		}
		for k, p := range drawn[i] {
			x, y := p[0]*pixel, size-p[1]*pixel
			worst = max(worst, math.Hypot(x-got[k][0], y-got[k][1]))
		}
	}
	t.Logf("%d paths, farthest %.5f mm apart", len(drawn), worst)
	if worst > 0.003 {
		t.Errorf("read and drawn differ by %.4f mm", worst)
	}
}

// outline is a subpath as the renderer writes it: a move, then one point for a
// line and three for a curve, without the line that a Z adds.
func outline(p Path) [][2]float64 {
	points := [][2]float64{p.Segs[0].P[0]}
	for i, s := range p.Segs {
		switch {
		case s.Cubic:
			points = append(points, s.P[1:]...)
		case !p.Closed || i < len(p.Segs)-1:
			points = append(points, s.P[3])
		}
	}
	return points
}

// drawnPaths takes the points out of the renderer's SVG. It ends each path
// with a move back to the start after a Z, which is dropped.
func drawnPaths(t *testing.T, data []byte) [][][2]float64 {
	var paths [][][2]float64
	dec := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := dec.Token()
		if err != nil {
			return paths
		}
		tag, ok := token.(xml.StartElement)
		if !ok || tag.Name.Local != "path" {
			continue
		}
		if attr(tag, "transform") != "" {
			t.Fatal("the renderer left a transform to apply")
		}
		var points [][2]float64
		fields := strings.Fields(attr(tag, "d"))
		for i := 0; i < len(fields); i++ {
			switch {
			case fields[i] == "M" && i > 0 && fields[i-1] == "Z" && (i+3 == len(fields) || fields[i+3] == "M"):
				i += 2
			case strings.Contains("MLCZ", fields[i]):
			default:
				var p [2]float64
				fmt.Sscan(fields[i]+" "+fields[i+1], &p[0], &p[1])
				points = append(points, p)
				i++
			}
		}
		paths = append(paths, points)
	}
}

func randomTransform(r *rand.Rand) string {
	n := func(scale float64) float64 { return math.Round((r.Float64()-0.5)*scale*100) / 100 }
	switch r.IntN(6) {
	case 0:
		return fmt.Sprintf("translate(%g %g)", n(20), n(20))
	case 1:
		return fmt.Sprintf("scale(%g)", 1+n(0.5))
	case 2:
		return fmt.Sprintf("scale(%g,%g) translate(%g)", -1+n(0.5), 1+n(0.5), -400+n(10))
	case 3:
		return fmt.Sprintf("rotate(%g 500 500)", n(360))
	case 4:
		return fmt.Sprintf("matrix(%g %g %g %g %g %g)", 1+n(0.4), n(0.4), n(0.4), 1+n(0.4), n(20), n(20))
	}
	return ""
}

// randomPath uses every command, absolute and relative.
func randomPath(r *rand.Rand) string {
	var b strings.Builder
	for range 1 + r.IntN(2) {
		// The slant keeps a path of level lines from being left out as empty.
		fmt.Fprintf(&b, "M%d %dl30 40", 400+r.IntN(200), 400+r.IntN(200))
		last := byte(0)
		for range 2 + r.IntN(8) {
			command := "LHVCSQT"[r.IntN(7)]
			if command == last && counts[command] == 1 {
				command = 'L' // the renderer joins level lines in a row
			}
			last = command
			span, from := 200, 400
			if r.IntN(2) == 0 {
				command |= 0x20
				span, from = 80, -40
			}
			b.WriteByte(command)
			for range counts[command&^0x20] {
				fmt.Fprintf(&b, " %g", float64(from)+math.Round(r.Float64()*float64(span)*100)/100)
			}
		}
		if r.IntN(2) == 0 {
			b.WriteString("Z")
		}
	}
	return b.String()
}
