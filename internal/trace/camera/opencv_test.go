package camera

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"gusset/internal/cards"
	"gusset/internal/geom"
)

// OpenCV (Debian's python3-opencv) is the independent reference for what is
// asked of it here: it draws points through its own lens model, finds
// homographies, and calibrates a camera from a target whose every point is
// known.
const reference = `
import sys, json, numpy as np, cv2
q = json.load(sys.stdin)
out = {}
a = np.array(q["from"], dtype=np.float64); b = np.array(q["to"], dtype=np.float64)
h, _ = cv2.findHomography(a, b, 0)
out["homography"] = cv2.perspectiveTransform(a.reshape(-1, 1, 2), h).reshape(-1, 2).tolist()
out["projected"] = []
for v in q["views"]:
    k = np.array([[v["f"], 0, v["cx"]], [0, v["f"], v["cy"]], [0, 0, 1.0]])
    r, _ = cv2.Rodrigues(np.array(v["r"]))
    p, _ = cv2.projectPoints(np.array(q["table"], dtype=np.float64), r, np.array(v["t"], dtype=np.float64), k, np.array([v["k1"], v["k2"], 0, 0]))
    out["projected"].append(p.reshape(-1, 2).tolist())
obj = [np.array(o, dtype=np.float32) for o in q["objects"]]
img = [np.array(o, dtype=np.float32) for o in q["images"]]
flags = cv2.CALIB_ZERO_TANGENT_DIST | cv2.CALIB_FIX_K3 | cv2.CALIB_FIX_ASPECT_RATIO
k0 = np.array([[2912.0, 0, 2015.5], [0, 2912.0, 1511.5], [0, 0, 1]])
flags |= cv2.CALIB_USE_INTRINSIC_GUESS
rms, k, d, rs, ts = cv2.calibrateCamera(obj, img, (4032, 3024), k0, None, flags=flags)
out["lens"] = [k[0, 0], k[0, 2], k[1, 2], d.flatten()[0], d.flatten()[1]]
json.dump(out, sys.stdout)
`

type asked struct {
	From, To, Table []any
	Views           []map[string]any
	Objects, Images []any
}

func (a asked) json() map[string]any {
	return map[string]any{"from": a.From, "to": a.To, "table": a.Table, "views": a.Views, "objects": a.Objects, "images": a.Images}
}

type answered struct {
	Homography [][2]float64
	Projected  [][][2]float64
	Lens       [5]float64
}

// askOpenCV runs the reference, or skips the test where it is not installed.
func askOpenCV(t *testing.T, q asked) answered {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import cv2").Run() != nil {
			continue
		}
		in, err := json.Marshal(q.json())
		if err != nil {
			t.Fatal(err)
		}
		c := exec.Command(name, "-c", reference)
		c.Stdin = strings.NewReader(string(in))
		out, err := c.Output()
		if err != nil {
			t.Fatalf("%v: %s", err, err.(*exec.ExitError).Stderr)
		}
		var a answered
		if err := json.Unmarshal(out, &a); err != nil {
			t.Fatal(err)
		}
		return a
	}
	t.Skip("python3-opencv is not installed: lens and homography are not held against it")
	return answered{}
}

