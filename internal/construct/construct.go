package construct

import (
	"cmp"
	"maps"
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/method"
	"gusset/internal/pattern"
	"gusset/internal/seam"
)

// Construct plans how the garment is made. swap names the docket's methods by
// item id, in place of the pattern's own. Cloths give the thickness that folds
// use up. What is unsound is reported and left out; the rest of the plan
// stands.
func Construct(g pattern.Garment, methods method.Library, cloths map[cloth.Role]cloth.Cloth, swap map[string]string) (Plan, finding.List) {
	g, found := Choose(g, methods, swap)
	g, added := Outfit(g, methods)
	found = append(found, added...)
	b := &builder{drawn: g, garment: g.Handed(), cloths: cloths, found: found, told: map[string]bool{}}
	b.checkCloths()
	b.readItems(methods)
	b.readSeams()
	b.glue = newGlue(b.garment, b.seams, func(s Seam, i int) bool { return b.items[s.Join].covers(sideName(i)) })
	b.gather()
	demands := b.demands()
	b.operate()
	b.precede()
	b.checkCycles()
	return Plan{
		garment: b.placed(), seams: b.seams, demands: demands,
		operations: b.operations, notions: b.notions(), openings: b.openings(methods),
	}, b.found
}

// builder holds what the steps of Construct hand to each other.
type builder struct {
	drawn      pattern.Garment
	garment    pattern.Garment // the same with both hands of every piece at hand
	cloths     map[cloth.Role]cloth.Cloth
	found      finding.List
	items      map[string]*item
	seams      []Seam
	lost       map[string]bool // pieces of joins that could not be resolved
	glue       *glue
	works      []*work
	operations []Operation
	index      map[string]int  // operation id → position
	told       map[string]bool // pairs of widths already reported
}

func (b *builder) add(f finding.Finding) { b.found = append(b.found, f) }

// readSeams resolves the joins on actual copies.
func (b *builder) readSeams() {
	seams, found := seam.Resolve(b.garment)
	b.found = append(b.found, found...)
	sound := map[string]bool{}
	for _, s := range seams {
		sound[s.Join] = true
		b.seams = append(b.seams, Seam{Seam: s, Method: b.items[s.Join].method})
	}
	b.lost = map[string]bool{}
	for _, j := range b.garment.View.Joins {
		for _, side := range j.Sides {
			for _, r := range side {
				if !sound[j.ID] {
					b.lost[r.Piece] = true
				}
			}
		}
	}
}

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
