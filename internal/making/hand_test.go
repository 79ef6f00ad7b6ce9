package making

import (
	"context"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"gusset/demo"
	"gusset/internal/cloth"
	"gusset/internal/lay"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// room is the demo's workroom with files of ours in it.
func roomWith(t *testing.T, files map[string][]byte) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(demo.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo.Files, name)
		out[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range files {
		out[name] = &fstest.MapFile{Data: data}
	}
	return out
}

func openIn(t *testing.T, room fs.FS) (Inputs, []string) {
	t.Helper()
	in, found, err := Open(room, "dockets/quay-cropped.yaml")
	if err != nil || found.Stops() > 0 {
		t.Fatal(err, found.Codes())
	}
	in.Docket.Fold = string(lay.Open) // one plan is quick
	return in, found.Codes()
}

// The chosen lay is kept with the digest of what it was made from. It is used
// again as long as that agrees, however short the search; a stale one, one that
// was spoilt and one that cannot be read are told and never used.
func TestKeptLay(t *testing.T) {
	in, _ := openIn(t, roomWith(t, nil))
	long := Run(context.Background(), in, Lay, Effort{Rounds: 30, Seed: 4}, nil)
	files := Keep(in, long)
	if len(files) != len(long.Lays) {
		t.Fatalf("%d lays, %d kept", len(long.Lays), len(files))
	}
	const main = "lays/quay-cropped-main.yaml"
	again, _ := openIn(t, roomWith(t, files))
	r := Run(context.Background(), again, Lay, Effort{}, nil)
	if !r.Findings.Has("making.kept-lay") || r.Lays[0].Length != long.Lays[0].Length || r.Lays[0].Source != lay.FromKept {
		t.Errorf("found %v; %v mm, kept %v mm", r.Findings.Codes(), r.Lays[0].Length, long.Lays[0].Length)
	}
	if anew := Run(context.Background(), again, Lay, Effort{Anew: true}, nil); anew.Findings.Has("making.kept-lay") || anew.Lays[0].Source != lay.FromSearch {
		t.Error("the kept lay is used although it was to be laid anew")
	}
	looked := Look(context.Background(), again, r, Effort{}, 1, nil)
	if looked.Lays[0].Length > r.Lays[0].Length {
		t.Error("looking on loses the kept lay")
	}

	stale := again
	stale.Cloths = map[cloth.Role]cloth.Cloth{}
	for role, c := range again.Cloths {
		c.Width = unit.MM(c.Width.MM() + 10)
		stale.Cloths[role] = c
	}
	if r := Run(context.Background(), stale, Lay, Effort{}, nil); !r.Findings.Has("making.stale-lay") || r.Findings.Has("making.kept-lay") {
		t.Errorf("another cloth: found %v", r.Findings.Codes())
	}
	for name, spoilt := range map[string][]byte{
		"a piece moved onto another": ontoAnother(t, files[main]),
		"a piece taken out":          []byte(strings.Replace(string(files[main]), "{piece: band, ", "{piece: belt, ", 1)),
	} {
		in, _ := openIn(t, roomWith(t, map[string][]byte{main: spoilt}))
		r := Run(context.Background(), in, Lay, Effort{}, nil)
		if !r.Findings.Has("making.kept-lay-unsound") || r.Findings.Has("making.kept-lay") || r.Findings.Stops() > 0 || r.Lays[0].Source != lay.FromSearch {
			t.Errorf("%s: found %v", name, r.Findings.Codes())
		}
	}
	if _, codes := openIn(t, roomWith(t, map[string][]byte{main: []byte("gusset: lay/1\npieces: 7\n")})); !slices.Contains(codes, "making.kept-lay-unsound") {
		t.Errorf("a kept lay that cannot be read: %v", codes)
	}
}

// ontoAnother writes a lay with its last piece where the one before lies.
func ontoAnother(t *testing.T, text []byte) []byte {
	t.Helper()
	f, found := lay.Load(source.File{Path: "kept.yaml", Data: text})
	if len(found) > 0 {
		t.Fatal(found.Codes())
	}
	last := len(f.Pieces) - 1
	f.Pieces[last].Along, f.Pieces[last].Across = f.Pieces[last-1].Along, f.Pieces[last-1].Across
	return f.YAML()
}

// A lay by hand: sound as it is written, or told piece by piece at its lines of
// the file, and then laid otherwise or, where the pieces are pinned, not at all.
func TestByHand(t *testing.T) {
	in, _ := openIn(t, roomWith(t, nil))
	made := Run(context.Background(), in, Lay, Effort{}, nil)
	text := string(made.Lays[0].ToFile("quay-cropped", unit.Inch).YAML())
	spoilt := string(ontoAnother(t, []byte(text)))
	for _, c := range []struct {
		name, text string
		pinned     bool
		code       string
		stops      bool
		source     lay.Origin
	}{
		{"sound", text, false, "making.laid-by-hand", false, lay.FromHand},
		{"sound and pinned", text, true, "making.laid-by-hand", false, lay.FromHand},
		{"a piece on another, free to move", spoilt, false, "making.as-written", false, lay.FromHand},
		{"a piece on another, pinned", spoilt, true, "referee.overlap", true, ""},
		{"for another cloth", strings.Replace(text, "cloth: slate-serge", "cloth: calico", 1), true, "making.lay-of-other-cloth", false, lay.FromHand},
		{"for another docket", strings.Replace(text, "docket: quay-cropped", "docket: quay-long", 1), true, "making.lay-of-other-docket", false, lay.FromHand},
	} {
		f, found := lay.Load(source.File{Path: "mine.yaml", Data: []byte(c.text)})
		if len(found) > 0 {
			t.Fatal(c.name, found.Codes())
		}
		if c.pinned {
			f = f.AllPinned()
		}
		own := in
		own.Hand = map[cloth.Role]lay.File{f.Role: f}
		r := Run(context.Background(), own, Lay, Effort{}, nil)
		if !r.Findings.Has(c.code) || (r.Findings.Stops() > 0) != c.stops {
			t.Errorf("%s: found %v", c.name, r.Findings.Codes())
		}
		for _, x := range r.Findings {
			if (x.Code() == "making.as-written" || x.Code() == "referee.overlap") && (x.Place.File != "mine.yaml" || x.Place.Line < 10) {
				t.Errorf("%s: told at %s", c.name, x.Place)
			}
		}
		if c.source != "" && (len(r.Lays) == 0 || r.Lays[0].Source != c.source || r.Lays[0].Length > made.Lays[0].Length && c.text == text) {
			t.Errorf("%s: %d lays", c.name, len(r.Lays))
		}
	}
}
