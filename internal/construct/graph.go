package construct

import (
	"slices"
	"strings"

	"gusset/internal/method"
)

// before lets every one of the later operations wait for the earlier ones, and
// keeps the reason, the first where there are several.
func (b *builder) before(earlier, later []string, why string) {
	for _, l := range later {
		o := &b.operations[b.index[l]]
		for _, e := range earlier {
			if e != l && !slices.Contains(o.After, e) {
				o.After = append(o.After, e)
				o.Why[e] = why
			}
		}
	}
}

// ids lists the operations of a work in the method's order.
func (w *work) ids(keep func(method.Operation) bool) []string {
	var out []string
	for _, m := range w.item.method.Operations {
		if keep(m) {
			out = append(out, w.ops[m.ID]...)
		}
	}
	return out
}

// sinks are the operations that no other of the work waits for: when they are
// done, all of it is, pressing included.
func (w *work) sinks() []string {
	waited := map[string]bool{}
	for _, m := range w.item.method.Operations {
		for _, a := range m.After {
			waited[a] = true
		}
	}
	return w.ids(func(m method.Operation) bool { return !waited[m.ID] })
}

// roots are the operations that wait for no other of the work.
func (b *builder) roots(w *work) []string {
	return w.ids(func(m method.Operation) bool { return len(m.After) == 0 })
}

// gates are the operations of a work from which on it takes in what it
// crosses: pinning both sides together, or else the first stitching along the
// seam. What makes one side ready, an edge overlocked or pressed under, need not
// wait. A finish waits whole.
func (b *builder) gates(w *work) []string {
	if w.item.takes != method.Join {
		return b.roots(w)
	}
	var ids []string
	taken := map[string]bool{}
	for _, m := range w.item.method.Operations {
		if m.On == "a" || m.On == "b" {
			continue
		}
		if !slices.ContainsFunc(m.After, func(id string) bool { return taken[id] }) {
			ids = append(ids, w.ops[m.ID]...)
		}
		taken[m.ID] = true
		if m.On == "seam" && m.Stitch != "" {
			return ids
		}
	}
	return b.roots(w)
}

// closing are the operations that close the work, or all that end it.
func (w *work) closing() []string {
	if ids := w.ids(func(m method.Operation) bool { return m.Closes }); len(ids) > 0 {
		return ids
	}
	return w.sinks()
}

// rest are the operations of a work that wait for its closing.
func (b *builder) rest(w *work) []string {
	closed := map[string]bool{}
	var out []string
	for _, m := range w.item.method.Operations {
		after := slices.ContainsFunc(m.After, func(a string) bool { return closed[a] })
		if after {
			out = append(out, w.ops[m.ID]...)
		}
		if after || m.Closes {
			closed[m.ID] = true
		}
	}
	return out
}

// checkCycles reports operations that wait for each other.
func (b *builder) checkCycles() {
	const (
		open = 1
		done = 2
	)
	state := make([]int, len(b.operations))
	var path []int
	var visit func(i int) bool
	visit = func(i int) bool {
		switch state[i] {
		case done:
			return false
		case open:
			b.reportCycle(path[slices.Index(path, i):])
			return true
		}
		state[i] = open
		path = append(path, i)
		for _, a := range b.operations[i].After {
			if visit(b.index[a]) {
				return true
			}
		}
		path = path[:len(path)-1]
		state[i] = done
		return false
	}
	for i := range b.operations {
		if visit(i) {
			return
		}
	}
}

// reportCycle names the items on a loop of operations, each waiting for the
// next.
func (b *builder) reportCycle(loop []int) {
	var names []string
	for _, i := range loop {
		id := b.operations[i].Item
		if c := b.operations[i].Copy; c != "" {
			id += "@" + string(c)
		}
		if len(names) == 0 || names[len(names)-1] != id {
			names = append(names, id)
		}
	}
	names = append(names, names[0])
	f := cyclic.At(b.operations[loop[0]].Place, strings.Join(names, " waits for "))
	told := map[string]bool{}
	for _, i := range loop {
		if o := b.operations[i]; !told[o.Item] {
			told[o.Item] = true
			f = f.Note(o.Place, "%s is here", o.Item)
		}
	}
	b.add(f)
}
