package making

import (
	"context"
	"strings"
	"testing"
)

// stageSlips are slips that no file shows by itself: the stages tell them.
var stageSlips = []broken{
	{name: "hem wider than the piece", file: tabard, old: "depth: 25 mm", new: "depth: 300 mm", code: "finish.hem-wider", in: aPattern, at: "mouth: {edges"},
	{name: "a size that is not printed", file: tabard, old: `hip: "12"`, new: `hip: "16"`, code: "fit.outside-range"},
	{name: "unknown lengthening line", file: tabard, old: "at: skirt", new: "at: skrit", code: "change.no-line"},
	{name: "shortened past itself", file: tabard, old: "by: 2.5 cm", new: "by: -60 cm", code: "change.fold-over"},
	{name: "unknown hem", file: tabard, old: "edge: hem, by", new: "edge: hme, by", code: "change.no-hem"},
	{name: "a step on an unknown item", file: tabard, old: "item: mouth", new: "item: muoth", code: "change.no-item"},
	{name: "an edge that nothing takes", file: aPattern, old: "      mouth: {edges: [pocket:mouth], method: double-fold-top}\n", new: "", code: "change.no-item", in: tabard, at: "item: mouth"},
	{name: "a method of another use", file: aPattern, old: "method: plain-open, notches", new: "method: raw, notches", code: "construct.method-use"},
	{name: "an unknown method", file: aPattern, old: "method: plain-open, notches", new: "method: plain-opne, notches", code: "construct.method-unknown"},
	{name: "a match beyond its join", file: tabard, old: "at: end", new: "at: 3 m", code: "seam.match-beyond"},
	{name: "panels sewn upside down", file: aPattern, old: sewSide, new: `sew: [front:side, "back:side reversed"]`, code: "seam.notch"},
}

// The test workroom as it stands goes through to the cut pieces with nothing
// but what blending had to do, and advice on its waist, which is drawn with a
// point at the sides.
func TestRoomRuns(t *testing.T) {
	in, _, err := Open(roomFS(t), tabard)
	if err != nil {
		t.Fatal(err)
	}
	r := Run(context.Background(), in, Finish, Effort{}, nil)
	for _, f := range r.Findings {
		if f.Code() != "fit.trued" && f.Code() != "seam.break" {
			t.Errorf("%s: %s: %s", f.Place, f.Code(), f.Text())
		}
	}
	if r.Reached != Finish || len(r.Cut.Pieces()) == 0 {
		t.Errorf("reached stage %d with %d cut pieces", r.Reached, len(r.Cut.Pieces()))
	}
}

// What only shows when the stages have the pieces in hand is told where the
// user wrote it.
func TestStageSlips(t *testing.T) {
	for _, b := range stageSlips {
		t.Run(b.name, func(t *testing.T) {
			m := roomFS(t)
			b.spoil(t, m)
			in, opened, err := Open(m, tabard)
			if err != nil || opened.Stops() > 0 {
				t.Fatal(err, opened.Codes())
			}
			r := Run(context.Background(), in, Finish, Effort{}, nil)
			file, text := b.want()
			for _, f := range r.Findings {
				if f.Code() == b.code && f.Place.File == file && strings.Contains(f.Place.Text, text) {
					return
				}
			}
			t.Errorf("want %s in %s on the line with %q; found", b.code, file, text)
			for _, f := range r.Findings {
				t.Errorf("  %s: %s: %s\n    %s", f.Place.Source(), f.Code(), f.Text(), f.Place.Text)
			}
		})
	}
}
