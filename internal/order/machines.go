package order

import (
	"fmt"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/machine"
)

// zigzag is the two-step lockstitch, ISO 4915 number 304.
const zigzag = "304"

// lacking is a stitch that no machine makes, or a kind of machine that is not
// there (stitch empty), with the operations that need it.
type lacking struct {
	kind   machine.Kind
	stitch string
	first  construct.Operation
	count  int
}

// missing tells which machines and stitches the operations need and the
// workroom does not have. Hands, a table and an iron are taken to be there.
func missing(ops []construct.Operation, machines []machine.Machine) finding.List {
	var list []lacking
	for _, o := range ops {
		if o.Stitch == "" || (o.Machine != machine.Lockstitch && o.Machine != machine.Overlocker) {
			continue
		}
		if makes(machines, o.Machine, o.Stitch) {
			continue
		}
		l := lacking{kind: o.Machine, stitch: o.Stitch, first: o}
		if !has(machines, o.Machine) {
			l.stitch = ""
		}
		i := slices.IndexFunc(list, func(k lacking) bool { return k.kind == l.kind && k.stitch == l.stitch })
		if i < 0 {
			i = len(list)
			list = append(list, l)
		}
		list[i].count++
	}
	var out finding.List
	for _, l := range list {
		if l.stitch == "" {
			out = append(out, machineMissing.At(l.first.Place, l.kind, l.count, l.first.ID, instead(l, machines)))
		} else {
			out = append(out, stitchMissing.At(l.first.Place, l.kind, l.stitch, l.count, l.first.ID, instead(l, machines)))
		}
	}
	return out
}

// instead says what would do. A zigzag over the raw edge keeps it from fraying
// where no overlocker is at hand; overcasting by hand did before (common
// practice).
func instead(l lacking, machines []machine.Machine) string {
	if l.kind != machine.Overlocker {
		return "sew it by hand, or choose a method without it"
	}
	for _, m := range machines {
		if m.Kind == machine.Lockstitch && slices.Contains(m.Stitches, zigzag) {
			return fmt.Sprintf("zigzag over the raw edges (stitch %s) on %s", zigzag, m.Title)
		}
	}
	return "overcast the raw edges by hand, or choose methods that enclose them, such as a felled seam"
}

func has(machines []machine.Machine, k machine.Kind) bool {
	return slices.ContainsFunc(machines, func(m machine.Machine) bool { return m.Kind == k })
}

func makes(machines []machine.Machine, k machine.Kind, number string) bool {
	return slices.ContainsFunc(machines, func(m machine.Machine) bool {
		return m.Kind == k && slices.Contains(m.Stitches, number)
	})
}
