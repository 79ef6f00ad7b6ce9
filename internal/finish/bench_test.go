package finish

import (
	"testing"

	"gusset/demo/printed"
	"gusset/internal/cloth"
	"gusset/internal/construct"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Planning and cutting the demo's long trousers, 14 pieces.
func BenchmarkDemo(b *testing.B) {
	p := printed.Pattern(b, "quay")
	v := p.Views[0]
	g := pattern.Garment{View: v, Pieces: map[string]piece.Piece{}}
	for _, u := range v.Uses {
		g.Pieces[u.Piece] = p.Pieces[u.Piece].In[3]
	}
	lib, _ := method.Builtin()
	cloths := map[cloth.Role]cloth.Cloth{}
	for _, role := range cloth.Roles {
		cloths[role] = cloth.Cloth{Thickness: unit.MM(0.6)}
	}
	plan, _ := construct.Construct(g, lib, cloths, nil)
	b.Run("construct", func(b *testing.B) {
		for b.Loop() {
			construct.Construct(g, lib, cloths, nil)
		}
	})
	b.Run("finish", func(b *testing.B) {
		for b.Loop() {
			Finish(plan)
		}
	})
}
