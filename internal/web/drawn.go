package web

import (
	"html/template"
	"sync"

	"gusset/internal/draw"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/making"
	"gusset/internal/sheet"
	"gusset/internal/unit"
)

// kept holds things that are made for the pages, each once for all who ask: by
// what names it, the last ones, and what they were made from. One before the last
// is kept for those whose page is of what was before.
type kept struct {
	lock sync.Mutex
	of   map[string][]keptOne
}

type keptOne struct {
	from  string
	value func() any
}

// mostOf is how many are kept of each.
const mostOf = 2

// once makes something once for all who ask at the same time or later for what is
// made from the same.
func once[T any](k *kept, what, from string, do func() T) T {
	return k.one(what, from, func() any { return do() }).value().(T)
}

func (k *kept) one(what, from string, do func() any) keptOne {
	k.lock.Lock()
	defer k.lock.Unlock()
	list := k.of[what]
	for _, one := range list {
		if one.from == from {
			return one
		}
	}
	one := keptOne{from, sync.OnceValue(do)}
	if k.of == nil {
		k.of = map[string][]keptOne{}
	}
	k.of[what] = append([]keptOne{one}, list[:min(len(list), mostOf-1)]...)
	return one
}

// forget has something made anew when it is next asked for.
func (k *kept) forget(what string) {
	k.lock.Lock()
	defer k.lock.Unlock()
	delete(k.of, what)
}

// drawnSheets are the sheets of a make as they were last asked for.
type drawnSheets struct {
	of    string // what they were drawn from
	files map[string][]byte
	found finding.List
}

// sheets draws the sheets of what is made on some paper, once.
func (t *table) sheets(m made, paper draw.Paper) (map[string][]byte, finding.List, error) {
	of := m.key + m.full.Digest + paper.Name
	t.lock.Lock()
	kept := t.drawn
	t.lock.Unlock()
	if kept.of == of {
		return kept.files, kept.found, nil
	}
	files, found, err := making.Sheets(m.in, m.full, paper)
	if err != nil {
		return nil, nil, err
	}
	t.lock.Lock()
	t.drawn = drawnSheets{of, files, found}
	t.lock.Unlock()
	return files, found, nil
}

// layDrawing, benchDrawing and stepDrawings are the drawings of what is made behind
// the page: a lay, a lay to be moved by hand, and the picture of each step.
func (t *table) layDrawing(r making.Result, l lay.Lay, u unit.Unit) template.HTML {
	return once(&t.shown, "lay "+string(l.Role)+" "+string(u), r.Digest, func() template.HTML { return svg(sheet.LayPicture(l, u)) })
}

func (t *table) benchDrawing(r making.Result, l lay.Lay) template.HTML {
	return once(&t.shown, "bench "+string(l.Role), r.Digest, func() template.HTML { return svg(sheet.LayBench(l)) })
}

func (t *table) stepDrawings(in making.Inputs, r making.Result) []template.HTML {
	return once(&t.shown, "steps", r.DigestOf(making.Order), func() []template.HTML {
		var out []template.HTML
		for _, p := range sheet.StepPictures(making.WorkOf(in, r)) {
			d := template.HTML("")
			if p != nil {
				d = svg(*p)
			}
			out = append(out, d)
		}
		return out
	})
}

// drawAhead draws what pages are about to show, so that they need not wait.
func (t *table) drawAhead(in making.Inputs, r making.Result) {
	for _, l := range r.Lays {
		if len(l.Placed) > 0 {
			t.layDrawing(r, l, in.Docket.Unit)
			t.benchDrawing(r, l)
		}
	}
	t.stepDrawings(in, r)
}
