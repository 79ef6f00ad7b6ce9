package sheet

import (
	"fmt"

	"gusset/internal/draw"
	"gusset/internal/unit"
)

// Heading is what every sheet of a make says about it.
type Heading struct {
	Docket string // the docket's title
	View   string // pattern and view
	Size   string // the size as chosen, "14" or "waist 14.6, hip 16"
	Digest string // of the inputs
	Unit   unit.Unit
}

// foot returns the line at the foot of each page of the named sheet.
func (h Heading) foot(sheet string) string {
	return fmt.Sprintf("%s | %s | digest %s", h.Docket, sheet, h.Digest)
}

// doc returns a document of the named sheet.
func (h Heading) doc(sheet string, pages []draw.Page) draw.Doc {
	return draw.Doc{Title: h.Docket + ", " + sheet, Subject: "digest " + h.Digest, Pages: pages}
}

// pageOf is the text at the right of a foot line.
func pageOf(n, of int) string { return fmt.Sprintf("page %d of %d", n, of) }
