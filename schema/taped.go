package schema

import (
	"gusset/internal/pattern"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

func tapedKeys() map[string]any {
	point := text
	way := map[string]any{
		"from": must(point), "to": must(point),
		"through": about("points that the curve runs through smoothly", list(point)),
		"depth": about("how far the curve lies off the straight line between its ends, at places marked on that line",
			list(keys(map[string]any{"at": must(bare), "out": bare, "in": bare}))),
	}
	with := func(more map[string]any) form {
		for k, v := range way {
			more[k] = v
		}
		return keys(more)
	}
	return map[string]any{
		"piece": must(text), "size": must(label),
		"unit":   must(about("of every bare number", words([]unit.Unit{unit.Millimetre, unit.Centimetre, unit.Inch}))),
		"line":   must(about("what the outline is", words([]string{"stitching", "cutting"}))),
		"copies": words(pattern.AllCopies), "fold-edge": text,
		"points": must(form{"type": "object", "additionalProperties": form{
			"type": "array", "items": bare, "minItems": 2, "maxItems": 2, "description": "across, along the grain"}}),
		"edges": must(about("round the piece, counter-clockwise as it is seen face up",
			list(with(map[string]any{"name": must(name), "tape": about("its length by the tape", bare)})))),
		"distances": about("from point to point, taped besides", list(keys(map[string]any{"from": must(point), "to": must(point), "tape": must(bare)}))),
		"lines":     list(with(map[string]any{"kind": must(words(piece.LineKinds)), "name": text})),
		"notches":   list(keys(map[string]any{"edge": must(text), "name": must(text), "at": must(about("along the edge, from where it begins", bare))})),
		"marks": list(keys(map[string]any{
			"name": must(text), "at": must(point), "kind": words([]piece.MarkKind{piece.Drill, piece.Button, piece.Buttonhole}),
		})),
	}
}
