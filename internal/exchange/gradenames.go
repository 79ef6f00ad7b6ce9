package exchange

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/finding"
	"gusset/internal/piece"
)

// edgeNames are the names of the edges: the file's, or by the side of the piece
// they lie on; the user's before both.
func (g *grader) edgeNames(name string, edges []Edge) ([]string, []bool) {
	names, own := make([]string, len(edges)), make([]bool, len(edges))
	for i, e := range edges {
		names[i], own[i] = slug(e.Name), e.Name != ""
		if e.Name == "" {
			names[i] = sideOf(e)
		}
	}
	names = distinct(names, own)
	for i, n := range names {
		if to := g.names[name+":"+n]; to != "" {
			g.used[name+":"+n] = true
			if slices.Contains(names, to) || slug(to) != to {
				g.tell(badEdge, edges[i].placeOf(), fmt.Sprintf("%s:%s cannot be called %q", name, n, to), "give it a name of small letters that no other edge of the piece has")
				continue
			}
			names[i], own[i] = to, true
		}
	}
	return names, own
}

func (e Edge) placeOf() finding.Place { return finding.Place{} }

// distinct numbers names that are there more than once; the edges of a side are
// numbered as they follow each other.
func distinct(names []string, own []bool) []string {
	count := map[string]int{}
	for _, n := range names {
		count[n]++
	}
	at := map[string]int{}
	out := make([]string, len(names))
	taken := map[string]bool{}
	for i, n := range names {
		out[i] = n
		if count[n] > 1 {
			for {
				at[n]++
				out[i] = fmt.Sprintf("%s-%d", n, at[n])
				if !taken[out[i]] && count[out[i]] == 0 {
					break
				}
			}
			own[i] = false
		}
		taken[out[i]] = true
	}
	return out
}

// sideOf is the side of the piece that an edge faces: lower, right, upper, left.
func sideOf(e Edge) string {
	v := e.Curve.End().Sub(e.Curve.Start())
	out := v.Left().Mul(-1)
	switch {
	case math.Abs(out.Y) >= math.Abs(out.X) && out.Y < 0:
		return "lower"
	case math.Abs(out.Y) >= math.Abs(out.X):
		return "upper"
	case out.X > 0:
		return "right"
	}
	return "left"
}

// foldEdge is the edge that lies along the mirror line.
func foldEdge(in Part, p piece.Piece) string {
	if len(in.Mirror) == 0 {
		return ""
	}
	a, b := in.Mirror.Start(), in.Mirror.End()
	d := b.Sub(a).Unit()
	for _, e := range p.Edges {
		near := math.Abs(d.Cross(e.Curve.Start().Sub(a))) < 0.5 && math.Abs(d.Cross(e.Curve.End().Sub(a))) < 0.5
		if near && e.Curve.Straight(0.5) && e.Curve.Length() > 0.5*a.Dist(b) {
			return e.Name
		}
	}
	return ""
}

// slug makes a name of small letters, digits and hyphens out of any text.
func slug(s string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(s) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	t := strings.Trim(b.String(), "-")
	if t == "" {
		return "piece"
	}
	if t[0] < 'a' || t[0] > 'z' {
		t = "p-" + t
	}
	return strings.TrimRight(t[:min(len(t), 60)], "-")
}
