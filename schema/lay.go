package schema

import (
	"gusset/internal/cloth"
	"gusset/internal/lay"
)

var layKind = kind{lay.Version, "a lay written down, by hand or kept", only(layKeys)}

func layKeys() map[string]any {
	piece := keys(map[string]any{
		"piece":     must(form{"type": "string", "pattern": `^[a-z0-9][a-z0-9-]*(@[a-z]+)?(#[0-9]{1,4})?$`, "description": "a piece to be cut, as gusset lay prints it"}),
		"section":   about("counted from 1", count),
		"along":     about("from the squared end to the top of the grain line", length),
		"across":    about("from the outer edge of the near selvedge, or from the fold, to the top of the grain line", length),
		"turned":    about("the top points to the cut end", yes),
		"face-down": yes,
		"tilt":      about("degrees off the grain, counter-clockwise", form{"type": "number", "minimum": -45, "maximum": 45}),
		"plies":     form{"enum": []any{1, 2}},
		"pinned":    about("it stays where it is", yes),
	})
	piece["dependentRequired"] = form{"along": []string{"across"}, "across": []string{"along"}, "pinned": []string{"along"}}
	section := keys(map[string]any{
		"fold": must(words(lay.Folds)), "from": length, "to": length,
		"depth": about("how far the near selvedge is folded over, from its inner border; to the other selvedge when left out", length),
	})
	return map[string]any{
		"docket": must(name), "cloth": must(name), "for": must(words(cloth.Roles)),
		"digest":   about("of what a kept lay was made from", text),
		"sections": must(some(section)), "pieces": must(list(piece)),
	}
}
