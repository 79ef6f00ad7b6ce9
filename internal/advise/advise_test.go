package advise

import (
	"context"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"gusset/demo"
	"gusset/internal/docket"
	"gusset/internal/making"
	"gusset/internal/unit"
)

const longDocket = "dockets/quay-long.yaml"

// effort keeps the trials short; what they find does not matter here, only that
// it is told truly.
var effort = making.Effort{Rounds: 2, Seed: 1}

// shortRoom is the demo's workroom with a shorter piece of drill.
func shortRoom(t testing.TB, length string) fstest.MapFS {
	t.Helper()
	m := fstest.MapFS{}
	for _, name := range []string{
		longDocket, "bodies/wren.yaml", "cloths/rust-drill.yaml", "cloths/calico.yaml", "cloths/woven-fusible.yaml",
		"machines/bench.yaml", "machines/iron.yaml", "machines/overlocker.yaml",
	} {
		m[name] = demoFile(t, name)
	}
	entries, err := demo.Files.ReadDir("patterns/quay")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		m["patterns/quay/"+e.Name()] = demoFile(t, "patterns/quay/"+e.Name())
	}
	replace(t, m, "cloths/rust-drill.yaml", "length: 2.60 m", "length: "+length)
	replace(t, m, longDocket, "fold: auto", "fold: open") // one plan of laying only
	return m
}

func demoFile(t testing.TB, name string) *fstest.MapFile {
	t.Helper()
	data, err := demo.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return &fstest.MapFile{Data: data}
}

func replace(t testing.TB, m fstest.MapFS, file, was, now string) {
	t.Helper()
	text := string(m[file].Data)
	if strings.Count(text, was) != 1 {
		t.Fatalf("%s has %q %d times", file, was, strings.Count(text, was))
	}
	m[file] = &fstest.MapFile{Data: []byte(strings.Replace(text, was, now, 1))}
}

func made(t testing.TB, m fstest.MapFS) (making.Inputs, making.Result) {
	t.Helper()
	in, found, err := making.Open(m, longDocket)
	if err != nil || found.Stops() > 0 {
		t.Fatal(err, found)
	}
	return in, making.Run(context.Background(), in, making.Lay, effort, nil)
}

// write does what a step says to the files of a workroom, as a user would.
func write(t testing.TB, m fstest.MapFS, st Step) {
	t.Helper()
	for _, line := range strings.Split(st.Write, "\n") {
		key, rest, _ := strings.Cut(line, ": ")
		switch {
		case strings.HasPrefix(line, "cloths: {..., "):
			replace(t, m, st.File, "interfacing: woven-fusible}", "interfacing: woven-fusible, "+strings.TrimPrefix(line, "cloths: {..., "))
		case strings.Contains(line, "- {id:"):
			replace(t, m, st.File, "table: 1.8 m", "  "+line[strings.Index(line, "- {"):]+"\ntable: 1.8 m")
		case key == "size":
			replace(t, m, st.File, "size: auto", line)
		case key == "direction":
			replace(t, m, st.File, "direction: one-way", line)
		case key == "fold":
			replace(t, m, st.File, "fold: open", line)
		case key == "methods", key == "off-grain":
			m[st.File] = &fstest.MapFile{Data: append([]byte(string(m[st.File].Data)), (line + "\n")...)}
		default:
			t.Fatalf("no way to write %q (%s)", line, rest)
		}
	}
}

