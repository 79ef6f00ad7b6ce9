package needs

import (
	"slices"
	"strings"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/machine"
	"gusset/internal/unit"

	"pgregory.net/rapid"
)

// Identity: 200 cm needed of cloth that shrinks by 5 % are 210.53 cm bought,
// not 210.
func TestToBuy(t *testing.T) {
	near(t, "cm", ToBuy(200, 0.05), 210.526, 0.001)
	near(t, "washed", ToBuy(200, 0), 200, 0)
	near(t, "nonsense", ToBuy(200, 1), 200, 0)
}

// 20 mm across and 3 mm thick: 23 mm, and 3 mm for the cloth (published sewing
// handbooks: diameter + thickness, + 1/8 in).
func TestButtonhole(t *testing.T) {
	near(t, "buttonhole", Button{Diameter: 20, Thickness: 3}.Buttonhole(), 26, 0)
}

// What is set along a closure is told with its spacing, and elastic with the
// warning that its length is a start: the size of a button that is not measured
// does not hide how far apart it lies.
func TestNotes(t *testing.T) {
	for _, c := range []struct {
		n    construct.Notion
		b    Button
		want []string
	}{
		{construct.Notion{Kind: "button", Count: 8, Gap: 85}, Button{17, 3}, []string{"buttonhole 23 mm", "; 85.0 mm apart"}},
		{construct.Notion{Kind: "button", Count: 8, Gap: 85}, Button{}, []string{"measure the button", "; 85.0 mm apart"}},
		{construct.Notion{Kind: "stud", Count: 8, Gap: 85}, Button{}, []string{"85.0 mm apart, middle to middle"}},
		{construct.Notion{Kind: "elastic", Length: 800}, Button{}, []string{"try it round the body"}},
	} {
		note := notionNote(c.n, c.b)
		for _, want := range c.want {
			if !strings.Contains(note, want) {
				t.Errorf("%s: %q lacks %q", c.n.Kind, note, want)
			}
		}
		if strings.HasPrefix(note, ";") {
			t.Errorf("%q begins with nothing", note)
		}
	}
}

func TestCount(t *testing.T) {
	ops := []construct.Operation{
		{ID: "fly.set", Machine: machine.Lockstitch, Stitch: "301", StitchLength: 2.8, Thread: "main", Needle: "90", Length: 180, Thickness: 1.2},
		{ID: "hem.top", Machine: machine.Lockstitch, Stitch: "301", StitchLength: 3.2, Thread: "topstitch", Needle: "100", Length: 900, Thickness: 1.8},
		{ID: "hem.catch", Machine: machine.Hand},
	}
	notions := []construct.Notion{
		{Kind: "zip", Title: "metal zip", Count: 1, Length: 165, Item: "fly"},
		{Kind: "button", Title: "button", Count: 1, Item: "fly"},
		{Kind: "button", Title: "button", Count: 2, Item: "pocket"},
	}
	drill := cloth.Cloth{Title: "rust drill", Width: unit.Of(148, unit.Centimetre), Length: unit.Of(1.5, unit.Metre), ShrinkWarp: 0.05}
	l, found := Count(ops, notions, Options{
		Cloths: []Cloth{{cloth.Main, drill, 1500}, {cloth.Lining, drill, 0}},
		Button: Button{Diameter: 20, Thickness: 3},
	})
	var got []string
	for _, i := range l.Items() {
		got = append(got, i.Kind+"/"+i.Title)
	}
	want := []string{"cloth/rust drill", "zip/metal zip", "button/button", "needle/hand needle", "needle/lockstitch needle, size 100", "needle/lockstitch needle, size 90"}
	if !slices.Equal(got, want) {
		t.Errorf("items: %v", got)
	}
	near(t, "cloth", l.Items()[0].Length, 1500/0.95, 1e-9)
	if l.Items()[2].Count != 3 || !strings.Contains(l.Items()[2].Note, "26 mm") {
		t.Errorf("buttons: %+v", l.Items()[2])
	}
	if l.Items()[1].Length != 165 || l.Items()[1].Count != 1 {
		t.Errorf("zip: %+v", l.Items()[1])
	}
	if len(found) != 1 || found[0].Text() != "the main takes 1.58 m, only 1.50 m of rust drill is there" {
		t.Errorf("findings: %v", found)
	}
	if len(l.Threads()) != 3 {
		t.Errorf("threads: %+v", l.Threads())
	}
}

// Sewing all seams twice as long takes twice the thread in the stitches, and
// the order of the operations does not matter.
func TestThreadsScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		numbers := []string{"101", "301", "304", "401", "503", "504"}
		var ops, double []construct.Operation
		for range rapid.IntRange(1, 12).Draw(t, "n") {
			o := construct.Operation{
				Machine: machine.Lockstitch, Stitch: rapid.SampledFrom(numbers).Draw(t, "stitch"),
				StitchLength: rapid.Float64Range(0.5, 5).Draw(t, "stitch length"), Thread: rapid.SampledFrom([]string{"main", "topstitch"}).Draw(t, "thread"),
				Length: rapid.Float64Range(1, 3000).Draw(t, "length"), Thickness: rapid.Float64Range(0, 5).Draw(t, "thickness"), Rows: rapid.IntRange(0, 3).Draw(t, "rows"),
			}
			ops = append(ops, o)
			o.Length *= 2
			double = append(double, o)
		}
		slices.Reverse(double)
		once, _ := threads(ops)
		twice, _ := threads(double)
		for i := range once {
			a, b := once[i], twice[i]
			if a.Name != b.Name || a.Tails != b.Tails || b.Sewn < 2*a.Sewn*(1-1e-12) || b.Sewn > 2*a.Sewn*(1+1e-12) {
				t.Fatalf("%+v became %+v", a, b)
			}
		}
	})
}

// Every wording is sound.
func TestFindingKinds(t *testing.T) {
	for _, k := range []interface{ Validate() error }{noRatio, unmeasured, clothShort} {
		if err := k.Validate(); err != nil {
			t.Error(err)
		}
	}
}
