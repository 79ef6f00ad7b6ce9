package lay_test

import (
	"context"
	"math"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finish"
	"gusset/internal/geom"
	"gusset/internal/lay"
	"gusset/internal/piece"
	"gusset/internal/referee"
	"gusset/internal/unit"
)

// A band 100 by 300 mm with its grain line 40 mm from its left side and 20 mm
// short of both ends, the only piece on the cloth: top to +x it lies 10 mm
// behind the cut end, and its left side, turned clockwise, is the farther from
// the near selvedge. By hand: 100 - 40 = 60 mm in from the piece's near side.
func TestTape(t *testing.T) {
	cut := single("band", rect(100, 300))
	cut.Sewn.Lines = []piece.Line{{Kind: piece.Grain, Name: "grain", Curve: geom.Polyline(geom.Pt{X: 40, Y: 20}, geom.Pt{X: 40, Y: 280})}}
	l, _ := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, []finish.Cut{cut}, lay.Options{})
	near := math.Inf(1)
	for _, p := range l.Placed[0].Outline() {
		near = math.Min(near, p.Y)
	}
	got, ok := l.Tape(l.Placed[0])
	edge := near + 60 + 10 // the selvedge is 10 mm
	want := lay.Tape{Top: lay.TapeEnd{Edge: edge, End: 290}, Foot: lay.TapeEnd{Edge: edge, End: 30}}
	if !ok || got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	cut.Sewn.Lines = nil
	l.Placed[0].Cut = cut
	if _, ok := l.Tape(l.Placed[0]); ok {
		t.Error("a piece without a grain line was measured")
	}
}

// A half piece on the fold is laid by its fold line: at the fold, from the cut
// end on.
func TestTapeOnFold(t *testing.T) {
	for _, d := range []cloth.Direction{cloth.OneWay, cloth.TwoWay} {
		for _, w := range []float64{80, -80} {
			cuts := []finish.Cut{half("shield", 7, w, 200)}
			l, _ := lay.Make(context.Background(), drill(d), cloth.Main, cuts, lay.Options{Fold: "lengthwise"})
			got, ok := l.Tape(l.Placed[0])
			if !ok || !got.FromFold || got.Top.Edge != 0 || got.Foot.Edge != 0 || math.Abs(got.Top.End-got.Foot.End) != 200 {
				t.Errorf("%s, %v mm wide: %+v", d, w, got)
			}
		}
	}
}

// A half without a grain line, laid opened out, is laid by its middle line: by
// hand, 200 mm from 10 mm behind the cut end on, 80 mm in from the side of the
// piece that is 160 mm wide. Opened or not, it goes by the top of that line where
// it is written down.
func TestTapeOpened(t *testing.T) {
	cuts := []finish.Cut{half("shield", 5, 80, 200)}
	l, _ := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, lay.Options{Fold: "open"})
	p := l.Placed[0]
	near := math.Inf(1)
	for _, q := range p.Outline() {
		near = math.Min(near, q.Y)
	}
	edge := near + 80 + 10
	want := lay.Tape{Top: lay.TapeEnd{Edge: edge, End: 210}, Foot: lay.TapeEnd{Edge: edge, End: 10}}
	if got, ok := l.Tape(p); !ok || got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	f := l.ToFile("quay", unit.Millimetre)
	if at := f.Pieces[0]; math.Abs(at.Along.MM()-200) > 1e-9 || math.Abs(at.Across.MM()-edge) > 1e-9 {
		t.Errorf("written at %v along and %v across", at.Along.MM(), at.Across.MM())
	}
	as, _, found := lay.Around(context.Background(), drill(cloth.OneWay), cloth.Main, cuts, f.AllPinned(), lay.Options{}, func(lay.Lay) bool { return true })
	if found = append(found, referee.CheckWritten(cuts, drill(cloth.OneWay), as, f.AllPinned())...); len(found) > 0 || as.Placed[0].AtX != p.AtX || as.Placed[0].AtY != p.AtY {
		t.Errorf("%v: read back at %d, %d, written at %d, %d", found.Codes(), as.Placed[0].AtX, as.Placed[0].AtY, p.AtX, p.AtY)
	}
}

// Left tells what is over, after washing.
func TestLeft(t *testing.T) {
	c := drill(cloth.OneWay)
	c.Length, c.Washed, c.ShrinkWarp = unit.MM(1000), false, 0.1
	l, _ := lay.Make(context.Background(), c, cloth.Main, []finish.Cut{single("band", rect(100, 300))}, lay.Options{})
	if math.Abs(l.Left()-(900-310)) > 1e-9 {
		t.Errorf("left %v", l.Left())
	}
}

// An opened piece shows its notches, and its exact cut line, on both sides.
func TestOpened(t *testing.T) {
	cut := half("shield", 5, 80, 200)
	cut.Exact = []geom.Pt{{X: 5, Y: 0}, {X: 85, Y: 0}, {X: 85, Y: 180}, {X: 5, Y: 200}}
	cut.Notches = [][2]geom.Pt{{{X: 85, Y: 90}, {X: 80, Y: 90}}}
	l, _ := lay.Make(context.Background(), drill(cloth.OneWay), cloth.Main, []finish.Cut{cut}, lay.Options{Fold: "open"})
	k := l.Placed[0].Cut
	if k.OnFold || len(k.Notches) != 2 || k.Notches[1] != [2]geom.Pt{{X: -75, Y: 90}, {X: -70, Y: 90}} {
		t.Errorf("notches %v", k.Notches)
	}
	// By hand: a rectangle of 160 by 180 with a gable of 20 on it.
	if a := geom.Area(k.Exact); math.Abs(a-(160*180+160*20/2)) > 1e-9 || len(k.Exact) != 6 {
		t.Errorf("exact outline %v of %v mm²", k.Exact, a)
	}
}
