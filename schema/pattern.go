package schema

import (
	"gusset/internal/body"
	"gusset/internal/cloth"
	"gusset/internal/pattern"
)

func patternKeys() map[string]any {
	chart := func() form {
		rows := measures(some(either(bare, about("no value printed", form{"type": "null"}))))
		rows["unit"] = must(words(chartUnits))
		return keys(rows)
	}
	return map[string]any{
		"sizes":   must(some(label)),
		"choose":  must(about("the measure that the size is chosen by", words(body.Measures()))),
		"chart":   about("body measures, one value for each size", chart()),
		"zones":   list(keys(map[string]any{"zone": must(name), "measure": words(body.Measures())})),
		"printed": must(printed()),
		"pieces": must(named(keys(map[string]any{
			"title": text, "file": form{"type": "string", "pattern": `^[A-Za-z0-9][A-Za-z0-9_-]{0,63}\.svg$`},
			"edges": named(printed()),
		}))),
		"finished": about("finished measures, where the paper prints them", chart()),
		"views":    must(named(view())),
	}
}

// printed says what the printed line of an edge is.
func printed() form {
	return either(
		keys(map[string]any{"line": must(words([]string{"cutting"})), "allowance": must(length)}),
		keys(map[string]any{"line": must(words([]string{"stitching", "fold"}))}),
	)
}

func view() form {
	places := list(place)
	use := keys(map[string]any{
		"piece": must(name), "copies": must(words(pattern.AllCopies)), "number": about("how many times over", count),
		"fold-edge": about("the edge that lies on the fold, for copies: fold", text),
		"folded":    about("it stays folded on that edge when made up", yes), "hidden": about("it does not show, and may lie off the grain where that is permitted", yes), "cloth": must(list(words(cloth.Roles))),
	})
	join := keys(map[string]any{
		"title": text, "method": must(text), "values": named(length), "notches": about("met on the way, by name", list(text)),
		"ease":         about("how much longer each further side is than the first", list(bare)),
		"ease-between": about("the two of its notches between which the ease is worked in, as over a sleeve's head; else it is shared all along", list(text)),
		"intake":       about("of a pleat: the edges between its two lines, folded in and joined to nothing; a dart needs none", places),
		"sew":          must(form{"type": "array", "minItems": 2, "items": either(place, some(place))}),
	})
	finish := keys(map[string]any{"title": text, "edges": must(places), "method": must(text), "values": named(length)})
	closure := keys(map[string]any{
		"title": text, "method": must(text), "joins": about("the joins and finishes that it is worked on", list(text)),
		"along": about("the line that the fastening lies on", places), "values": named(length),
	})
	part := keys(map[string]any{"title": text, "method": must(text), "piece": must(text), "count": about("how many are made", count),
		"along": about("what its stitching runs along; its longest edge when not said", places),
		"joins": about("the joins that catch it", list(text)), "values": named(length)})
	girth := keys(map[string]any{"pieces": about("widths at their level lines", places), "edges": about("lengths of edges", places), "less": about("an overlap", length)})
	return keys(map[string]any{
		"title": text, "pieces": must(list(use)), "joins": named(join), "finishes": named(finish),
		"closures": named(closure), "parts": named(part), "fittings": named(fitting()), "girths": named(girth), "match": matches(),
		"printed-order": list(step),
	})
}

// matches are the places of joins where stripes meet.
func matches() form {
	return list(keys(map[string]any{
		"join": must(text), "at": must(about("a notch, start, middle, end, or how far along the join: 12 cm", text)),
		"repeat": about("which repeat of the cloth meets there; both when not said", words(pattern.RepeatWords)),
	}))
}

// fitting is a trying-on of seams.
func fitting() form {
	return keys(map[string]any{
		"title": text, "method": must(about("a method that takes a fitting: basted-fitting, toile", text)),
		"joins": about("the joins that it may alter: they are basted, tried, and sewn only afterwards", list(text)),
	})
}
