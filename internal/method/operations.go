package method

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/machine"
	"gusset/internal/source"
)

// placeholders are the names that an operation's text may hold in braces,
// besides the method's own values.
var placeholders = []string{"a", "b", "more", "edge", "item", "seam", "count", "gap"}

// standardFoot is what a machine sews with unless a method says otherwise.
const standardFoot = "standard"

// mostTimes bounds how often something short is sewn.
const mostTimes = 200

var (
	placeholderForm = regexp.MustCompile(`\{([^{}]*)\}`)
	idForm          = regexp.MustCompile(`^[a-z][a-z0-9-]{0,39}$`)
	needleForm      = regexp.MustCompile(`^[0-9]{2,3}(/[0-9]{2,3})?$`)
)

// operations reads the steps in file order and checks how they hang together.
func (r reader) operations(v Method) []Operation {
	if !r.m.Has("operations") {
		return nil
	}
	var list []Operation
	at := map[string]finding.Place{}
	after := map[string][]source.Node{}
	for _, n := range r.m.Items("operations") {
		o, nodes := r.operation(n, v)
		if p, twice := at[o.ID]; twice {
			r.add(opTwice.At(n.Place(), o.ID).Note(p, "the first is here"))
			continue
		}
		if o.ID == "" {
			continue
		}
		at[o.ID], after[o.ID] = n.Place(), nodes
		list = append(list, o)
	}
	r.order(list, at, after)
	return list
}

func (r reader) operation(n source.Node, v Method) (Operation, []source.Node) {
	m := n.Reader(r.out)
	if !n.IsMapping() {
		return Operation{}, nil
	}
	need := m.Required()
	o := Operation{
		ID: r.id(need.Key("id")), Actions: r.actions(need.Key("do"), v),
		Machine: machine.Kind(need.Word("machine", machineWords...)),
		Stitch:  r.stitch(m.Key("stitch")), Length: m.Length("length", "", 0.3, 60),
		Foot: m.String("foot"), Needle: r.needle(m.Key("needle")), Rows: m.Int("rows", 1, 20),
		On: m.WordOr("on", "none", OnWords...), At: m.Word("at", AtWords...),
		Times: m.IntOr("times", 1, mostTimes, 1), Each: m.Yes("each"), First: m.Yes("first"),
		Together: m.Yes("together"), Closes: m.Yes("closes"),
	}
	o.Caution = caution(m.String("caution"), o.Machine)
	o.Thread = m.Word("thread", Threads...)
	if m.Has("run") {
		o.Run = r.names(m.Key("run"), v)
	}
	o.Needs, o.Makes = r.states(m, "needs"), r.states(m, "makes")
	var after []source.Node
	if m.Has("after") {
		after = m.Items("after")
		o.After = m.Strings("after")
	}
	o.Why = m.String("why")
	m.Done()
	r.sewing(&o, n)
	return o, after
}

// sewing checks that stitches are made where stitches can be made, and fills
// in what goes without saying.
func (r reader) sewing(o *Operation, n source.Node) {
	if o.Machine == "" {
		return
	}
	switch {
	case o.Stitch != "" && !o.Machine.Sews():
		r.add(stitchPlace.At(n.Place(), o.ID, o.Stitch, o.Machine))
	case o.Stitch == "" && (o.Machine == machine.Lockstitch || o.Machine == machine.Overlocker):
		r.add(noStitch.At(n.Place(), o.ID, o.Machine))
	}
	if o.Stitch == "" {
		return
	}
	if o.Thread == "" {
		o.Thread = Threads[0]
	}
	if o.Foot == "" && o.Machine != machine.Hand {
		o.Foot = standardFoot
	}
	o.Rows = max(o.Rows, 1)
	if o.Length.IsZero() {
		r.add(noLength.At(n.Place(), o.ID))
	}
}

func (r reader) id(n source.Node) string {
	s, ok := n.Text(r.out)
	if ok && !idForm.MatchString(s) {
		r.add(badID.At(n.Place(), s))
		return ""
	}
	return s
}

// actions reads what to do: one action, or a list of them.
func (r reader) actions(n source.Node, v Method) []string {
	nodes := []source.Node{n}
	if n.IsList() {
		nodes = n.Items(r.out)
	}
	known := append(slices.Clone(placeholders), sortedKeys(v.Values)...)
	var out []string
	for _, a := range nodes {
		s, ok := a.Text(r.out)
		if !ok {
			continue
		}
		for _, m := range placeholderForm.FindAllStringSubmatch(s, -1) {
			if !slices.Contains(known, m[1]) {
				r.add(unknownPlaceholder.At(a.Place(), m[1], meant(m[1], known)))
			}
		}
		out = append(out, s)
	}
	return out
}

// states reads the names of states.
func (r reader) states(m *source.Map, key string) []string {
	if !m.Has(key) {
		return nil
	}
	var out []string
	for _, n := range m.Items(key) {
		if s := r.id(n); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func (r reader) stitch(n source.Node) string {
	s, ok := n.Text(r.out)
	if ok && s != "" && !machine.ValidStitch(s) {
		r.add(badStitch.At(n.Place(), s))
		return ""
	}
	return s
}

func (r reader) needle(n source.Node) string {
	s, ok := n.Text(r.out)
	if ok && s != "" && !needleForm.MatchString(s) {
		r.add(badNeedle.At(n.Place(), s))
		return ""
	}
	return s
}

// order checks that every operation's after exists and that none waits for
// itself.
func (r reader) order(list []Operation, at map[string]finding.Place, after map[string][]source.Node) {
	ids := sortedKeys(at)
	for _, o := range list {
		for _, n := range after[o.ID] {
			if s, ok := n.Text(&finding.List{}); ok && !slices.Contains(ids, s) {
				r.add(unknownAfter.At(n.Place(), o.ID, s, meant(s, ids)))
			}
		}
	}
	if loop := cycle(list); loop != nil {
		f := cyclic.At(at[loop[0]], strings.Join(loop, " after "))
		for _, id := range loop[1 : len(loop)-1] {
			f = f.Note(at[id], "%s is here", id)
		}
		r.add(f)
	}
}

// cycle gives the ids of operations that wait for each other, the first
// repeated at the end; nil when there are none.
func cycle(list []Operation) []string {
	by := map[string]Operation{}
	for _, o := range list {
		by[o.ID] = o
	}
	done := map[string]bool{}
	var path []string
	var visit func(id string) []string
	visit = func(id string) []string {
		if i := slices.Index(path, id); i >= 0 {
			return append(slices.Clone(path[i:]), id)
		}
		if _, known := by[id]; !known || done[id] {
			return nil
		}
		path = append(path, id)
		for _, next := range by[id].After {
			if loop := visit(next); loop != nil {
				return loop
			}
		}
		path = path[:len(path)-1]
		done[id] = true
		return nil
	}
	for _, o := range list {
		if loop := visit(o.ID); loop != nil {
			return loop
		}
	}
	return nil
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

func words[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, w := range list {
		out[i] = string(w)
	}
	return out
}

// meant says what was probably meant.
func meant(word string, among []string) string {
	if near := source.Nearest(word, among); near != "" {
		return "did you mean " + near + "?"
	}
	if len(among) == 0 {
		return "there is none to choose from"
	}
	return "choose from " + strings.Join(among, ", ")
}
