// Command draft draws the demo's printed patterns and writes one SVG for each
// piece to demo/patterns. Run it from the repository root:
//
//	go run ./demo/draft
//
// The draft of the Quay trousers goes the way a cutter's goes: the levels of the body first (waist,
// hip, fork, thigh, knee, hem), the front about its crease line, the back from
// the front, and every further piece from the edges it will be sewn to. All of
// it is drawn on the stitching line; what is printed is the cutting line, each
// edge moved out by its seam allowance. Where two edges will be joined their
// lengths are not hoped for but solved for.
//
// The proportions (front fork about a sixteenth of the hip, back fork half as
// much again, a back fork point that drops about a centimetre, a knee five
// centimetres above the middle of the leg) are common practice of the trade.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"gusset/internal/source"
)

const folder = "demo/patterns"

// garment is one pattern: its folder's name, its sizes as they are printed, and
// the draft of every piece in each of them.
type garment struct {
	name   string
	labels []string
	draft  func() ([]draft, error)
}

var garments = []garment{
	{"quay", labels, draftAll},
	{"weir", weirLabels, draftWeir},
	{"mooring", topLabels, draftTops},
}

func main() {
	for _, g := range garments {
		if err := g.write(filepath.Join(folder, g.name)); err != nil {
			fmt.Fprintf(os.Stderr, "draft: %s: %v\n", g.name, err)
			os.Exit(2)
		}
	}
}

func (g garment) write(folder string) error {
	sheets, err := g.draw()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, s := range sheets {
		if err := source.WriteFile(filepath.Join(folder, s.name+".svg"), s.data); err != nil {
			return err
		}
	}
	return nil
}

// sheet is one piece's file.
type sheet struct {
	name string
	data []byte
}

// draw drafts every piece in every size and prints it.
func (g garment) draw() ([]sheet, error) {
	drafts, err := g.draft()
	if err != nil {
		return nil, err
	}
	var out []sheet
	for _, name := range pieceNames(drafts) {
		var printed []printedPiece
		for i, d := range drafts {
			p, err := printPiece(d[name])
			if err != nil {
				return nil, fmt.Errorf("%s, size %s: %w", name, g.labels[i], err)
			}
			printed = append(printed, p)
		}
		var b bytes.Buffer
		writeSVG(&b, g.labels, printed)
		out = append(out, sheet{name, b.Bytes()})
	}
	return out, nil
}
