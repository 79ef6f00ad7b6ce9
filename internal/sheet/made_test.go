package sheet_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gusset/demo"
	"gusset/internal/change"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/fit"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/needs"
	"gusset/internal/order"
	"gusset/internal/seam"
	"gusset/internal/sheet"
)

// made is a docket of the demo taken through every stage before the sheets.
type made struct {
	in      making.Inputs
	sized   fit.Sized
	changed change.Changed
	plan    construct.Plan
	walked  seam.Walked
	lays    []lay.Lay
	steps   order.Steps
	needs   needs.List
	found   finding.List
}

func makeDocket(t *testing.T, name string) made {
	t.Helper()
	var m made
	add := func(found finding.List) { m.found = append(m.found, found...) }
	in, found, err := making.Open(demo.Files, "dockets/"+name+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	add(found)
	m.in = in
	u := in.Docket.Unit
	m.sized, found = fit.Fit(in.Pattern, in.Docket.View, in.Body, fit.Choice{Unit: u})
	add(found)
	m.changed, found = change.Apply(m.sized.Garment(), in.Docket.Changes, u)
	add(found)
	m.plan, found = construct.Construct(m.changed.Garment(), in.Methods, in.Cloths, in.Docket.Methods)
	add(found)
	var seams []seam.Seam
	for _, s := range m.plan.Seams() {
		seams = append(seams, s.Seam)
	}
	m.walked, found = seam.Walk(m.changed.Garment(), seams, u)
	add(found)
	cuts, found := finish.Finish(m.plan)
	add(found)
	var used []needs.Cloth
	for _, role := range cloth.Roles {
		c, ok := in.Cloths[role]
		if !ok {
			continue
		}
		l, found := lay.Make(context.Background(), c, role, cuts.Pieces(), lay.Options{Fold: in.Docket.Fold, Rounds: 3, Table: in.Docket.Table.MM()})
		add(found)
		m.lays = append(m.lays, l)
		used = append(used, needs.Cloth{Role: role, Cloth: c, Used: l.Length})
	}
	m.steps, found = order.Plan(m.plan.Operations(), in.Machines, nil, order.Costs{})
	add(found)
	m.needs, found = needs.Count(m.plan.Operations(), m.plan.Notions(), needs.Options{Cloths: used})
	add(found)
	return m
}

func heading(m made) sheet.Heading {
	return sheet.Heading{Docket: m.in.Docket.Title, View: m.in.Pattern.Title + ", " + m.in.Docket.View, Size: m.sized.Nearest(), Digest: "5e1f09ab", Unit: m.in.Docket.Unit}
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
		m := makeDocket(t, name)
		h := heading(m)
		d, err := sheet.WorkCard(h, m.steps.Steps(), m.plan, paper)
		all := strings.Join(textOf(t, h, name+"-work-card", d, err), "\n")
		wants(t, name, all, fmt.Sprintf("%d steps", len(m.steps.Steps())), fmt.Sprintf("%d. ", len(m.steps.Steps())),
			"To the iron", "Caution: hot iron", "Caution: needle: fingers clear", map[string]string{"quay-long": "0.8 cm on back", "quay-cropped": "Allowance 9/16 in"}[name])
		if strings.Contains(all, "left yoke seam, left") {
			t.Errorf("%s: the hand is told twice", name)
		}
	}
}

var papers = map[string]draw.Paper{"quay-long": draw.A4, "quay-cropped": draw.Letter}
