package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/docket"
	"gusset/internal/exchange"
	"gusset/internal/machine"
	"gusset/internal/method"
	"gusset/internal/order"
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// kind is one kind of file: its version, what it is, and its keys.
type kind struct {
	version int
	title   string
	fields  func() []map[string]any // more than one where the keys depend on a word
}

var kinds = map[string]kind{
	"lay":     layKind,
	"body":    {body.Version, "a person's measurements", only(bodyKeys)},
	"cloth":   {cloth.Version, "a length of cloth", only(clothKeys)},
	"machine": {machine.Version, "a place of work", only(machineKeys)},
	"method":  {method.Version, "a way of making something", methodKeys},
	"pattern": {pattern.Version, "a printed multi-size pattern", only(patternKeys)},
	"docket":  {docket.Version, "what one make should be", only(docketKeys)},
	"taped":   {exchange.TapedVersion, "a piece measured with ruler and tape", only(tapedKeys)},
	"order":   {order.Version, "an order of work, to be judged", only(orderKeys)},
}

// Kinds lists the kinds of files in the order of the alphabet.
func Kinds() []string { return sorted(kinds) }

// Of gives the schema of a kind of file as JSON; an error for a kind that is
// none.
func Of(name string) ([]byte, error) {
	k, ok := kinds[name]
	if !ok {
		return nil, fmt.Errorf("there is no kind of file called %q", name)
	}
	f := k.form(name)
	f["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	f["title"] = "Gusset " + name + ": " + k.title
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(f); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// only is the list of one set of keys.
func only(fields func() map[string]any) func() []map[string]any {
	return func() []map[string]any { return []map[string]any{fields()} }
}

func (k kind) form(name string) form {
	var forms []form
	for _, fields := range k.fields() {
		fields["gusset"] = must(form{"const": fmt.Sprintf("%s/%d", name, k.version)})
		fields["title"] = text
		forms = append(forms, keys(fields))
	}
	if len(forms) == 1 {
		return forms[0]
	}
	return form{"anyOf": forms}
}

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// measures are rows by body measure.
func measures(value form) map[string]any {
	fields := map[string]any{}
	for _, m := range body.Measures() {
		fields[string(m)] = value
	}
	return fields
}

func bodyKeys() map[string]any {
	return map[string]any{
		"waist-at": about("where the waist was measured: where a belt settles, or between lowest rib and hip bone", words(body.WaistKinds)),
		"child":    about("a child is not held against figures of adults", yes),
		"against":  about("the figures that the measures are held against; both when left out", words(body.AgainstWords)),
		"checked":  about("measures that were taken again and are right, however unlikely", list(words(body.Measures()))),
		"measures": must(keys(measures(either(length, about("readings of one measure", some(length)))))),
	}
}

func clothKeys() map[string]any {
	return map[string]any{
		"width": must(length), "selvedge": about("at each edge, not used", length), "length": must(length),
		"direction": must(words(cloth.Directions)), "thickness": must(about("of one ply, lightly pressed", length)),
		"weight": about("in g/m²", form{"type": "number"}), "washed": yes, "frays": yes,
		"shrink": keys(map[string]any{"warp": share, "weft": share}),
		"repeat": about("of stripes or bars, from the middle of one to the middle of the next of its kind", repeat()),
		"flaws": list(keys(map[string]any{
			"from-end": must(length), "from-selvedge": must(length), "size": must(about("across it, at its widest", length)), "note": text,
		})),
		"outline": about("of an odd remnant, corner by corner", list(keys(map[string]any{"from-end": must(length), "from-selvedge": must(length)}))),
	}
}

// repeat is along the cloth, across it, or both.
func repeat() form {
	f := keys(map[string]any{
		"along": length, "across": length, "even": must(yes),
		"bar": about("from the outer edge of the near selvedge to the middle of a main bar that runs along the cloth", length),
	})
	f["anyOf"] = []form{{"required": []string{"along"}}, {"required": []string{"across"}}}
	return f
}

func machineKeys() map[string]any {
	timed := map[string]any{}
	for _, what := range machine.AllMinutes {
		timed[string(what)] = form{"type": "number", "minimum": 0}
	}
	return map[string]any{
		"minutes":       about("what was timed here, in minutes; the rest is guessed", keys(timed)),
		"kind":          must(words(machine.Kinds)),
		"stitches":      list(about("a number of ISO 4915, in quotes", form{"type": "string", "pattern": "^[1-6][0-9]{2}$"})),
		"arm-girth":     about("a tape round the free arm where it is thickest, the flat bed taken off", length),
		"arm-length":    about("from the end of the free arm to where it gets thicker", length),
		"throat":        about("from the needle to the pillar", length),
		"throat-height": about("from the bed to the arm above, halfway between needle and pillar", length),
		"foot-lift":     about("the thickest stack that passes under the raised foot", length),
	}
}

// methodKeys differ by what the method is for: in the sides that get an
// allowance, and in what only a finish, a join or a closure has.
func methodKeys() []map[string]any {
	finish := methodOf([]method.Takes{method.Finish}, method.FinishSides)
	finish["folds"] = list(about("a value: the depth of one turn, from the finished line outwards", name))
	join := methodOf([]method.Takes{method.Join}, method.JoinSides)
	join["intake"] = about("the cloth between two lines of one piece is folded in", words(method.Intakes))
	join["flat"] = about("a join that closes to a ring is sewn before the seams that close it", yes)
	join["pieces"] = added([]method.Shape{method.Facing, method.Strip}, nil)
	closure := methodOf([]method.Takes{method.Closure}, method.JoinSides)
	closure["repeat"] = keys(map[string]any{"first": name, "last": name, "spacing": must(name)})
	closure["shut"] = about("there is no opening: the seam below it runs on to its end", yes)
	closure["over"] = about("with shut: what the body measures where the garment must pass when it is put on", words(body.Measures()))
	part := methodOf([]method.Takes{method.Part}, method.JoinSides)
	part["pieces"] = added([]method.Shape{method.Tab}, map[string]any{"length": must(list(about("values that add up to its length", name)))})
	others := methodOf([]method.Takes{method.Piece, method.Fitting}, method.JoinSides)
	return []map[string]any{finish, join, closure, part, others}
}

func methodOf(takes []method.Takes, edges []string) map[string]any {
	sides := map[string]any{}
	for _, s := range edges {
		sides[s] = list(name)
	}
	operation := keys(map[string]any{
		"id": must(name), "do": must(about("one action, or a list of them", either(text, list(text)))), "machine": must(words(machine.Kinds)),
		"stitch": form{"type": "string", "pattern": "^[1-6][0-9]{2}$"}, "length": length,
		"thread": words(method.Threads), "foot": text, "needle": text, "rows": count,
		"on": words(method.OnWords), "at": about("the end at which it is done where it does not run along the line", words(method.AtWords)), "after": list(name), "why": text, "together": yes, "closes": yes,
		"run": about("values that add up to a stitching length of its own", list(name)), "times": count, "each": yes,
		"needs": list(name), "makes": list(name), "first": yes,
		"caution": about("a sentence, or a short word for a usual one: "+strings.Join(method.CautionWords(), ", "), text),
	})
	notion := keys(map[string]any{
		"kind": must(text), "title": text, "count": count, "each": yes,
		"length-of": words(method.LengthWords), "share": share, "extra": length,
	})
	return map[string]any{
		"takes": must(words(takes)), "family": about("methods of one family may stand in for each other", name),
		"instead-of": about("other families for which it may stand in; what it has no use for is then not cut", list(name)),
		"seam":       about("a number of ISO 4916, in quotes", form{"type": "string", "pattern": `^[1-8]\.[0-9]{2}\.[0-9]{2}$`}),
		"values":     named(length), "allowance": keys(sides),
		"outside": yes, "corner": words(method.Corners),
		"operations": list(operation), "notions": list(notion),
	}
}

// added is what a method cuts besides the pattern's pieces.
func added(shapes []method.Shape, more map[string]any) form {
	fields := map[string]any{
		"id": must(name), "title": text, "shape": must(words(shapes)),
		"width":  must(list(about("values that add up to its width, or to the depth of a facing", name))),
		"grain":  about("how the warp lies in a strip or tab; a facing has the grain of what it faces", words(method.Grains)),
		"cloth":  words(docket.CutRoles()),
		"ends":   about("the method of the seams where two of it, or its own ends, meet", text),
		"free":   must(about("the method of its free edge", text)),
		"open":   about("the method of ends that meet nothing; that of the free edge when not said", text),
		"hidden": yes, "interfaced": yes,
	}
	maps.Copy(fields, more)
	return list(keys(fields))
}

func docketKeys() map[string]any {
	roles := map[string]any{}
	for _, r := range cloth.Roles {
		roles[string(r)] = name
	}
	edge := form{"type": "string", "pattern": `^[a-z0-9][a-z0-9-]*:[a-z0-9][a-z0-9-]*$`}
	spot := keys(map[string]any{
		"edge": must(edge), "at": must(about("a notch, a corner, a level, middle, or a distance", either(text, length))), "from": about("the edge from whose corner the distance runs", name),
	})
	changes := map[string]any{
		"id":                     must(name),
		string(docket.Lengthen):  keys(map[string]any{"at": must(text), "by": must(length)}),
		string(docket.HemGirth):  keys(map[string]any{"edge": text, "to": must(length), "from": must(text)}),
		string(docket.MoveHem):   keys(map[string]any{"edge": text, "by": must(length)}),
		string(docket.SetFinish): keys(map[string]any{"item": must(text), "method": name, "values": named(length)}),
		string(docket.CutFrom):   keys(map[string]any{"piece": must(name), "cloth": must(words(docket.CutRoles()))}),
		string(docket.Divide): keys(map[string]any{
			"piece": must(name), "at": must(about("from the foot of its grain, or from the left where it is wider than long", length)), "method": name,
		}),
		string(docket.SlantPocket): keys(map[string]any{
			"side": must(about("the edge that its mouth ends on; it begins on the edge that follows, at the top", edge)),
			"in":   must(about("from the corner along the top", length)), "down": must(about("from the corner down the side", length)),
			"wide": must(about("how far the bag reaches along the top", length)), "deep": must(about("and down the side", length)),
			"bag": words(docket.CutRoles()), "instead-of": about("a pocket that gives way to it", name), "method": name,
		}),
		string(docket.TakeIn):       keys(map[string]any{"seam": must(name), "by": must(about("for each edge of the seam", length)), "at": must(text), "from": text, "to": text}),
		string(docket.CrotchDepth):  keys(map[string]any{"at": text, "by": must(length)}),
		string(docket.CrotchLength): keys(map[string]any{"seam": must(name), "by": must(length), "to": text}),
		string(docket.FullSeat):     keys(map[string]any{"seam": must(name), "by": must(length), "at": must(text)}),
		string(docket.HollowBack):   keys(map[string]any{"seam": must(name), "by": must(length), "at": must(text)}),
		string(docket.RaiseEdge):    keys(map[string]any{"edge": must(text), "by": must(length)}),
		string(docket.Straighten):   keys(map[string]any{"edge": text, "from": must(text), "to": length}),
		string(docket.CopyEdge):     keys(map[string]any{"edge": must(edge), "from": must(edge)}),
		string(docket.PivotDart):    keys(map[string]any{"dart": must(name), "to": must(spot)}),
		string(docket.MoveDart):     keys(map[string]any{"dart": must(name), "by": must(length), "towards": must(name)}),
		string(docket.DartLength):   keys(map[string]any{"dart": must(name), "by": must(length)}),
		string(docket.DivideDart):   keys(map[string]any{"dart": must(name), "to": must(spot), "share": share}),
		string(docket.MergeDarts):   keys(map[string]any{"keep": must(name), "close": must(name)}),
		string(docket.GatherDart):   keys(map[string]any{"dart": must(name), "method": name}),
		string(docket.Spread):       keys(map[string]any{"open": must(spot), "hinge": must(spot), "by": must(length), "even": yes, "gather": yes}),
		string(docket.AddPleat):     keys(map[string]any{"from": must(spot), "to": must(spot), "depth": must(length), "stitched": length, "method": name}),
		string(docket.SetAllowance): keys(map[string]any{"edge": must(edge), "to": must(length)}),
		string(docket.FoldToSeam):   keys(map[string]any{"piece": must(name), "allowance": length, "method": name}),
		string(docket.SeamToFold):   keys(map[string]any{"piece": must(name)}),
		string(docket.Settle):       keys(map[string]any{"seam": must(name), "how": must(words(docket.Hows))}),
		string(docket.RunOn):        keys(map[string]any{"across": must(name), "reach": length}),
		string(docket.SmoothEdge):   keys(map[string]any{"edge": must(edge)}),
		string(docket.JoinPieces):   keys(map[string]any{"seam": must(name)}),
	}
	maps.Copy(changes, topChanges())
	colours := map[string]any{}
	for _, s := range docket.Spools {
		colours[s] = text
	}
	change := keys(changes)
	change["minProperties"], change["maxProperties"] = 2, 2 // its id and one change
	pin := keys(map[string]any{"step": must(step), "first": yes, "last": yes, "before": step})
	pin["minProperties"], pin["maxProperties"] = 2, 2 // the step and where it goes
	return map[string]any{
		"body": must(name), "pattern": must(name), "view": must(name),
		"cloths": must(keys(roles)), "methods": named(name),
		"size":    either(label, form{"type": "object", "additionalProperties": label}),
		"changes": list(change), "after": about("the docket of the make that this one follows", name),
		"notes": list(keys(map[string]any{
			"id": must(name), "at": must(spot), "feels": must(words(docket.Feels)),
			"by": must(about("measured flat at the place, both sides of the seam together", length)), "text": text,
		})),
		"order": keys(map[string]any{"pins": list(pin)}), "match": matches(), "table": length, "fold": words(docket.Folds),
		"off-grain": keys(map[string]any{
			"up-to":  must(about("degrees that small hidden pieces may lie off the grain", form{"type": "number", "minimum": 0, "maximum": 45})),
			"pieces": list(name),
		}),
		"roll": length, "unit": words(docket.Units),
		"button":   keys(map[string]any{"diameter": must(length), "thickness": must(length)}),
		"threads":  about("the colour of each thread", keys(colours)),
		"fittings": about("fittings besides the pattern's own: seams tried on the body, or a toile, before they are sewn for good", named(fitting())),
	}
}

// topChanges are the changes of tops.
func topChanges() map[string]any {
	shoulder := func() form {
		return keys(map[string]any{
			"by": must(length), "seam": about("the shoulder seam; shoulder when left out", text), "armhole": about("the armhole seam; armhole when left out", text),
		})
	}
	return map[string]any{
		string(docket.ShoulderSlope): shoulder(),
		string(docket.ShoulderWidth): shoulder(),
		string(docket.RoundBack): keys(map[string]any{
			"by": must(length), "at": about("a level across the shoulder blades; blade when left out", text), "armhole": text,
		}),
		string(docket.UpperArm): keys(map[string]any{"by": must(about("round the arm", length)), "at": text}),
		string(docket.FullBust): keys(map[string]any{
			"by": must(about("on each front", length)), "apex": about("the mark of the bust point; apex when left out", text), "armhole": text, "side": text,
			"dart": about("from the armhole down the side to the dart; 6 cm when left out", length), "method": name,
		}),
		string(docket.ArmholeDepth): shoulder(),
		string(docket.AddPocket): keys(map[string]any{
			"piece": must(name), "from": must(about("the edge it lies in from", form{"type": "string", "pattern": `^[a-z0-9][a-z0-9-]*:[a-z0-9][a-z0-9-]*$`})),
			"in": must(length), "level": must(text), "below": must(length), "wide": must(length), "deep": must(length),
			"hand": words([]piece.Copy{piece.Left, piece.Right}), "method": name,
		}),
		string(docket.Face): keys(map[string]any{
			"finish": must(about("the hem or other finish that the facings take the place of", name)), "width": must(length), "method": name,
		}),
		string(docket.Overlap): keys(map[string]any{"by": must(length), "edge": about("the front edge; edge when left out", text)}),
		string(docket.Shrinkage): keys(map[string]any{
			"warp": must(share), "weft": must(share), "cloth": words(cloth.Roles),
		}),
	}
}

func orderKeys() map[string]any {
	return map[string]any{"steps": must(some(step))}
}

// chartUnits are the units in which a chart may be printed.
var chartUnits = []unit.Unit{unit.Inch, unit.Centimetre, unit.Millimetre}
