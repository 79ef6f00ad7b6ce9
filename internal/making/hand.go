package making

import (
	"errors"
	"fmt"
	"io/fs"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/referee"
	"gusset/internal/unit"
)

// A lay may also come from a file: one written by hand, which is judged as it is
// and gone on from, or the one kept in the workroom, which is used again as long
// as it was made from the same pieces, cloth and wishes.

func warn(code, text, mend string) finding.Kind {
	return finding.Kind{Code: "making." + code, Severity: finding.Warn, Text: text, Mend: mend}
}

var (
	asWritten = warn("as-written", "as it is written, %[1]s; it was laid otherwise", "mend the file, or take the lay as it is now")
	written   = finding.Kind{
		Code: "making.laid-by-hand", Severity: finding.Advice,
		Text: "as written, %[1]d pieces keep every rule and take %[2]s%[3]s",
	}
	otherCloth  = warn("lay-of-other-cloth", "this lay was written for %[1]s and is laid on %[2]s", "see that it is the right file")
	otherDocket = warn("lay-of-other-docket", "this lay was written for docket %[1]s and is used for %[2]s", "see that it is the right file")
	keptUsed    = finding.Kind{
		Code: "making.kept-lay", Severity: finding.Advice,
		Text: "the lay kept in %[1]s is used, judged again",
		Mend: "lay anew with --anew, or take the file away",
	}
	keptStale   = warn("stale-lay", "the lay kept in %[1]s was made from other pieces, another cloth or other wishes and is not used", "gusset lay DOCKET --keep keeps the one that serves now")
	keptUnsound = warn("kept-lay-unsound", "the lay kept in %[1]s is not used: %[2]s", "gusset lay DOCKET --keep keeps the one that serves now")
)

// keptFile is where the chosen lay of a docket's cloth is kept in the workroom.
func keptFile(docket string, role cloth.Role) string {
	return "lays/" + docket + "-" + string(role) + ".yaml"
}

// kept reads the lays kept for the docket. One that cannot be read is told and
// passed over: it can always be made again.
func (r *room) kept(in *Inputs) {
	for _, role := range cloth.Roles {
		if _, ok := in.Cloths[role]; !ok {
			continue
		}
		name := keptFile(in.Docket.Name, role)
		data, err := r.read(name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			r.fail(err)
			continue
		}
		f, found := lay.Load(data)
		if found.Stops() > 0 {
			r.found = append(r.found, keptUnsound.At(found[0].Place, name, found[0].Text()))
			continue
		}
		in.Kept[role] = f
	}
}

// Keep writes down the lays of a result, so that they are used again: the
// workroom's file names and their contents. A lay that does not fit, or that a
// piece is missing from, is not kept.
func Keep(in Inputs, r Result) map[string][]byte {
	files := map[string][]byte{}
	for role, data := range laidFiles(in, r, func(c cloth.Cloth, _ lay.Lay) cloth.Cloth { return c }) {
		files[keptFile(in.Docket.Name, role)] = data
	}
	return files
}

// Laid writes down the lays of a result as files to be found again, by what
// their cloth is for: those with every piece in them, also where the cloth is too
// short.
func Laid(in Inputs, r Result) map[cloth.Role][]byte { return laidFiles(in, r, enough) }

func laidFiles(in Inputs, r Result, on func(cloth.Cloth, lay.Lay) cloth.Cloth) map[cloth.Role][]byte {
	out := map[cloth.Role][]byte{}
	cuts := r.Cut.Pieces()
	for _, l := range r.Lays {
		if len(l.Unplaced) > 0 || referee.Check(ofRole(cuts, l.Role), on(l.Cloth, l), l).Stops() > 0 {
			continue
		}
		f := l.ToFile(in.Docket.Name, in.Docket.Unit)
		f.Digest = lay.Digest(l.Cloth, l.Role, cuts, layOptions(in, Effort{}, l.Role))
		out[l.Role] = f.YAML()
	}
	return out
}

