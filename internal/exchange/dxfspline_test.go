package exchange

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/source"
)

// Source of the check: ezdxf (Debian's python3-ezdxf) writes splines of degree two
// and three, one of them with uneven knots, and computes points on them: each lies
// on what is read, within a thousandth of a millimetre.
func TestSplinesOfEzdxf(t *testing.T) {
	file := filepath.Join(t.TempDir(), "splines.dxf")
	out, err := exec.Command(python(t), "testdata/splines.py", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	var runs [][][2]float64
	if err := json.Unmarshal(out, &runs); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	style, found := ReadDXF(source.File{Path: "splines.dxf", Data: data}, "")
	if len(style.Parts) != 1 || found.Stops() > 0 {
		t.Fatalf("%d parts: %v", len(style.Parts), found.Codes())
	}
	outline := whole(style.Parts[0].Cut)
	length := 120.0 // of the line
	worst := 0.0
	for _, run := range runs {
		for i, q := range run {
			_, d := outline.Nearest(geom.Pt{X: q[0], Y: q[1]})
			worst = max(worst, d)
			if i > 0 {
				length += math.Hypot(q[0]-run[i-1][0], q[1]-run[i-1][1])
			}
		}
	}
	if got := outline.Length(); worst > 0.001 || math.Abs(got-length) > 0.02 { // chords are a little shorter
		t.Errorf("points are up to %.4f mm off, and the outline is %.3f mm long, not %.3f", worst, got, length)
	}
}

// Splines whose curve is another than control points and knots say are told, not
// guessed at: rational ones, and those of a higher degree.
func TestSplinesNotRead(t *testing.T) {
	const head = "0\nSPLINE\n8\n1\n70\n8\n"
	const points = "10\n0\n20\n0\n10\n50\n20\n-20\n10\n150\n20\n20\n10\n200\n20\n0\n"
	knots := func(v ...string) (s string) {
		for _, k := range v {
			s += "40\n" + k + "\n"
		}
		return s
	}
	even := knots("0", "0", "0", "0", "1", "1", "1", "1")
	rest := run2(1, 0, 200, 0, 200, 100, 0, 100, 0, 0)
	for name, c := range map[string]struct {
		text string
		read bool
	}{
		"plain":           {head + "71\n3\n" + even + points, true},
		"equal weights":   {head + "71\n3\n" + even + "41\n2\n41\n2\n41\n2\n41\n2\n" + points, true},
		"rational":        {head + "71\n3\n" + even + "41\n1\n41\n2\n41\n1\n41\n1\n" + points, false},
		"too few knots":   {head + "71\n3\n" + knots("0", "0", "1", "1") + points, false},
		"knots backwards": {head + "71\n3\n" + knots("0", "0", "0", "0", "1", "1", "1", "0.5") + points, false},
		"of degree five":  {head + "71\n5\n" + even + points, false},
	} {
		style, found := ReadDXF(source.File{Path: "a.dxf", Data: []byte(dxfOf(c.text + rest))}, "")
		if read := len(style.Parts) == 1 && found.Stops() == 0; read != c.read || found.Has("exchange.dxf-entity") == c.read {
			t.Errorf("%s: read is %v: %v", name, read, found.Codes())
		}
	}
}
