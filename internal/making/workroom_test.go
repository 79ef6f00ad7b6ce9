package making

import (
	"errors"
	"io/fs"
	"math"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"gusset/internal/cloth"
)

const tabard = "dockets/tabard.yaml"

// roomFS copies the test workroom into memory, so that a test may spoil it.
func roomFS(t testing.TB) fstest.MapFS {
	t.Helper()
	m := fstest.MapFS{}
	disk := os.DirFS("testdata/room")
	err := fs.WalkDir(disk, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(disk, name)
		m[name] = &fstest.MapFile{Data: data, Mode: 0o644}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestOpen(t *testing.T) {
	in, found, err := Open(roomFS(t), tabard)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		t.Errorf("%s: %s: %s", f.Place, f.Code(), f.Text())
	}
	if in.Docket.Name != "tabard" || in.Body.Name != "wren" || in.Pattern.Name != "tabard" {
		t.Errorf("opened docket %q, body %q, pattern %q", in.Docket.Name, in.Body.Name, in.Pattern.Name)
	}
	if in.Cloths[cloth.Main].Name != "rust-drill" || in.Cloths[cloth.Pocketing].Name != "calico" || len(in.Cloths) != 2 {
		t.Errorf("cloths are %v", in.Cloths)
	}
	if len(in.Machines) != 2 || in.Machines[0].Name != "press" {
		t.Errorf("machines are %v", in.Machines)
	}
	for _, name := range []string{"tape-hem", "felled-seam"} { // the room's and ours
		if _, ok := in.Methods.Find(name); !ok {
			t.Errorf("no method %s", name)
		}
	}
}

// The pocket is printed 150 mm wide in the smallest size with 15 mm allowed all
// round: sewn it is 120 mm wide, worked by hand.
func TestOpenRecovers(t *testing.T) {
	in, _, err := Open(roomFS(t), tabard)
	if err != nil || len(in.Pattern.Pieces) != 3 {
		t.Fatalf("%d pieces, %v", len(in.Pattern.Pieces), err)
	}
	base, _ := in.Pattern.Pieces["pocket"].In[0].Edge("base")
	if l := base.Curve.Length(); math.Abs(l-120) > 1e-6 {
		t.Errorf("the pocket's base is %.3f mm long, want 120", l)
	}
}

// A name that leads nowhere is told where the docket says it, with the name
// that was probably meant.
func TestOpenMissing(t *testing.T) {
	for _, c := range []struct {
		take string
		line int
		mend string
	}{
		{"bodies/wren.yaml", 3, "did you mean wrenn?"},
		{"patterns/tabard/pattern.yaml", 4, "did you mean tabart?"},
		{"cloths/rust-drill.yaml", 6, "choose from calico"},
		{"cloths/calico.yaml", 6, "choose from rust-drill"},
	} {
		m := roomFS(t)
		delete(m, c.take)
		if c.take == "bodies/wren.yaml" {
			m["bodies/wrenn.yaml"] = &fstest.MapFile{}
		}
		if c.take == "patterns/tabard/pattern.yaml" {
			for name := range m {
				if strings.HasPrefix(name, "patterns/tabard/") {
					delete(m, name)
				}
			}
			m["patterns/tabart/pattern.yaml"] = &fstest.MapFile{}
		}
		_, found, err := Open(m, tabard)
		if err != nil {
			t.Errorf("without %s: %v", c.take, err)
			continue
		}
		ok := false
		for _, f := range found {
			if f.Code() == "making.no-file" {
				ok = f.Place.Line == c.line && f.Place.File == tabard && f.Mend() == c.mend
				t.Logf("%s: %s (%s)", f.Place.Source(), f.Text(), f.Mend())
			}
		}
		if !ok {
			t.Errorf("without %s: want line %d, %q; got %v", c.take, c.line, c.mend, found.Codes())
		}
	}
}

// A docket that is not there is an error: nothing can be said about its lines.
func TestOpenNoDocket(t *testing.T) {
	_, _, err := Open(roomFS(t), "dockets/absent.yaml")
	if !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got %v", err)
	}
}

// A disk that fails is an error and not a finding.
func TestOpenBadDisk(t *testing.T) {
	m := roomFS(t)
	m["bodies/wren.yaml"] = &fstest.MapFile{Mode: fs.ModeDir | 0o755}
	if _, _, err := Open(m, tabard); err == nil {
		t.Error("a folder in place of a file was read")
	}
}
