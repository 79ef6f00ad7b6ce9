package exchange

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/geom"
	"gusset/internal/piece"
	"gusset/internal/unit"
)

// Said is what the user says of the pieces that the file does not.
type Said struct {
	Title string
	From  string // the file, for the remark at the top
	// Line is "stitching" or "cutting", what the outline is; "" when it has not been
	// said. Allowance goes with cutting.
	Line      string
	Allowance unit.Length
}

// Folder is the pattern's folder: pattern.yaml and a drawing for each piece. What
// only the user can know (the chart, what the printed line is) is left to be said
// where it belongs, marked SAY; proposed joins stand there as remarks.
func Folder(pieces []Graded, sizes []string, said Said) map[string][]byte {
	files := map[string][]byte{"pattern.yaml": patternFile(pieces, sizes, said)}
	for _, p := range pieces {
		files[p.Name+".svg"] = drawing(p, sizes)
	}
	return files
}

// margin is the white round a drawing, in mm.
const margin = 15

// drawing is a piece's SVG as patterns have it: one group for each size, one path
// for each edge in outline order.
func drawing(g Graded, sizes []string) []byte {
	var pts []geom.Pt
	for _, p := range g.In {
		pts = append(pts, p.Outline(0.1)...)
		for _, l := range p.Lines {
			pts = append(pts, l.Curve.Flatten(0.1)...)
		}
	}
	lo, hi := geom.BoundsOf(pts)
	w, h := math.Ceil(hi.X-lo.X)+2*margin, math.Ceil(hi.Y-lo.Y)+2*margin
	b := &svgSheet{turn: geom.Affine{A: 1, D: -1, E: margin - math.Floor(lo.X), F: margin + math.Ceil(hi.Y)}}
	fmt.Fprintf(&b.out, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]gmm" height="%[2]gmm" viewBox="0 0 %[1]g %[2]g">`+"\n", w+1, h+1)
	for k, p := range g.In {
		id := "S" + sizes[k]
		fmt.Fprintf(&b.out, "<g id=\"%s\" fill=\"none\" stroke=\"black\" stroke-width=\"0.4\">\n", escaped(id))
		for _, e := range p.Edges {
			b.path(escaped(id)+"."+e.Name, "", e.Curve)
		}
		for _, l := range p.Lines {
			b.path(fmt.Sprintf("%s.%s.%s", escaped(id), l.Kind, l.Name), dashOf(l.Kind), l.Curve)
		}
		for _, m := range p.Marks {
			name := m.Name
			if m.Kind == piece.Notch {
				name = m.Edge + "." + m.Name
			}
			at := b.turn.Apply(m.P)
			fmt.Fprintf(&b.out, "<circle id=\"%s.%s.%s\" cx=\"%s\" cy=\"%s\" r=\"1.5\"/>\n", escaped(id), m.Kind, name, coord(at.X), coord(at.Y))
		}
		b.out.WriteString("</g>\n")
	}
	b.out.WriteString("</svg>\n")
	return b.out.Bytes()
}

func patternFile(pieces []Graded, sizes []string, said Said) []byte {
	var b bytes.Buffer
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("gusset: pattern/1")
	line("# Taken in from %s. What the file could not say is marked SAY.", oneLine(said.From))
	line("title: %s", quoted(said.Title))
	line("sizes: [%s]", strings.Join(quotedAll(sizes), ", "))
	line("# SAY: the body measure that the size is chosen by, and its chart, one value for each size.")
	line("choose: hip")
	line("chart:")
	line("  unit: cm")
	line("  # hip: [%s]", strings.Join(slices.Repeat([]string{"..."}, len(sizes)), ", "))
	if levels := levelsOf(pieces); len(levels) > 0 {
		line("# SAY: the heights at which the size may differ, from the top down, each with the measure taken there.")
		line("# zones:")
		for _, l := range levels {
			line("#   - {zone: %s, measure: %s}", l, l)
		}
	}
	sewn := !slices.ContainsFunc(pieces, func(p Graded) bool { return !p.Sewn })
	switch {
	case sewn:
		line("printed: {line: stitching} # as the file tells")
	case said.Line == "cutting":
		line("printed: {line: cutting, allowance: %s} # as was said", said.Allowance)
	case said.Line != "":
		line("printed: {line: %s} # as was said", said.Line)
	default:
		line("# SAY: cutting, with its allowance, or stitching: the file does not tell what its outlines are.")
		line("printed: {line: SAY}")
	}
	line("pieces:")
	for _, p := range pieces {
		line("  %s:", p.Name)
		line("    title: %s", quoted(p.Title))
		if p.Sewn && !sewn || p.FoldEdge != "" && !sewn {
			line("    edges:")
			for _, e := range p.In[0].Edges {
				switch {
				case e.Name == p.FoldEdge:
					line("      %s: {line: fold}", e.Name)
				case p.Sewn:
					line("      %s: {line: stitching}", e.Name)
				}
			}
		}
	}
	line("views:")
	line("  all:")
	line("    title: all pieces")
	line("    pieces:")
	for _, p := range pieces {
		line("      - %s", use(p))
	}
	proposals(line, pieces)
	return b.Bytes()
}