func TestAgainstOpenCV(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	s := randomSetUp(r, 4, 0.05)
	q := asked{}
	// Nine pairs of points that no homography joins exactly but nearly.
	var from, to []geom.Pt
	for i := range 9 {
		p := geom.Pt{X: float64(i%3) * 100, Y: float64(i/3) * 80}
		from, to = append(from, p), append(to, s.truth.Views[0].Pixel(p))
		q.From, q.To = append(q.From, pair(p)), append(q.To, pair(to[i]))
	}
	var table []geom.Pt
	for x := -600.0; x <= 600; x += 200 {
		for y := -280.0; y <= 280; y += 140 {
			table = append(table, geom.Pt{X: x, Y: y})
			q.Table = append(q.Table, []float64{x, y, 0})
		}
	}
	for i, v := range s.truth.Views {
		q.Views = append(q.Views, map[string]any{"f": v.Lens.F, "cx": v.Lens.CX, "cy": v.Lens.CY, "k1": v.Lens.K1, "k2": v.Lens.K2, "r": v.R, "t": v.T})
		var object, image []any
		for _, c := range s.seen {
			if c.Photo != i {
				continue
			}
			for k, p := range cards.Corners() {
				on := s.truth.On(c.Card, p)
				object, image = append(object, []float64{on.X, on.Y, 0}), append(image, pair(c.Px[k]))
			}
		}
		q.Objects, q.Images = append(q.Objects, object), append(q.Images, image)
	}
	got := askOpenCV(t, q)
	h, ok := FindHomography(from, to)
	if !ok {
		t.Fatal("no homography")
	}
	for i, p := range from {
		// The lens bends what a homography cannot: both are least squares, ours
		// of the algebraic misses, so they may differ by a part of the miss.
		o := geom.Pt{X: got.Homography[i][0], Y: got.Homography[i][1]}
		if d, miss := h.Apply(p).Dist(o), o.Dist(to[i]); d > 0.02+miss {
			t.Errorf("homography: point %d is %.4f px from OpenCV's, which misses by %.4f", i, d, miss)
		}
	}
	for i, v := range s.truth.Views {
		for k, p := range table {
			o := geom.Pt{X: got.Projected[i][k][0], Y: got.Projected[i][k][1]}
			if d := v.Pixel(p).Dist(o); d > 1e-6 {
				t.Fatalf("view %d: %v is drawn %.2g px from where OpenCV draws it", i, p, d)
			}
		}
	}
	ours, ok := Solve(s.shots, s.seen, s.tapes)
	if !ok {
		t.Fatal("not solved")
	}
	// OpenCV knows where every card lies, ours finds that as well: the lenses
	// agree as far as their rays do, over the whole picture.
	l, o := ours.Views[0].Lens, Lens{got.Lens[0], got.Lens[1], got.Lens[2], got.Lens[3], got.Lens[4]}
	if math.Abs(l.F/o.F-1) > 0.003 || math.Abs(l.CX-o.CX) > 6 || math.Abs(l.CY-o.CY) > 6 {
		t.Errorf("lens %+v, OpenCV's %+v", l, o)
	}
	t.Logf("lens %+v\nOpenCV %+v\ntruth %+v", l, o, s.truth.Views[0].Lens)
	for _, rad := range []float64{0.2, 0.4, 0.6} {
		a, _ := l.distort(rad, 0)
		b, _ := o.distort(rad, 0)
		if d := (a - b) / a; math.Abs(d) > 0.0015 {
			t.Errorf("at %.1f focal lengths from the axis the lenses differ by %.4f %%", rad, 100*d)
		}
	}
}

// Four pairs fix a homography, and OpenCV's is the same.
func TestHomographyOfFour(t *testing.T) {
	from := []geom.Pt{{X: 0, Y: 0}, {X: 100, Y: 3}, {X: 95, Y: 90}, {X: -4, Y: 100}}
	to := []geom.Pt{{X: 1510, Y: 700}, {X: 1820, Y: 760}, {X: 1790, Y: 1010}, {X: 1490, Y: 1005}}
	h, ok := FindHomography(from, to)
	if !ok {
		t.Fatal("none found")
	}
	for i, p := range from {
		if d := h.Apply(p).Dist(to[i]); d > 1e-8 {
			t.Errorf("point %d is %.2g out", i, d)
		}
	}
	if _, ok := FindHomography([]geom.Pt{{}, {}, {}, {}}, to); ok {
		t.Error("four times one point gives a homography")
	}
}

func pair(p geom.Pt) []float64 { return []float64{p.X, p.Y} }
