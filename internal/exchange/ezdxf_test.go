package exchange

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// python is a Python that has ezdxf (Debian's python3-ezdxf).
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(name, "-c", "import ezdxf").Run() == nil {
			return name
		}
	}
	t.Skip("python3-ezdxf is not installed: ./check installs it")
	return ""
}

// readBack is what testdata/measure_dxf.py prints.
type readBack struct {
	Errors  int
	Fixes   []string
	Version string
	Style   []string
	Inserts []string
	Blocks  map[string]struct {
		Closed map[string][]struct{ Area, Length float64 }
		Open   map[string][]float64
		Points map[string][][2]float64
		Text   map[string][]string
	}
}

func ezdxf(t *testing.T, data []byte) readBack {
	t.Helper()
	file := filepath.Join(t.TempDir(), "out.dxf")
	if err := os.WriteFile(file, data, 0o666); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python(t), "testdata/measure_dxf.py", file)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, errs.String())
	}
	var r readBack
	if err := json.Unmarshal(out, &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// Source of the check: ezdxf 0.18 (Debian's python3-ezdxf), an independent
// general-purpose reader, measures what was written: every outline has the
// length of the piece's curves within 0.01 mm and its area within 0.01 mm along
// that length; grain lines, notches and text are all there.
func TestEzdxfMeasures(t *testing.T) {
	p := quay(t)
	for _, c := range []struct {
		unit  unit.Unit
		scale float64
		sizes []string
	}{{unit.Millimetre, 1, []string{"8", "20"}}, {unit.Inch, 25.4, []string{"14"}}} {
		style, _ := OfPattern(p, c.sizes)
		names, u, scale := blockNames(style.Parts), c.unit, c.scale
		var b bytes.Buffer
		if err := WriteDXF(&b, style, u); err != nil {
			t.Fatal(err)
		}
		r := ezdxf(t, b.Bytes())
		if r.Errors > 0 || len(r.Fixes) > 0 || r.Version != "AC1009" {
			t.Errorf("ezdxf tells of %d errors and repairs %v in a %s", r.Errors, r.Fixes, r.Version)
		}
		if !slices.Equal(r.Inserts, names) || !slices.Contains(r.Style, "STYLE NAME: Quay trousers") {
			t.Errorf("inserts %v, style %v", r.Inserts, r.Style)
		}
		worst := 0.0
		for i, part := range style.Parts {
			block := r.Blocks[names[i]]
			for layer, edges := range map[string][]Edge{"1": part.Cut, "14": part.Sewn} {
				closed := block.Closed[layer]
				if len(closed) != 1 {
					t.Fatalf("%s: %d outlines on layer %s", names[i], len(closed), layer)
				}
				length, area := whole(edges).Length(), geom.Area(whole(edges).Flatten(1e-5))
				dl, da := math.Abs(closed[0].Length*scale-length), math.Abs(closed[0].Area*scale*scale-area)/length
				worst = max(worst, dl, da)
				if dl > 0.01 || da > 0.01 {
					t.Errorf("%s: layer %s is %.4f mm longer or shorter, and its area %.4f mm off along it", names[i], layer, dl, da)
				}
			}
			notches := 0
			for _, m := range part.Marks {
				if m.Kind == piece.Notch {
					notches++
				}
			}
			if got := len(block.Points["4"]); got != notches {
				t.Errorf("%s: %d notches, want %d", names[i], got, notches)
			}
			g, _ := part.grain()
			if len(block.Open["7"]) != 1 || math.Abs(block.Open["7"][0]*scale-g.Length()) > 0.001 {
				t.Errorf("%s: grain %v, want one of %.3f", names[i], block.Open["7"], g.Length())
			}
			if text := strings.Join(block.Text["1"], "\n"); !strings.Contains(text, "PIECE NAME: "+part.Name+"\nSIZE: "+part.Size) {
				t.Errorf("%s: text %q", names[i], text)
			}
		}
		t.Logf("%s: %d blocks, worst %.4f mm", u, len(style.Parts), worst)
	}
}