// levelsOf are the names of the level lines, from the top down on the piece that
// shows the most of them.
func levelsOf(pieces []Graded) []string {
	var best []piece.Line
	for _, p := range pieces {
		var list []piece.Line
		for _, l := range p.In[0].Lines {
			if l.Kind == piece.Level {
				list = append(list, l)
			}
		}
		if len(list) > len(best) {
			best = list
		}
	}
	slices.SortFunc(best, func(a, b piece.Line) int { return cmp.Compare(b.Curve.Start().Y, a.Curve.Start().Y) })
	var out []string
	for _, l := range best {
		out = append(out, l.Name)
	}
	return out
}

// use is how a piece is cut, as far as the file says; once when it does not.
func use(p Graded) string {
	text := "{piece: " + p.Name + ", copies: "
	n := max(p.Left, 1)
	switch {
	case p.FoldEdge != "":
		text += "fold, fold-edge: " + p.FoldEdge
	case p.Right > 0:
		text += "pair"
	default:
		text += "single"
	}
	if n > 1 {
		text += fmt.Sprintf(", number: %d", n)
	}
	role := "main"
	if slices.Contains(cloth.Roles, cloth.Role(p.Material)) {
		role = p.Material
	}
	return text + ", cloth: [" + role + "]}" + unsureUse(p)
}

// unsureUse is a remark where it is not certain that a piece is no pair: a file
// that says nothing, or says two and not of which hand.
func unsureUse(p Graded) string {
	if p.FoldEdge != "" || p.Right > 0 || p.Left == 1 {
		return ""
	}
	return " # SAY: pair, with number: 1, when it is cut left and right"
}

func proposals(line func(string, ...any), pieces []Graded) {
	joins := Propose(pieces)
	if len(joins) == 0 {
		return
	}
	line("    # SAY: these sides go together by their lengths in every size and their notches; take the # away before those")
	line("    # that are sewn together. Others are yours to write.")
	line("    # joins:")
	for _, j := range joins {
		line("    #   # %s", j.Why())
		ease := ""
		if j.Eased {
			ease = fmt.Sprintf(", ease: [%.1f mm]", j.Ease())
		}
		line("    #   %s: {sew: [%s, %s]%s, method: plain-overlocked}", j.ID(), sewn(j.Sides[0]), sewn(j.Sides[1]), ease)
	}
}

// sewn is a side of a join as a pattern file has it.
func sewn(side []piece.Ref) string {
	names := make([]string, len(side))
	for i, r := range side {
		names[i] = fmt.Sprintf("%q", r)
	}
	if len(names) == 1 {
		return names[0]
	}
	return "[" + strings.Join(names, ", ") + "]"
}

// quoted is a text as YAML writes it in double quotes.
func quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(oneLine(s)) + `"`
}

func quotedAll(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = quoted(s)
	}
	return out
}

// oneLine leaves out what would break a line, or steer a terminal.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0xfffd || r == 0x2028 || r == 0x2029 || r == 0x85 {
			return ' '
		}
		return r
	}, s)
}
