package schema

import (
	"maps"

	"gusset/internal/pattern"
)

// form is a JSON Schema, or a part of one.
type form map[string]any

// required marks a key that must be there.
type required struct{ form }

// keys describes a mapping with a fixed set of keys.
func keys(fields map[string]any) form {
	properties := form{}
	need := []string{}
	for _, key := range sorted(fields) {
		switch f := fields[key].(type) {
		case required:
			properties[key] = f.form
			need = append(need, key)
		case form:
			properties[key] = f
		}
	}
	f := form{"type": "object", "properties": properties, "additionalProperties": false}
	if len(need) > 0 {
		f["required"] = need
	}
	return f
}

// named describes a mapping whose keys are names that the user chose.
func named(value form) form {
	return form{"type": "object", "propertyNames": form{"pattern": namePattern}, "additionalProperties": value}
}

func list(item form) form { return form{"type": "array", "items": item} }

func some(item form) form { return form{"type": "array", "items": item, "minItems": 1} }

// words describes one word of a set.
func words[T ~string](set []T) form {
	list := make([]string, len(set))
	for i, w := range set {
		list[i] = string(w)
	}
	return form{"enum": list}
}

func either(a, b form) form { return form{"anyOf": []form{a, b}} }

// about puts words of its own before what a form says of itself.
func about(text string, f form) form {
	out := form{}
	maps.Copy(out, f)
	if own, ok := f["description"].(string); ok {
		text += "; " + own
	}
	out["description"] = text
	return out
}

func must(f form) required { return required{f} }

// How names, lengths and shares are written.
const (
	namePattern = `^[a-z0-9][a-z0-9-]{0,63}$`
	unitPattern = `(mm|millimetres?|millimeters?|cm|centimetres?|centimeters?|m|metres?|meters?|in|inch|inches|ft|foot|feet|yds?|yards?|''|["'″′”’])`
	number      = `[+-]?[0-9½¼¾⅛⅜⅝⅞⅓⅔.,][0-9½¼¾⅛⅜⅝⅞⅓⅔.,/ -]*`
)

var (
	text   = form{"type": "string"}
	name   = form{"type": "string", "pattern": namePattern}
	label  = form{"type": "string", "description": "a size label, in quotes"}
	length = form{"type": "string", "pattern": `^\s*` + number + unitPattern + `\.?\s*$`, "description": "a number and its unit: 88.5 cm, 34 1/2 in"}
	// bare is a length in a place that has a unit of its own.
	bare  = form{"anyOf": []form{{"type": "number"}, {"type": "string", "pattern": `^\s*` + number + unitPattern + `?\.?\s*$`}}}
	share = form{"type": "string", "pattern": `^\s*` + number + `%\s*$`, "description": "a percentage: 3 %"}
	yes   = form{"enum": []any{"yes", "no", true, false}}
	step  = form{"type": "string", "pattern": pattern.StepPattern, "description": "an item, or item.operation, with @left or @right for one hand"}
	count = form{"type": "integer", "minimum": 1}
	place = form{"type": "string", "pattern": `^[a-z][a-z0-9-]*(@(left|right|single))?:/?[a-z][a-z0-9-]*(\[[a-z][a-z0-9-]*\.\.[a-z][a-z0-9-]*\])?( reversed)?$`,
		"description": "piece:edge, piece@left:edge, piece:edge[point..point], piece:/line"}
)
