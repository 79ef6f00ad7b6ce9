package finding

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var reach = Kind{
	Code: "order.reach", Severity: Warn,
	Text: "topstitch the fly before %[1]s is closed",
	Mend: "unpick before step %[2]d",
}

var file = Place{File: "patterns/quay/pattern.yaml", Line: 88, Col: 11, Text: "  method: fly-basted"}

func TestPlaceString(t *testing.T) {
	on := Place{}.OnPiece("front", "left", "outseam")
	for _, c := range []struct {
		p    Place
		want string
	}{
		{Place{}, ""},
		{Place{File: "a.yaml"}, "a.yaml"},
		{Place{File: "a.yaml", Line: 3}, "a.yaml:3"},
		{Place{Line: 3}, "line 3"},
		{file, "patterns/quay/pattern.yaml:88:11"},
		{on, "front@left:outseam"},
		{on.AtMM(312), "front@left:outseam at 312 mm"},
		{on.AtMM(312.25).InStep("taper"), "front@left:outseam at 312.2 mm (step taper)"},
		{Place{}.OnPiece("front", "", ""), "front"},
		{Place{}.OnPiece("front", "", "hem"), "front:hem"},
		{Place{}.InStep("taper"), "(step taper)"},
		{file.OnPiece("front", "fold", ""), "patterns/quay/pattern.yaml:88:11, front@fold"},
	} {
		if got := c.p.String(); got != c.want {
			t.Errorf("%#v.String() = %q, want %q", c.p, got, c.want)
		}
	}
	if file.OnPiece("x", "", "").Piece != "x" || file.Piece != "" {
		t.Error("OnPiece must give a copy")
	}
}

func TestFindingText(t *testing.T) {
	f := reach.At(file, "the centre front", 12)
	if f.Text() != "topstitch the fly before the centre front is closed" || f.Mend() != "unpick before step 12" {
		t.Errorf("got %q, %q", f.Text(), f.Mend())
	}
	plain := Kind{Code: "a.b", Text: "at least 3 %% more", Mend: ""}.At(Place{}, "unused")
	if plain.Text() != "at least 3 % more" || plain.Mend() != "" {
		t.Errorf("a template without verbs gave %q, %q", plain.Text(), plain.Mend())
	}
	swapped := Kind{Text: "%[2]s then %.1[1]f mm"}.At(Place{}, 3.25, "hem")
	if swapped.Text() != "hem then 3.2 mm" {
		t.Errorf("got %q", swapped.Text())
	}
}

func TestNoteLeavesTheOriginal(t *testing.T) {
	f := reach.At(file, "x", 1)
	a, b := f.Note(Place{}, "first %d", 1), f.Note(file, "second")
	c := a.Note(Place{}, "third")
	if len(f.Notes) != 0 || len(a.Notes) != 1 || a.Notes[0].Text != "first 1" || b.Notes[0].Text != "second" || len(c.Notes) != 2 {
		t.Errorf("notes: %v / %v / %v / %v", f.Notes, a.Notes, b.Notes, c.Notes)
	}
}

func TestList(t *testing.T) {
	at := func(code string, s Severity, file string, line int, piece string) Finding {
		return Kind{Code: code, Severity: s, Text: "x"}.At(Place{File: file, Line: line, Piece: piece})
	}
	l := List{
		at("t.a", Warn, "b", 1, ""), at("t.b", Stop, "a", 9, "front"), at("t.c", Advice, "a", 9, "back"),
		at("t.d", Stop, "a", 2, ""), at("t.e", Warn, "a", 9, "back"),
	}
	if got := l.Sorted().Codes(); !slices.Equal(got, []string{"t.d", "t.c", "t.e", "t.b", "t.a"}) {
		t.Errorf("sorted: %v", got)
	}
	if l[0].Code() != "t.a" {
		t.Error("Sorted must leave the list as it was")
	}
	if l.Stops() != 2 || l.Warns() != 2 || !l.Has("t.c") || l.Has("t.z") {
		t.Errorf("stops %d, warns %d", l.Stops(), l.Warns())
	}
	if got := l.AtLeast(Warn).Codes(); !slices.Equal(got, []string{"t.a", "t.b", "t.d", "t.e"}) {
		t.Errorf("at least warn: %v", got)
	}
	if s, ok := l.Worst(); s != Stop || !ok {
		t.Errorf("worst: %v %v", s, ok)
	}
	if _, ok := (List{}).Worst(); ok {
		t.Error("an empty list has no worst")
	}
	if s, ok := (List{l[2]}).Worst(); s != Advice || !ok {
		t.Errorf("worst of one advice: %v %v", s, ok)
	}
	if Advice.String()+Warn.String()+Stop.String() != "advicewarnstop" || Severity(9).String() != "severity(9)" {
		t.Error("severity names")
	}
}

