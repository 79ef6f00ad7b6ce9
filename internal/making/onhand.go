package making

import (
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/referee"
)

// Written lays a cloth as a file has it, of a result that has its cut set, and
// lets the referee judge that: nothing is searched, so it answers while a piece
// is being moved. The lay may be unsound; the findings tell.
func (r Result) Written(in Inputs, f lay.File) (lay.Lay, finding.List) {
	c, ok := in.Cloths[f.Role]
	if !ok || r.Reached < Finish {
		return lay.Lay{}, nil
	}
	cuts := r.Cut.Pieces()
	l, found := lay.Written(c, f.Role, cuts, f, layOptions(in, Effort{}, f.Role))
	return l, append(found, located(referee.CheckWritten(ofRole(cuts, f.Role), enough(c, l), l, f), f)...)
}

// KeepWritten writes down a lay as a file has it, so that it is used from now
// on: the workroom's file and its contents, none when it may not be cut. What is
// pinned in it stays so. The findings tell why it is not kept.
func (r Result) KeepWritten(in Inputs, f lay.File) (name string, data []byte, found finding.List) {
	l, found := r.Written(in, f)
	if found.Stops() > 0 || len(l.Placed) == 0 {
		return "", nil, found
	}
	if n := len(l.Unplaced); n > 0 {
		return "", nil, append(found, unfinished.At(f.Place, l.Unplaced[0], n))
	}
	out := l.ToFile(in.Docket.Name, in.Docket.Unit)
	out.Digest = lay.Digest(l.Cloth, l.Role, r.Cut.Pieces(), layOptions(in, Effort{}, l.Role))
	return keptFile(in.Docket.Name, l.Role), out.YAML(), found
}

var unfinished = finding.Kind{
	Code: "making.lay-unfinished", Severity: finding.Stop,
	Text: "%[1]s has no place yet (%[2]d pieces in all)",
	Mend: "lay it by hand, or have places looked for with what is pinned held",
}

// InHand reads the lay of a cloth as one that can be gone on from by hand: the
// last section ends where its pieces do, and what is pinned in it stays so.
func InHand(in Inputs, l lay.Lay) lay.File {
	f := l.ToFile(in.Docket.Name, in.Docket.Unit)
	if n := len(f.Sections); n > 0 {
		f.Sections[n-1].HasTo = f.Sections[n-1].Fold == lay.Across || f.Sections[n-1].Fold == lay.Swung
	}
	return f
}
