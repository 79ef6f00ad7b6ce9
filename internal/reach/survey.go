package reach

import (
	"math"
	"slices"

	"gusset/internal/construct"
	"gusset/internal/machine"
)

// Survey knows the garment as it is glued together and answers for every
// operation how well it can be got at. Only Look makes one; the zero Survey
// finds everything easy.
type Survey struct {
	surface    *surface
	lines      []line
	index      map[string]int // operation id → position in lines
	closers    []string       // of each seam: the operation that sews it, "" for none
	covers     []cover
	conditions []Condition
}

// line is an operation as far as reaching it matters.
type line struct {
	op       construct.Operation
	points   []start
	machines []Machine
	seam     int             // its own, -1 for none
	before   map[string]bool // operations that have to come before it
	behind   map[string]bool // operations that have to come after it
}

// Look surveys a plan for the machines of a workroom.
func Look(p construct.Plan, list []machine.Machine) Survey {
	s := Survey{index: map[string]int{}, closers: closers(p)}
	s.surface = newSurface(p.Garment(), p.Seams())
	s.covers = s.surface.covers()
	sizes := machines(list)
	before, behind := closure(p.Operations())
	for i, o := range p.Operations() {
		l := line{op: o, machines: sizes[o.Machine], before: before[i], behind: behind[i], seam: -1}
		for k, m := range p.Seams() {
			if m.ID == o.Seam {
				l.seam = k
			}
		}
		if o.Stitch != "" && len(l.machines) > 0 {
			l.points = s.surface.points(o)
		}
		s.index[o.ID] = len(s.lines)
		s.lines = append(s.lines, l)
	}
	for i := range s.lines {
		s.conditions = append(s.conditions, s.hindrances(i)...)
	}
	return s
}

// closers names for every seam the operation that sews it: the first that
// stitches both its sides.
func closers(p construct.Plan) []string {
	out := make([]string, len(p.Seams()))
	for i, m := range p.Seams() {
		for _, o := range p.Operations() {
			if o.Seam == m.ID && o.Stitch != "" && len(along(o)) > 1 && o.On != "none" {
				out[i] = o.ID
				break
			}
		}
	}
	return out
}

// closure lists for every operation those that must come before and after it.
func closure(ops []construct.Operation) (before, behind []map[string]bool) {
	index := map[string]int{}
	for i, o := range ops {
		index[o.ID] = i
	}
	before, behind = make([]map[string]bool, len(ops)), make([]map[string]bool, len(ops))
	for i := range ops {
		before[i], behind[i] = map[string]bool{}, map[string]bool{}
	}
	for i := range ops {
		for todo := slices.Clone(ops[i].After); len(todo) > 0; {
			id := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			j, known := index[id]
			if !known || before[i][id] {
				continue
			}
			before[i][id] = true
			behind[j][ops[i].ID] = true
			todo = append(todo, ops[j].After...)
		}
	}
	return before, behind
}

// At judges an operation when those that done reports are done. What is not
// stitched by machine is easy.
func (s Survey) At(op string, done func(id string) bool) Access {
	i, known := s.index[op]
	if !known {
		return easy
	}
	return s.at(i, s.sewn(done))
}

var easy = Access{Girth: math.Inf(1)}

// sewn lists the seams whose sewing is done.
func (s Survey) sewn(done func(id string) bool) sewn {
	out := make(sewn, len(s.closers))
	for i, id := range s.closers {
		out[i] = id != "" && done(id)
	}
	return out
}

// at judges a line with seams sewn. Its own seam lies open on the table when
// it was pressed; before that, and under the overlocker, which sews along an
// edge, the plies lie on each other as if they were not joined.
func (s Survey) at(i int, done sewn) Access {
	l := s.lines[i]
	if len(l.points) == 0 {
		return easy
	}
	if l.seam >= 0 {
		done = slices.Clone(done)
		done[l.seam] = l.op.Spread && l.op.Machine != machine.Overlocker
	}
	t := s.surface.after(done)
	worst := make([]Access, len(l.machines))
	through := make([][]int, len(l.machines))
	for k, m := range l.machines {
		worst[k] = easy
		for _, p := range l.points {
			f := t.tight(p, m.ArmGirth+ease)
			if a := m.judge(f, l.ply(), l.op.Thickness); worse(a, worst[k]) {
				worst[k], through[k] = a, f.through
			}
		}
		worst[k].Around = s.surface.names(through[k])
	}
	a := best(worst)
	if caught := s.caught(l, done); len(caught) > 0 {
		a.Level, a.Caught = max(a.Level, ByHand), s.surface.names(caught)
	}
	return a
}

// ply is the thickness of one ply in mm.
func (l line) ply() float64 {
	if l.op.Thickness <= 0 || l.op.Plies == 0 {
		return someCloth
	}
	return l.op.Thickness / float64(l.op.Plies)
}

// names lists the pieces of faces, each once, in the garment's order.
func (s *surface) names(faces []int) []string {
	var out []string
	faces = slices.Clone(faces)
	slices.Sort(faces)
	for _, f := range faces {
		name := s.faces[f].piece.Title
		if name == "" {
			name = s.faces[f].copyOf.piece
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}
