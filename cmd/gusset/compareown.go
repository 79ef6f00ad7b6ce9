package main

import (
	"fmt"
	"os"
	"slices"
	"strings"

	"gusset/internal/compare"
	"gusset/internal/finding"
	"gusset/internal/making"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// ownBlock is a pattern of the same workroom as a version beside a docket's pieces: a
// block of one's own, traced or taken by ruler and tape. It lies on a paper of its
// own, and its girths are measured as the docket's view measures them.
func (c *compareCmd) ownBlock(like pattern.Garment) (compare.Version, finding.List, error) {
	root, _, err := workroom(c.Docket)
	if err != nil {
		return compare.Version{}, nil, err
	}
	p, found, err := making.Pattern(os.DirFS(root), c.Own)
	// A block of one size needs no chart to choose it by.
	found = slices.DeleteFunc(found, func(f finding.Finding) bool { return f.Code() == "pattern.choose" })
	if err != nil || found.Stops() > 0 {
		return compare.Version{}, found, err
	}
	label, size := strings.TrimPrefix(c.To, "size:"), 0
	switch {
	case c.To != "":
		if size = slices.Index(p.Sizes, label); size < 0 {
			return compare.Version{}, found, fmt.Errorf("pattern %s has no size %s: %s", c.Own, label, strings.Join(p.Sizes, ", "))
		}
	case len(p.Sizes) != 1:
		return compare.Version{}, found, fmt.Errorf("pattern %s has the sizes %s: say --to size:LABEL", c.Own, strings.Join(p.Sizes, ", "))
	}
	g := pattern.Garment{View: like.View, Pieces: map[string]piece.Piece{}}
	g.View.Uses = slices.Clone(like.View.Uses)
	for _, name := range sortedNames(p.Pieces) {
		g.Pieces[name] = p.Pieces[name].In[size]
		if _, known := like.Use(name); !known {
			g.View.Uses = append(g.View.Uses, pattern.Use{Piece: name})
		}
	}
	return compare.Version{Name: p.Title + ", size " + p.Sizes[size], Garment: titled(g), Elsewhere: true}, found, nil
}

func sortedNames(pieces map[string]piece.Graded) []string {
	var out []string
	for name := range pieces {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}
