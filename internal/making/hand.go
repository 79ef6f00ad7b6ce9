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
	cuts := r.Cut.Pieces()
	for _, l := range r.Lays {
		if len(l.Unplaced) > 0 || referee.Check(ofRole(cuts, l.Role), l.Cloth, l).Stops() > 0 {
			continue
		}
		f := l.ToFile(in.Docket.Name, in.Docket.Unit)
		f.Digest = lay.Digest(l.Cloth, l.Role, cuts, layOptions(in, Effort{}, l.Role))
		files[keptFile(in.Docket.Name, l.Role)] = f.YAML()
	}
	return files
}

// again is the kept lay for a cloth, when it still holds.
func (r *run) again(c cloth.Cloth, role cloth.Role) (laid, finding.List) {
	f, ok := r.in.Kept[role]
	if !ok || r.effort.Anew {
		return laid{}, nil
	}
	name := keptFile(r.in.Docket.Name, role)
	o := layOptions(r.in, Effort{}, role)
	cuts := r.Cut.Pieces()
	if f.Digest != lay.Digest(c, role, cuts, o) {
		return laid{}, finding.List{keptStale.At(f.Place, name)}
	}
	l, _, found := lay.Around(r.ctx, c, role, cuts, f.AllPinned(), o, func(lay.Lay) bool { return true })
	judged := referee.CheckWritten(ofRole(cuts, role), c, l, f.AllPinned())
	for _, list := range []finding.List{found, judged} {
		for _, x := range list {
			if x.Severity() == finding.Stop {
				return laid{}, finding.List{keptUnsound.At(f.Place, name, x.Text())}
			}
		}
	}
	if len(l.Unplaced) > 0 {
		return laid{}, finding.List{keptUnsound.At(f.Place, name, "pieces are missing from it")}
	}
	l.Source = lay.FromKept
	for i := range l.Placed {
		l.Placed[i].Pinned = false
	}
	return laid{role: role, lay: l, sound: true, found: append(found, keptUsed.At(f.Place, name))}, nil
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
