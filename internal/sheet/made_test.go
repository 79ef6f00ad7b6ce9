package sheet_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gusset/demo"
	"gusset/internal/draw"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

// done keeps what was made, since many sheets are drawn from one make.
var done = map[string]making.Result{}

// makeDocket takes a docket of the demo through every stage before the sheets.
func makeDocket(t *testing.T, name string) (making.Inputs, making.Result) {
	t.Helper()
	in, found, err := making.Open(demo.Files, "dockets/"+name+".yaml")
	if err != nil || found.Stops() > 0 {
		t.Fatal(found.Codes(), err)
	}
	if _, ok := done[name]; !ok {
		done[name] = making.Run(context.Background(), in, making.Needs, making.Effort{}, nil)
	}
	return in, done[name]
}

func heading(in making.Inputs, r making.Result) sheet.Heading {
	return sheet.Heading{Docket: in.Docket.Title, View: in.Pattern.Title + ", " + in.Docket.View, Size: r.Sized.Nearest(), Digest: r.Digest, Unit: in.Docket.Unit}
}

// textOf returns the text of each page as poppler reads it off the PDF, and
// wants the docket's name, the digest and the page's number on every one.
func textOf(t *testing.T, h sheet.Heading, name string, d draw.Doc, err error) []string {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	read, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed")
	}
	dir := os.Getenv("GUSSET_LOOK")
	if dir == "" {
		dir = t.TempDir()
	}
	path := filepath.Join(dir, name+".pdf")
	var pdf bytes.Buffer
	if err := draw.PDF(&pdf, d); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, pdf.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(read, "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	for i, text := range pages {
		wants(t, name, text, h.Docket, "digest "+h.Digest, fmt.Sprintf("page %d of %d", i+1, len(pages)))
	}
	return pages
}

func wants(t *testing.T, name, text string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			t.Errorf("%s: no %q in\n%s", name, w, text)
		}
	}
}

// TestMadeWorkCard prints the order of work of both dockets of the demo. The
// allowances are those of the methods' files: a plain seam has 15 mm; a felled
// one 10 mm less 2 mm on the narrow side.
func TestMadeWorkCard(t *testing.T) {
	for name, paper := range papers {
		in, r := makeDocket(t, name)
		h := heading(in, r)
		d, err := sheet.WorkCard(h, sheet.Work{Steps: r.Steps.Steps(), Plan: r.Plan, Cuts: r.Cut.Pieces()}, paper)
		all := strings.Join(textOf(t, h, name+"-work-card", d, err), "\n")
		wants(t, name, all, fmt.Sprintf("%d steps", len(r.Steps.Steps())), "To the iron", "Caution: hot iron", "Caution: needle: fingers clear", map[string]string{"quay-long": "0.8 cm on back", "quay-cropped": "Allowance 9/16 in"}[name])
		if strings.Contains(all, "left yoke seam, left") {
			t.Errorf("%s: the hand is told twice", name)
		}
	}
}

// TestMadeLays prints the lays of both dockets: no page for a cloth that nothing
// is cut from, and every piece by the number and name that its chart has.
func TestMadeLays(t *testing.T) {
	for name, paper := range papers {
		in, r := makeDocket(t, name)
		h := heading(in, r)
		d, err := sheet.Lays(h, r.Lays, paper)
		all := strings.Join(textOf(t, h, name+"-lay", d, err), "\n")
		for _, l := range r.Lays {
			if got := strings.Contains(all, sentence(l.Cloth.Title)+", for"); got != (len(l.Placed) > 0) {
				t.Errorf("%s: a chart of %s: %v, with %d pieces", name, l.Cloth.Title, got, len(l.Placed))
			}
		}
		wants(t, name, all, "squared line", "measure across from here", "Caution: shears", map[string]string{"quay-long": "tops of all pieces point the same way", "quay-cropped": "Not washed yet"}[name],
			map[string]string{"quay-long": "50 cm of cloth", "quay-cropped": "20 in of cloth"}[name],
			map[string]string{"quay-long": "one layer, paper face down, from the selvedge", "quay-cropped": "two layers, paper face up, from the fold"}[name])
	}
}

// TestMadeDocket prints the dockets. Wren's asks for a hem of 17 1/4 in, 43.8 cm,
// which is what the garment as made must measure; her waist is 31 1/4 in, 79.4 cm.
func TestMadeDocket(t *testing.T) {
	for name, paper := range papers {
		in, r := makeDocket(t, name)
		h := heading(in, r)
		d, err := sheet.Docket(h, sheet.Summary{
			For: in.Body.Title, Zones: r.Sized.Zones(), Ease: r.Sized.Ease(), Garment: r.Garment(), Applied: r.Changed.Applied(),
			Seams: len(r.Walked.Seams()), Widest: r.Walked.Widest(), Lays: r.Lays, Findings: r.Findings,
		}, paper)
		pages := textOf(t, h, name+"-docket", d, err)
		if len(pages) != 1 {
			t.Errorf("%s: %d pages, want one", name, len(pages))
		}
		wants(t, name, pages[0], "For "+in.Body.Title, "as made", "seams walked", map[string]string{"quay-long": "79.4 cm", "quay-cropped": "42 1/2 in"}[name])
		if name == "quay-long" {
			hem := regexp.MustCompile(`hem +\S+ +\S+ +\S+ +([\d.]+) cm +43\.8 cm`)
			if m := hem.FindStringSubmatch(pages[0]); m == nil || m[1] == "43.8" {
				t.Errorf("no hem of 43.8 cm as made from a wider one in\n%s", pages[0])
			}
		}
	}
}

// TestMadeNeeds prints what the dockets need: every cloth that is laid, every
// item and thread, and the source of each thread figure once.
func TestMadeNeeds(t *testing.T) {
	for name, paper := range papers {
		in, r := makeDocket(t, name)
		h := heading(in, r)
		d, err := sheet.Needs(h, r.Needs, paper)
		pages := textOf(t, h, name+"-needs", d, err)
		all := strings.Join(pages, "\n")
		for _, l := range r.Lays {
			if len(l.Placed) > 0 {
				wants(t, name, all, l.Cloth.Title)
			}
		}
		for _, i := range r.Needs.Items() {
			wants(t, name, all, i.Title)
		}
		for _, th := range r.Needs.Threads() {
			wants(t, name, all, th.Name, unit.Format(th.Length, unit.Metre))
			for _, u := range th.Uses {
				if n := strings.Count(all, "Stitch "+u.Stitch+":"); n != 1 {
					t.Errorf("%s: the source for stitch %s is told %d times", name, u.Stitch, n)
				}
			}
		}
		if strings.Contains(all, "button, button") {
			t.Errorf("%s: a kind is told twice", name)
		}
	}
}

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

var papers = map[string]draw.Paper{"quay-long": draw.A4, "quay-cropped": draw.Letter}