func TestValidate(t *testing.T) {
	good := Kind{Code: "seam.gap", Severity: Stop, Text: "%[1]s is 3 %% longer by %.1[2]f mm", Mend: "true it"}
	if err := good.Validate(); err != nil {
		t.Error(err)
	}
	for name, k := range map[string]Kind{
		"one part":        {Code: "seam", Text: "x"},
		"upper case code": {Code: "seam.Gap", Text: "x"},
		"space":           {Code: "seam.the gap", Text: "x"},
		"hyphen at end":   {Code: "seam.gap-", Text: "x"},
		"empty part":      {Code: "seam..gap", Text: "x"},
		"severity":        {Code: "seam.gap", Text: "x", Severity: 3},
		"no text":         {Code: "seam.gap"},
		"capital":         {Code: "seam.gap", Text: "The seam"},
		"full stop":       {Code: "seam.gap", Text: "the seam."},
		"no index":        {Code: "seam.gap", Text: "the %s"},
		"no index, mend":  {Code: "seam.gap", Text: "x", Mend: "sew %d"},
		"index too soon":  {Code: "seam.gap", Text: "the %[1].1f"},
		"verb after %%":   {Code: "seam.gap", Text: "x %%%d"},
	} {
		if k.Validate() == nil {
			t.Errorf("%s: %+v passed", name, k)
		}
	}
}

const wantText = `patterns/quay/pattern.yaml:88: warn order.reach: topstitch the fly before the centre front is closed
  88 |   method: fly-basted
     |           ^
  on front@left:outseam (step taper)
  note: printed step 12 sews it with the opening basted shut
  note: a.yaml:3: first given here
  mend: unpick before step 12
front:hem: warn order.reach: topstitch the fly before x is closed
  mend: unpick before step 1
warn order.reach: topstitch the fly before y is closed
  mend: unpick before step 2
`

func TestWriteText(t *testing.T) {
	l := List{
		reach.At(file.OnPiece("front", "left", "outseam").InStep("taper"), "the centre front", 12).
			Note(Place{}, "printed step 12 sews it with the opening basted shut").
			Note(Place{File: "a.yaml", Line: 3}, "first given here"),
		reach.At(Place{}.OnPiece("front", "", "hem"), "x", 1),
		reach.At(Place{}, "y", 2),
	}
	var b strings.Builder
	if err := WriteText(&b, l); err != nil || b.String() != wantText {
		t.Errorf("%v\n%s\nwant\n%s", err, b.String(), wantText)
	}
}

// The caret stands below the character of the column, whatever precedes it,
// and no source line or argument can steer the terminal.
func TestWriteTextCaret(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.StringOfN(rapid.SampledFrom([]rune("ab é\t\x1b½")), 0, 300, -1).Draw(t, "before")
		after := rapid.StringOfN(rapid.SampledFrom([]rune("ab é\t\x1b½")), 0, 300, -1).Draw(t, "after")
		p := Place{File: "f", Line: 7, Col: len([]rune(before)) + 1, Text: before + "X" + after}
		var b strings.Builder
		_ = WriteText(&b, List{reach.At(p, "\x1b[31m", 1)})
		if strings.ContainsAny(b.String(), "\x1b\t") {
			t.Fatalf("control characters in %q", b.String())
		}
		lines := strings.Split(b.String(), "\n")
		shown, caret := []rune(lines[1]), []rune(lines[2])
		if shown[len(caret)-1] != 'X' || caret[len(caret)-1] != '^' {
			t.Fatalf("caret astray:\n%s\n%s", lines[1], lines[2])
		}
		if len(shown) > window+10 {
			t.Fatalf("line of %d characters shown", len(shown))
		}
	})
}

func TestJSON(t *testing.T) {
	nan := 0.0
	nan /= nan
	l := List{
		reach.At(file.OnPiece("front", "left", "hem").AtMM(0), "x", 1).Note(Place{}, "why"),
		Kind{Code: "a.b", Severity: Stop, Text: "t"}.At(Place{}.AtMM(nan)),
	}
	const want = `[{"code":"order.reach","severity":"warn",` +
		`"place":{"file":"patterns/quay/pattern.yaml","line":88,"col":11,"source":"  method: fly-basted","piece":"front","copy":"left","edge":"hem","at_mm":0},` +
		`"text":"topstitch the fly before x is closed","mend":"unpick before step 1","notes":[{"text":"why"}]},` +
		`{"code":"a.b","severity":"stop","text":"t"}]`
	if got, err := json.Marshal(l); err != nil || string(got) != want {
		t.Errorf("%v\n%s\nwant\n%s", err, got, want)
	}
	if got, _ := json.Marshal(List(nil)); string(got) != "[]" {
		t.Errorf("an empty list is %s", got)
	}
}
