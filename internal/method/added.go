package method

import (
	"slices"

	"gusset/internal/cloth"
	"gusset/internal/source"
)

// Shape says how a piece that a method adds is drawn.
type Shape string

// The shapes.
const (
	// Facing has the shape of the garment beside its edge, so deep.
	Facing Shape = "facing"
	// Strip is straight, as long as the edge and so wide.
	Strip Shape = "strip"
	// Tab is a straight small part with one caught end.
	Tab Shape = "tab"
)

// Shapes lists every shape.
var Shapes = []Shape{Facing, Strip, Tab}

// Grain says how the warp lies in an added piece.
type Grain string

// The grains. A facing always has the grain of what it faces.
const (
	AlongGrain Grain = "along"  // the warp runs along its length
	CrossGrain Grain = "across" // the warp runs across it
	BiasGrain  Grain = "bias"   // at 45°
)

// Grains lists every grain.
var Grains = []Grain{AlongGrain, CrossGrain, BiasGrain}

// Added is a piece that a method cuts besides those of the pattern, sewn to the
// edges that the item takes.
type Added struct {
	ID    string // the piece is called ITEM-ID
	Title string
	Shape Shape
	// Width lists the values that add up to its width or depth, Length to the
	// length of a tab.
	Width, Length []string
	Grain         Grain
	Cloth         cloth.Role
	Interfaced    bool
	Hidden        bool
	// Methods by which it is made up: Ends joins it where two of it, or its own
	// two ends, meet; Free finishes the edges that nothing is sewn to, Open the
	// ends of one that does not close to a ring.
	Ends, Free, Open string
}

// usualEnds joins the ends of added pieces unless the method says otherwise: a
// seam pressed open lies flattest (common practice).
const usualEnds = "plain-open"

// instead reads the families besides its own for which a method may stand in.
func (r reader) instead() []string {
	if !r.m.Has("instead-of") {
		return nil
	}
	var out []string
	for _, n := range r.m.Items("instead-of") {
		if s := r.id(n); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// pieces reads what the method cuts besides the pattern's pieces.
func (r reader) pieces(v Method) []Added {
	if !r.m.Has("pieces") {
		return nil
	}
	if v.Takes != Join && v.Takes != Part {
		r.add(piecesElsewhere.At(r.m.Key("pieces").Place(), v.Takes))
	}
	var list []Added
	for _, n := range r.m.Items("pieces") {
		if !n.IsMapping() {
			n.Reader(r.out)
			continue
		}
		if a, ok := r.added(n, v); ok {
			list = append(list, a)
		}
	}
	if len(list) > 1 {
		r.add(pieceOnce.At(r.m.Key("pieces").Place(), len(list)))
	}
	return list
}

func (r reader) added(n source.Node, v Method) (Added, bool) {
	before := len(*r.out)
	m := n.Reader(r.out)
	need := m.Required()
	a := Added{
		ID: r.id(need.Key("id")), Shape: Shape(need.Word("shape", words(Shapes)...)),
		Width: r.names(need.Key("width"), v),
		Grain: Grain(m.WordOr("grain", string(AlongGrain), words(Grains)...)),
		Cloth: cloth.Role(m.WordOr("cloth", string(cloth.Main), words(cutRoles())...)),
		Ends:  m.StringOr("ends", usualEnds), Free: need.String("free"), Open: m.String("open"),
		Interfaced: m.Yes("interfaced"), Hidden: m.Yes("hidden"),
	}
	a.Title = m.StringOr("title", a.ID)
	if m.Has("length") {
		a.Length = r.names(m.Key("length"), v)
	}
	m.Done()
	if (a.Shape == Tab) != (v.Takes == Part) && a.Shape != "" {
		r.add(shapeElsewhere.At(n.Place(), a.Shape, v.Takes))
	}
	if (a.Shape == Tab) != (len(a.Length) > 0) && a.Shape != "" {
		r.add(tabLength.At(n.Place(), a.Shape))
	}
	if a.Open == "" {
		a.Open = a.Free
	}
	return a, len(*r.out) == before
}

// cutRoles are the cloths that a piece is cut from by itself.
func cutRoles() []cloth.Role {
	return slices.DeleteFunc(slices.Clone(cloth.Roles), func(c cloth.Role) bool { return c == cloth.Interfacing })
}

// StandsFor reports whether the method may be chosen where another is named:
// for one of its own family, or of those it stands in for.
func (m Method) StandsFor(other Method) bool {
	return m.Family == other.Family && m.Takes == other.Takes || slices.Contains(m.InsteadOf, other.Family)
}
