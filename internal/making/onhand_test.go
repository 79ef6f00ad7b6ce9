package making

import (
	"context"
	"math"
	"slices"
	"testing"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/lay"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// A lay taken into the hand and put down unmoved is the same lay, to the
// micrometre, and sound; every one of the moves that a cutter must not make is
// told (the rules are those of package referee); what is kept is used again, and
// what is pinned in it is pinned when it is taken up again.
func TestOnHand(t *testing.T) {
	in, _ := openIn(t, roomWith(t, nil))
	r := Run(context.Background(), in, Lay, Effort{Rounds: 5, Seed: 1}, nil)
	l := r.Lays[0]
	f := InHand(in, l)
	same, found := r.Written(in, f)
	if found.Stops() > 0 || math.Abs(same.Length-l.Length) > 1e-9 || len(same.Placed) != len(l.Placed) {
		t.Fatalf("unmoved: %.3f mm, it was %.3f; %v", same.Length, l.Length, found.Codes())
	}
	for i, p := range same.Placed {
		if q := l.Placed[i]; p.Cut.ID != q.Cut.ID || p.AtX != q.AtX || p.AtY != q.AtY {
			t.Errorf("%s lies elsewhere", q.Cut.ID)
		}
	}
	for _, c := range []struct {
		what, code string
		move       func(*lay.File)
	}{
		{"one upon the other", "referee.overlap", func(f *lay.File) { f.Pieces[0].Along, f.Pieces[0].Across = f.Pieces[1].Along, f.Pieces[1].Across }},
		{"over the selvedge", "referee.beyond", func(f *lay.File) { f.Pieces[0].Across = unit.MM(10) }},
		{"off the grain", "referee.grain", func(f *lay.File) { f.Pieces[0].Tilt = 3 }},
		{"face down", "referee.mirror", func(f *lay.File) { f.Pieces[0].FaceDown = true }},
		{"not at all", "making.lay-unfinished", func(f *lay.File) { f.Pieces[0] = lay.FilePiece{ID: f.Pieces[0].ID} }},
	} {
		moved := f
		moved.Pieces = slices.Clone(f.Pieces)
		c.move(&moved)
		if _, data, found := r.KeepWritten(in, moved); data != nil || !slices.Contains(found.Codes(), c.code) {
			t.Errorf("%s: %v, kept %t", c.what, found.Codes(), data != nil)
		}
	}
	f.Pieces = slices.Clone(f.Pieces)
	f.Pieces[2].Pinned = true
	name, data, found := r.KeepWritten(in, f)
	if name != "lays/quay-cropped-main.yaml" || found.Stops() > 0 {
		t.Fatal(name, found.Codes())
	}
	again, _ := openIn(t, roomWith(t, map[string][]byte{name: data}))
	used := Run(context.Background(), again, Lay, Effort{Rounds: 1, Seed: 9}, nil)
	if used.Lays[0].Source != lay.FromKept || used.Lays[0].Length != l.Length {
		t.Errorf("kept %.2f mm, used %q %.2f", l.Length, used.Lays[0].Source, used.Lays[0].Length)
	}
	before, _ := lay.Load(source.File{Path: name, Data: data})
	again.Kept, again.Found = nil, map[cloth.Role]lay.File{l.Role: before}
	if r := Run(context.Background(), again, Lay, Effort{Rounds: 1, Seed: 9}, nil); r.Lays[0].Source != lay.FromSearch || r.Lays[0].Length != l.Length || slices.Contains(r.Findings.Codes(), "making.kept-lay") {
		t.Errorf("found before: %q %.2f mm, %v", r.Lays[0].Source, r.Lays[0].Length, r.Findings.Codes())
	}
	up := InHand(again, used.Lays[0])
	for _, p := range up.Pieces {
		if p.Pinned != (p.ID == f.Pieces[2].ID) {
			t.Errorf("%s: pinned %t", p.ID, p.Pinned)
		}
	}
}

// Turned end for end a piece keeps the rectangle that it takes of the cloth, and
// turned twice it lies as before; on one-way cloth the first turn is told.
func TestTurnedAbout(t *testing.T) {
	in, _ := openIn(t, roomWith(t, nil))
	r := Run(context.Background(), in, Lay, Effort{Rounds: 1, Seed: 1}, nil)
	l := r.Lays[0]
	f := InHand(in, l)
	for i := range f.Pieces {
		if !f.Pieces[i].Placed {
			continue
		}
		once := f.TurnedAbout(l, i, false)
		turned, found := r.Written(in, once)
		if l.Cloth.TopsOneWay() && !slices.Contains(found.Codes(), "referee.nap") {
			t.Errorf("%s turned on one-way cloth: %v", f.Pieces[i].ID, found.Codes())
		}
		twice := once.TurnedAbout(turned, i, false)
		if a, b := twice.Pieces[i], f.Pieces[i]; math.Abs(a.Along.MM()-b.Along.MM()) > 0.002 || math.Abs(a.Across.MM()-b.Across.MM()) > 0.002 || a.Turned != b.Turned {
			t.Errorf("%s turned twice: %v %v, was %v %v", b.ID, a.Along, a.Across, b.Along, b.Across)
		}
	}
	read, found := lay.Load(source.File{Path: "lays/x.yaml", Data: f.YAML()})
	if found.AtLeast(finding.Warn) != nil || len(read.Pieces) != len(f.Pieces) {
		t.Errorf("as a file: %v", found.Codes())
	}
}
