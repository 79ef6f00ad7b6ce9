package needs

import (
	"maps"
	"slices"
	"strings"

	"gusset/internal/construct"
	"gusset/internal/finding"
	"gusset/internal/machine"
)

const (
	// Waste is what is added for threading up, breaks and unpicking: 10 to
	// 15 % in published thread consumption notes, the upper end taken for a
	// single make.
	Waste = 0.15
	// Tail is what hangs at each end of a row, in mm: 2 to 3 cm where threads
	// are cut by hand, by the same notes.
	Tail = 30
)

// The kinds of thread in the order they are listed.
const (
	mainNeedle   = "main needle"
	mainBobbin   = "main bobbin"
	topNeedle    = "topstitch needle"
	overNeedle   = "overlock needle"
	overLoopers  = "overlock loopers"
	handThread   = "hand"
	topstitching = "topstitch" // what a method calls it
)

var threadKinds = []string{mainNeedle, mainBobbin, topNeedle, overNeedle, overLoopers, handThread}

var (
	noRatio = finding.Kind{
		Code: "needs.no-ratio", Severity: finding.Warn,
		Text: "%[1]s: no thread ratio is known for stitch %[2]s, so its %.2[3]f m of stitching are left out of the thread",
		Mend: "add the thread for it by hand, or name another stitch in the method",
	}
	unmeasured = finding.Kind{
		Code: "needs.unmeasured", Severity: finding.Advice,
		Text: "no length of stitching is known for %[1]s, so only thread ends are counted there",
		Mend: "let some thread over for them",
	}
)

// spool collects the uses of one kind of thread.
type spool struct {
	seam, sewn map[use]float64
	tails      float64
}

type use struct{ stitch, source string }

// threads counts thread by kind over all operations that sew.
func threads(ops []construct.Operation) ([]Thread, finding.List) {
	spools := map[string]*spool{}
	var out finding.List
	var bare []string
	for _, o := range ops {
		if o.Stitch == "" {
			continue
		}
		s, known := stitches[o.Stitch]
		if !known {
			out = append(out, noRatio.At(o.Place, o.ID, o.Stitch, stitching(o)/1000))
			continue
		}
		if o.Length == 0 {
			bare = append(bare, o.ID)
		}
		ratio, _ := RatioOf(o.Stitch, o.StitchLength, o.Thickness)
		key := use{o.Stitch, ratio.Source}
		over, under := kinds(o)
		at(spools, over).add(key, stitching(o), ratio.Needle, ends(o, s.needles))
		if s.unders > 0 {
			at(spools, under).add(key, stitching(o), ratio.Under, ends(o, s.unders))
		}
	}
	if len(bare) > 0 {
		out = append(out, unmeasured.At(finding.Place{}, strings.Join(bare, ", ")))
	}
	return list(spools), out
}

// kinds gives the kinds of thread above and under the cloth: topstitching
// thread runs on the needle only, over the main thread on the bobbin.
func kinds(o construct.Operation) (over, under string) {
	switch {
	case o.Machine == machine.Overlocker:
		return overNeedle, overLoopers
	case o.Machine == machine.Hand:
		return handThread, handThread
	case o.Thread == topstitching:
		return topNeedle, mainBobbin
	}
	return mainNeedle, mainBobbin
}

// stitching is the length of all rows in mm.
func stitching(o construct.Operation) float64 { return float64(max(o.Rows, 1)) * o.Length }

// ends is what hangs out of all rows at both ends, in mm.
func ends(o construct.Operation, threads int) float64 {
	return 2 * Tail * float64(max(o.Rows, 1)*threads)
}

func at(spools map[string]*spool, kind string) *spool {
	if spools[kind] == nil {
		spools[kind] = &spool{seam: map[use]float64{}, sewn: map[use]float64{}}
	}
	return spools[kind]
}

func (s *spool) add(u use, seam, ratio, tails float64) {
	s.seam[u] += seam
	s.sewn[u] += float64(seam * ratio)
	s.tails += tails
}

func list(spools map[string]*spool) []Thread {
	var all []Thread
	for _, kind := range threadKinds {
		s := spools[kind]
		if s == nil {
			continue
		}
		t := Thread{Name: kind, Tails: s.tails}
		for _, u := range slices.SortedFunc(maps.Keys(s.seam), byStitch) {
			t.Sewn += s.sewn[u]
			if s.seam[u] > 0 {
				t.Uses = append(t.Uses, Use{Stitch: u.stitch, Seam: s.seam[u], Ratio: s.sewn[u] / s.seam[u], Source: u.source})
			}
		}
		t.Length = withWaste(t.Sewn) + t.Tails
		all = append(all, t)
	}
	return all
}

func byStitch(a, b use) int {
	return strings.Compare(a.stitch+a.source, b.stitch+b.source)
}

func withWaste(sewn float64) float64 { return sewn * (1 + Waste) }
