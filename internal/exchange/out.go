package exchange

import (
	"slices"

	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// OfPattern is a pattern as parts: every piece in every size, or in those asked
// for. The boundary is the printed line, the stitching line beside it.
func OfPattern(p pattern.Pattern, sizes []string) (Style, finding.List) {
	var found finding.List
	s := Style{Title: p.Title}
	for _, label := range p.Sizes {
		if len(sizes) == 0 || slices.Contains(sizes, label) {
			s.Sizes = append(s.Sizes, label)
		}
	}
	if len(s.Sizes) > 0 {
		s.Sample = s.Sizes[len(s.Sizes)/2]
	}
	for _, name := range p.Order {
		g := p.Pieces[name]
		printed, told := pattern.Print(p.Sizes, g.In)
		found = append(found, told...)
		for k, in := range g.In {
			if !slices.Contains(s.Sizes, p.Sizes[k]) {
				continue
			}
			part := Part{
				Name: name, Title: g.Title, Size: p.Sizes[k], Place: g.Place,
				Cut: edgesOf(printed[k]), Sewn: edgesOf(in), Lines: in.Lines, Marks: in.Marks,
			}
			used(&part, p, in)
			s.Parts = append(s.Parts, part)
		}
	}
	return s, found
}

func edgesOf(p piece.Piece) []Edge {
	out := make([]Edge, len(p.Edges))
	for i, e := range p.Edges {
		out[i] = Edge{Name: e.Name, Curve: e.Curve}
	}
	return out
}

// used says how a piece is cut, from the first view that uses it.
func used(part *Part, p pattern.Pattern, in piece.Piece) {
	for _, v := range p.Views {
		for _, u := range v.Uses {
			if u.Piece != part.Name {
				continue
			}
			part.Left = u.Number
			if u.Copies == pattern.Pair {
				part.Right = u.Number
			}
			if len(u.Cloths) > 0 {
				part.Material = string(u.Cloths[0])
			}
			if e, ok := in.Edge(u.FoldEdge); ok && u.Copies == pattern.OnFold {
				part.Mirror = e.Curve
			}
			return
		}
	}
}

// OfCuts is a cut set as parts: each piece once for its cloth, left copies where
// there are two hands, with how many are cut of each hand.
func OfCuts(title, size string, cuts []finish.Cut) Style {
	s := Style{Title: title, Sizes: []string{size}, Sample: size}
	type key struct{ name, cloth string }
	at := map[key]int{}
	handed := map[string]bool{} // pieces whose hands differ
	for _, c := range cuts {
		if c.Pair == "" && c.Copy == piece.Right {
			handed[c.Piece] = true
		}
	}
	for _, c := range cuts {
		k := key{c.Piece, string(c.Cloth)}
		if handed[c.Piece] {
			k.name += "-" + string(c.Copy)
		}
		i, seen := at[k]
		if !seen {
			i = len(s.Parts)
			at[k] = i
			part := cutPart(c, size)
			part.Name = k.name
			if c.Cloth != "main" {
				part.Name += "-" + string(c.Cloth)
			}
			s.Parts = append(s.Parts, part)
		}
		if c.Copy == piece.Right && !handed[c.Piece] {
			s.Parts[i].Right++
		} else {
			s.Parts[i].Left++
			if c.Copy == piece.Left && s.Parts[i].Left == 1 && seen {
				part := cutPart(c, size) // the right copy came first: show the left
				part.Name, part.Left, part.Right = s.Parts[i].Name, s.Parts[i].Left, s.Parts[i].Right
				s.Parts[i] = part
			}
		}
	}
	return s
}

func cutPart(c finish.Cut, size string) Part {
	ring := append(geom.Curve(nil), geom.Polyline(append(slices.Clone(c.Exact), c.Exact[0])...)...)
	part := Part{
		Title: c.Title, Size: size, Cut: []Edge{{Curve: ring}}, Sewn: edgesOf(c.Sewn),
		Lines: slices.Clone(c.Sewn.Lines), Marks: c.Sewn.Marks, Material: string(c.Cloth),
	}
	for i, t := range c.Turns {
		part.Lines = append(part.Lines, piece.Line{Kind: piece.Fold, Name: numbered("turn", i, len(c.Turns)), Curve: t})
	}
	if c.OnFold {
		a, b := c.Fold[0], c.Fold[1]
		part.Mirror = geom.Polyline(geom.Pt{X: float64(a.X) / 1000, Y: float64(a.Y) / 1000}, geom.Pt{X: float64(b.X) / 1000, Y: float64(b.Y) / 1000})
	}
	return part
}
