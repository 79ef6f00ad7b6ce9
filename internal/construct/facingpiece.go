package construct

import (
	"fmt"
	"slices"

	"gusset/internal/geom"
	"gusset/internal/pattern"
	"gusset/internal/piece"
)

// stint is the edges of one copy in a run that follow each other round its
// outline: one facing is cut to them.
type stint struct {
	chain []Stretch
	name  string // of the facing
}

// drawFacings cuts a facing to every piece of a run, and sews them together
// where the pieces are.
func (o *outfitter) drawFacings(s spec, r run) ([]piece.Ref, bool) {
	stints := stintsOf(r.chain)
	named := map[string]string{} // by the piece faced and its first edge
	for i, t := range stints {
		key := t.chain[0].Piece + ":" + t.chain[0].Edge
		name, drawn := named[key]
		if !drawn {
			var ok bool
			if name, ok = o.drawFacing(s, t); !ok {
				return nil, false
			}
			named[key] = name
		}
		stints[i].name = name
	}
	o.joinFacings(s, r, stints)
	var side []piece.Ref
	for _, t := range stints {
		for _, st := range t.chain {
			ref := piece.Ref{Piece: t.name, Edge: st.Edge, Copy: st.Copy}
			if r.each || st.Copy == piece.Single {
				ref.Copy = piece.Both
			}
			side = append(side, ref)
		}
	}
	return side, true
}

// stintsOf divides a chain by copies.
func stintsOf(chain []Stretch) []stint {
	var out []stint
	for _, s := range chain {
		n := len(out)
		if n > 0 && sameCopy(s, out[n-1].chain) {
			out[n-1].chain = append(out[n-1].chain, s)
			continue
		}
		out = append(out, stint{chain: []Stretch{s}})
	}
	return out
}

// drawFacing cuts one facing, on both hands where they differ, and finishes its
// free edge.
func (o *outfitter) drawFacing(s spec, t stint) (string, bool) {
	parent := t.chain[0].Piece
	u, _ := o.g.Use(parent)
	name := o.name(s.item + "-" + s.ID + "-" + parent)
	var edges []string
	for _, st := range t.chain {
		edges = append(edges, st.Edge)
	}
	fold := ""
	for _, hand := range []piece.Copy{piece.Left, piece.Right} {
		if _, own := o.g.Pieces[parent+"@"+string(hand)]; hand == piece.Right && !own {
			continue
		}
		of, ok := o.g.Copy(parent, hand)
		if !ok {
			return "", false
		}
		cut := slices.Clone(edges)
		if len(cut) > 1 && of.Before(of.Index(cut[1])).Name != cut[0] {
			slices.Reverse(cut) // the other hand's outline runs the other way
		}
		p, err := facingOf(of, cut, s.width)
		if pleat := o.pleatBeside(of, cut); pleat != "" {
			err = acrossIntake(cut[0], pleat, of.Name)
		}
		if err != nil {
			o.refuse(s, err.Error())
			return "", false
		}
		p.Name, p.Title = name, s.title+" ("+lower(o.title(parent))+")"
		if _, there := p.Edge(u.FoldEdge); there && u.Copies == pattern.OnFold {
			fold = u.FoldEdge
		}
		if hand == piece.Right {
			o.g.Pieces[name+"@"+string(hand)] = p
			continue
		}
		copies := u.Copies
		if fold == "" && copies == pattern.OnFold {
			copies = pattern.Pair
		}
		o.use(s, p, copies, 1, fold)
	}
	o.finish(s, "free-"+parent, "free edge of the "+lower(s.title), s.Free, piece.Ref{Piece: name, Edge: facingFree})
	return name, true
}

func acrossIntake(edge, next, of string) error {
	return fmt.Errorf("between %s and %s of %s lies something else, a dart or a pleat: draw the facing with it closed", edge, next, of)
}

// pleatBeside is the edge of a pleat that lies at an end of some edges, empty for
// none: they go on beyond it once it is folded.
func (o *outfitter) pleatBeside(p piece.Piece, edges []string) string {
	before, after := p.Before(p.Index(edges[0])).Name, p.After(p.Index(edges[len(edges)-1])).Name
	for _, j := range o.g.View.Joins {
		for _, r := range j.Intake {
			if r.Piece == p.Name && (r.Edge == before || r.Edge == after) {
				return r.Edge
			}
		}
	}
	return ""
}