// What a remedy says to write, written into the files and made from them, gives
// the length that was promised: alone, and two together.
func TestPromisesKept(t *testing.T) {
	if os.Getenv("GUSSET_QUICK") != "" {
		t.Skip("quick: some twenty whole makes")
	}
	room := shortRoom(t, "1.15 m")
	replace(t, room, "patterns/quay/pattern.yaml", "- {piece: shield, copies: fold, fold-edge: fold, folded: yes, cloth: [main]}\n      - {piece: front-pocket",
		"- {piece: shield, copies: fold, fold-edge: fold, folded: yes, cloth: [main], hidden: yes}\n      - {piece: front-pocket")
	in, base := made(t, room)
	others, err := making.Cloths(room)
	if err != nil {
		t.Fatal(err)
	}
	list := Short(context.Background(), in, base, Options{Effort: effort, Others: others, Pairs: 3})
	if len(list) != 1 || list[0].Short <= 0 || list[0].Trials < 10 {
		t.Fatalf("advice %+v", list)
	}
	a := list[0]
	if math.Abs(a.Length-a.Short-1150) > 1e-6 {
		t.Errorf("takes %.1f mm, short by %.1f of 1150", a.Length, a.Short)
	}
	if len(a.Alone)+len(a.Vain) < 6 {
		t.Errorf("only %d remedies gain and %d do not", len(a.Alone), len(a.Vain))
	}
	kept := 0
	for _, o := range append(a.Alone, a.Pairs...) {
		if o.Steps[0].Way == "look" {
			continue
		}
		after := shortRoom(t, "1.15 m")
		for name, f := range room {
			after[name] = f
		}
		for _, st := range o.Steps {
			write(t, after, st)
		}
		_, r := made(t, after)
		if got := r.Lays[0].Length; math.Abs(got-o.Length) > 1e-6 || math.Abs(o.Gain-(a.Length-got)) > 1e-6 {
			t.Errorf("%v: promised %.3f mm, the files give %.3f mm", o.Steps, o.Length, got)
		}
		if o.Fits() != (r.Lays[0].Left() >= 0) || o.Fits() == r.Findings.Has("lay.short") {
			t.Errorf("%v: fits %v, found %v", o.Steps, o.Fits(), r.Findings.Codes())
		}
		t.Logf("gains %.1f cm: %v", o.Gain/10, o.Steps)
		kept++
	}
	for _, v := range a.Vain {
		t.Logf("no gain: %v", v)
	}
	if kept < 3 {
		t.Errorf("%d promises were looked at", kept)
	}
	for i := 1; i < len(a.Alone); i++ {
		if a.Alone[i].Gain > a.Alone[i-1].Gain {
			t.Error("not sorted by gain")
		}
	}
}

// The same inputs give the same advice and stay as they were; a context that has
// ended gives what there is; enough cloth needs none.
func TestShortIsRepeatableAndStops(t *testing.T) {
	room := shortRoom(t, "1.2 m")
	in, base := made(t, room)
	in.Docket.Fold = docket.Auto // the fold is left as it is
	once := Short(context.Background(), in, base, Options{Effort: effort})
	if again := Short(context.Background(), in, base, Options{Effort: effort}); !reflect.DeepEqual(once, again) {
		t.Error("two runs differ")
	}
	fresh, _ := made(t, room)
	if fresh.Docket.Fold = docket.Auto; !reflect.DeepEqual(in, fresh) {
		t.Error("advice has changed the inputs")
	}
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	part := Short(ctx, in, base, Options{Effort: effort, Report: func(Progress) {
		if n++; n == 3 {
			cancel()
		}
	}})
	if len(part) != 1 || !part[0].Stopped || part[0].Trials > 3 {
		t.Errorf("stopped at the third trial: %+v", part)
	}
	in, base = made(t, shortRoom(t, "2.6 m"))
	if list := Short(context.Background(), in, base, Options{Effort: effort}); len(list) != 0 {
		t.Errorf("advice for cloth that suffices: %+v", list)
	}
}

// A size is named by its label, or by a number between two, rounded to the
// larger side; nothing below the list.
func TestLabelAt(t *testing.T) {
	numbers, letters := []string{"8", "10", "12"}, []string{"S", "M", "L"}
	for _, c := range []struct {
		sizes []string
		at    float64
		want  string
	}{
		{numbers, 1, "10"}, {numbers, 1.5, "11"}, {numbers, 1.41, "11"}, {numbers, 1.02, "10.2"}, {numbers, -0.3, ""}, {numbers, 2, "12"},
		{letters, 1, "M"}, {letters, 1.5, ""}, {letters, 0, "S"},
	} {
		if got := labelAt(c.sizes, c.at); got != c.want {
			t.Errorf("%g of %v: %q, want %q", c.at, c.sizes, got, c.want)
		}
	}
}

// Steps are written as the loader reads them, also in inches.
func TestWrittenInInches(t *testing.T) {
	c := &counsel{}
	c.in.Docket.Unit = unit.Inch
	if got := c.whole(20).String(); got != "3/4 in" {
		t.Errorf("20 mm is written %s", got)
	}
	if got := c.fine(417).String(); got != "16 7/16 in" {
		t.Errorf("417 mm is written %s", got)
	}
}