// again is the lay found before, or the kept one, when it still holds.
func (r *run) again(c cloth.Cloth, role cloth.Role) (laid, finding.List) {
	if r.effort.Anew {
		return laid{}, nil
	}
	if f, ok := r.in.Found[role]; ok && f.Digest == r.layDigest(c, role) {
		if l, found := r.fromFile(c, role, f); found.Stops() == 0 && len(l.lay.Unplaced) == 0 {
			return l, nil // that the cloth is too short for it, it tells itself
		}
	}
	f, ok := r.in.Kept[role]
	if !ok {
		return laid{}, nil
	}
	name := keptFile(r.in.Docket.Name, role)
	if f.Digest != r.layDigest(c, role) {
		return laid{}, finding.List{keptStale.At(f.Place, name)}
	}
	l, judged := r.fromFile(c, role, f)
	for _, list := range []finding.List{l.found, judged} {
		if stops := list.AtLeast(finding.Stop); len(stops) > 0 {
			return laid{}, finding.List{keptUnsound.At(f.Place, name, stops[0].Text())}
		}
	}
	if len(l.lay.Unplaced) > 0 {
		return laid{}, finding.List{keptUnsound.At(f.Place, name, "pieces are missing from it")}
	}
	l.lay.Source = lay.FromKept
	l.found = append(l.found, keptUsed.At(f.Place, name))
	return l, nil
}

func (r *run) layDigest(c cloth.Cloth, role cloth.Role) string {
	return lay.Digest(c, role, r.Cut.Pieces(), layOptions(r.in, Effort{}, role))
}

// fromFile is the lay of a file as it is written, and what the referee finds in
// it, apart from how long the cloth is.
func (r *run) fromFile(c cloth.Cloth, role cloth.Role, f lay.File) (laid, finding.List) {
	cuts := r.Cut.Pieces()
	l, _, found := lay.Around(r.ctx, c, role, cuts, f.AllPinned(), layOptions(r.in, Effort{}, role), func(lay.Lay) bool { return true })
	judged := referee.CheckWritten(ofRole(cuts, role), enough(c, l), l, f.AllPinned())
	for i, p := range l.Placed {
		l.Placed[i].Pinned = f.Holds(p.Cut.ID)
	}
	return laid{role: role, lay: l, sound: true, found: found}, judged
}

// byHand lays a cloth as a file has it, and goes on from there.
func (r *run) byHand(c cloth.Cloth, role cloth.Role, f lay.File) laid {
	cuts := r.Cut.Pieces()
	judge := func(l lay.Lay) finding.List {
		return located(referee.CheckWritten(ofRole(cuts, role), enough(c, l), l, f), f)
	}
	asIs, best, found := lay.Around(r.ctx, c, role, cuts, f, layOptions(r.in, r.effort, role), func(l lay.Lay) bool {
		return judge(l).Stops() == 0
	})
	out := laid{role: role, found: append(r.otherwise(c, f), found...)}
	first, judged := judge(asIs), judge(best)
	if first.Stops() == 0 {
		out.found = append(out.found, written.At(f.Place, len(asIs.Placed), r.say(asIs.Length), r.since(asIs, best)))
	}
	if judged.Stops() > 0 {
		out.found = append(out.found, judged...)
		return out
	}
	for _, x := range first {
		out.found = append(out.found, asWritten.At(x.Place, x.Text()))
	}
	best.Source = lay.FromHand
	out.lay, out.sound = best, true
	return out
}

// since says what the search has added to a written lay.
func (r *run) since(asIs, best lay.Lay) string {
	if n := len(asIs.Unplaced) - len(best.Unplaced); n > 0 {
		return fmt.Sprintf("; with the %d that had no place it takes %s", n, r.say(best.Length))
	}
	if best.Length < asIs.Length {
		return "; laid on from there it takes " + r.say(best.Length)
	}
	return ""
}

func (r *run) say(mm float64) string { return unit.Format(mm, r.in.Docket.Unit) }

// enough is the cloth, made long enough for a lay: that it is too short is told
// once, by the lay.
func enough(c cloth.Cloth, l lay.Lay) cloth.Cloth {
	if l.Length > c.UsableLength() && !c.Remnant() {
		c.Length = unit.MM(l.Length/(1-c.ShrinkWarp) + 1)
	}
	return c
}

// located puts findings about pieces where the file speaks of them.
func located(found finding.List, f lay.File) finding.List {
	out := make(finding.List, len(found))
	for i, x := range found {
		id := ""
		if len(x.Args) > 0 {
			id, _ = x.Args[0].(string)
		}
		p := f.PlaceOf(id)
		x.Place = p.OnPiece(x.Place.Piece, x.Place.Copy, x.Place.Edge)
		out[i] = x
	}
	return out
}

// otherwise tells that a file was written for something else.
func (r *run) otherwise(c cloth.Cloth, f lay.File) finding.List {
	var out finding.List
	if f.Cloth != c.Name {
		out = append(out, otherCloth.At(f.Place, f.Cloth, c.Name))
	}
	if f.Docket != r.in.Docket.Name {
		out = append(out, otherDocket.At(f.Place, f.Docket, r.in.Docket.Name))
	}
	return out
}