// facingOf is the part of a piece that lies within depth of its edges, which
// follow each other, turned over: the facing is sewn to them right side on right
// side and turned to the inside.
func facingOf(p piece.Piece, edges []string, depth float64) (piece.Piece, error) {
	var outer geom.Curve
	first, last := p.Index(edges[0]), p.Index(edges[len(edges)-1])
	for k, e := range edges {
		i := p.Index(e)
		if k > 0 && p.Before(i).Name != edges[k-1] {
			return piece.Piece{}, acrossIntake(edges[k-1], e, p.Name)
		}
		outer = append(outer, p.Edges[i].Curve...)
	}
	inner, err := outer.Parallel(depth)
	if err != nil {
		return piece.Piece{}, fmt.Errorf("%s of %s bends too sharply for so deep a facing", edges[0], p.Name)
	}
	before, after := p.Before(first), p.After(last)
	inner = inner.Extend(reachOut*depth, reachOut*depth)
	from, to := geom.Crossings(before.Curve, inner), geom.Crossings(after.Curve, inner)
	if len(from) == 0 || len(to) == 0 {
		return piece.Piece{}, fmt.Errorf("%s or %s of %s is shorter than the facing is deep", before.Name, after.Name, p.Name)
	}
	a, b := from[len(from)-1], to[0]
	out := piece.Piece{}
	for _, e := range edges {
		x, _ := p.Edge(e)
		out.Edges = append(out.Edges, piece.Edge{Name: e, Curve: x.Curve})
	}
	out.Edges = append(out.Edges,
		piece.Edge{Name: after.Name, Curve: after.Curve.Between(0, b.A)},
		piece.Edge{Name: facingFree, Curve: inner.Between(a.B, b.B).Reverse()},
		piece.Edge{Name: before.Name, Curve: before.Curve.Between(a.A, before.Curve.Length())})
	for _, m := range p.Marks {
		if m.Kind == piece.Notch && slices.Contains(edges, m.Edge) {
			out.Marks = append(out.Marks, m)
		}
	}
	out.Lines = []piece.Line{grainIn(out, p)}
	out = out.Mirror()
	if _, _, _, crosses := geom.SelfCrossing(out.Outline(0.05)); crosses {
		return piece.Piece{}, fmt.Errorf("its outline would cross itself on %s", p.Name)
	}
	return out, nil
}

// reachOut is how far the free edge is carried on beyond the piece to find the
// neighbouring edges, as a multiple of the depth.
const reachOut = 3

// grainIn draws a grain line like the parent's in the middle of a piece.
func grainIn(p, parent piece.Piece) piece.Line {
	up := geom.Pt{Y: 1}
	if l, ok := parent.Line(piece.Grain, ""); ok && len(l.Curve) > 0 {
		up = l.Curve.End().Sub(l.Curve.Start()).Unit()
	}
	lo, hi := geom.BoundsOf(p.Outline(0.1))
	mid, half := lo.Lerp(hi, 0.5), max(hi.Y-lo.Y, 20)/4
	return piece.Line{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(mid.Sub(up.Mul(half)), mid.Add(up.Mul(half)))}
}

// joinFacings sews facings to each other where the pieces they face are sewn.
func (o *outfitter) joinFacings(s spec, r run, stints []stint) {
	n := len(stints)
	done := map[string]bool{}
	for i := range n {
		if i == n-1 && !r.ring {
			break
		}
		x, y := stints[i], stints[(i+1)%n]
		ox, _ := o.g.Copy(x.chain[0].Piece, x.chain[0].Copy)
		oy, _ := o.g.Copy(y.chain[0].Piece, y.chain[0].Copy)
		end := ox.After(ox.Index(x.chain[len(x.chain)-1].Edge)).Name
		begin := oy.Before(oy.Index(y.chain[0].Edge)).Name
		a := piece.Ref{Piece: x.name, Edge: end, Copy: x.chain[0].Copy}
		b := piece.Ref{Piece: y.name, Edge: begin, Copy: y.chain[0].Copy}
		o.joinFacing(s, r, a, b, done)
	}
	o.openEnds(s, r, stints)
}

func (o *outfitter) joinFacing(s spec, r run, a, b piece.Ref, done map[string]bool) {
	u, _ := o.g.Use(a.Piece)
	if a.Piece == b.Piece && a.Edge == b.Edge && u.Copies == pattern.OnFold && a.Edge == u.FoldEdge {
		return // its two halves are one piece
	}
	each := a.Copy == b.Copy && a.Copy != piece.Single
	if each || r.each {
		a.Copy, b.Copy, each = piece.Both, piece.Both, true
	}
	key := a.String() + " " + b.String()
	if done[key] || done[b.String()+" "+a.String()] {
		return
	}
	done[key] = true
	o.g.View.Joins = append(o.g.View.Joins, pattern.Join{
		ID: o.freeID(s.item + "-" + a.Edge), Title: lower(a.Edge) + " of the " + lower(s.title), Each: each, Method: s.Ends, Place: s.place,
		Sides: [][]piece.Ref{{a}, {b}},
	})
}

// openEnds finishes the ends of facings that do not close to a ring.
func (o *outfitter) openEnds(s spec, r run, stints []stint) {
	if r.ring {
		return
	}
	first, last := stints[0], stints[len(stints)-1]
	of, _ := o.g.Copy(first.chain[0].Piece, first.chain[0].Copy)
	ol, _ := o.g.Copy(last.chain[0].Piece, last.chain[0].Copy)
	a := piece.Ref{Piece: first.name, Edge: of.Before(of.Index(first.chain[0].Edge)).Name, Copy: first.chain[0].Copy}
	b := piece.Ref{Piece: last.name, Edge: ol.After(ol.Index(last.chain[len(last.chain)-1].Edge)).Name, Copy: last.chain[0].Copy}
	if r.each {
		a.Copy, b.Copy = piece.Both, piece.Both
	}
	o.finish(s, "open", "ends of the "+lower(s.title), s.Open, a, b)
}

// freeID is an id that no item has yet.
func (o *outfitter) freeID(want string) string {
	ids := o.ids()
	id := want
	for n := 2; slices.Contains(ids, id); n++ {
		id = fmt.Sprintf("%s-%d", want, n)
	}
	return id
}
