package pattern_test

import (
	"testing"

	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/seam"
	"gusset/internal/source"
)

// Every seam of the demo's pattern walks in every size within half a millimetre
// of its stated ease, after its stitching lines have been recovered from the
// printed cut lines (walking tolerance: 1/32 in is the finest published).
func TestDemoWalks(t *testing.T) {
	dir := "../../demo/patterns/quay/"
	f, _ := source.Read(dir+"pattern.yaml", "demo/patterns/quay/pattern.yaml")
	p, found := pattern.Load(f, func(n string) (source.File, error) { return source.Read(dir+n, "demo/patterns/quay/"+n) })
	for _, f := range found {
		t.Errorf("%s: %s: %s", f.Place, f.Code(), f.Text())
	}
	for _, v := range p.Views {
		for k := range p.Sizes {
			g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
			for n, gr := range p.Pieces {
				g.Pieces[n] = gr.In[k]
			}
			seams, fs := seam.Resolve(g)
			for _, f := range fs {
				t.Errorf("%s: %s", f.Place, f.Text())
			}
			w, fs := seam.Walk(g, seams, "mm")
			for _, f := range fs {
				t.Errorf("size %s %s: %s", p.Sizes[k], f.Place, f.Text())
			}
			t.Logf("%s %s: %d seams, widest %.3f", v.Name, p.Sizes[k], len(seams), w.Widest())
		}
	}
}
