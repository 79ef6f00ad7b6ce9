package trace

import (
	"math"
	"strings"

	"gusset/internal/cards"
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/trace/camera"
	"gusset/internal/trace/detect"
	"gusset/internal/trace/outline"
	"gusset/internal/trace/photo"
	"gusset/internal/unit"
)

// Tape is a reading from the cross of one card to that of another.
type Tape struct {
	A, B   cards.ID
	Length unit.Length
}

// Table is a set of photos whose map to the table is known.
type Table struct {
	Shots    []outline.Shot
	Solution camera.Solution
	Cards    []outline.Card
}

// leastCards is how many cards hold lens, tilt and scale together.
const leastCards = 4

// Limits on what is left between the corner marks as measured and as computed,
// mm on the table: flat cards leave 0.02 to 0.03, cards whose corners stand up
// by 0.3 mm 0.08, by 1 mm 0.24 (measured on computed set-ups).
const (
	usualMiss = 0.03
	curlWarn  = 0.06
	curlStop  = 0.14
)

// solveTable finds cards in the photos and solves everything from them.
func solveTable(photos []*photo.Photo, tapes []Tape) (Table, finding.List) {
	seen, found := look(photos)
	if found.Stops() > 0 {
		return Table{}, found
	}
	found = append(found, joined(photos, seen)...)
	found = append(found, tapesUsable(seen, tapes)...)
	if found.Stops() > 0 {
		return Table{}, found
	}
	shots := make([]camera.Shot, len(photos))
	for i, p := range photos {
		shots[i] = camera.Shot{W: p.W, H: p.H, Focal: p.Focal / 36 * float64(max(p.W, p.H))}
	}
	readings := make([]camera.Tape, len(tapes))
	for i, t := range tapes {
		readings[i] = camera.Tape{A: t.A, B: t.B, Length: t.Length.MM()}
	}
	s, ok := camera.Solve(shots, seen, readings)
	if !ok {
		return Table{}, append(found, unsolved.At(finding.Place{}))
	}
	t := Table{Solution: s}
	for i, p := range photos {
		t.Shots = append(t.Shots, outline.Shot{Photo: p, View: s.Views[i]})
	}
	for id, c := range s.Cards {
		t.Cards = append(t.Cards, outline.Card{At: c.At, Angle: c.Angle, Side: cards.Cut * s.Scale})
		_ = id
	}
	return t, append(found, judged(s, photos, tapes)...)
}

// look finds the cards of every photo.
func look(photos []*photo.Photo) ([]camera.Seen, finding.List) {
	var seen []camera.Seen
	var found finding.List
	for i, p := range photos {
		at := finding.Place{File: p.Name}
		r := detect.Cards(p)
		switch {
		case r.Mirrored:
			found = append(found, mirrored.At(at))
		case len(r.Cards)+len(r.Unmeasured) == 0:
			found = append(found, noCards.At(at))
		}
		if a := photos[0]; p.W != a.W && p.W != a.H || p.W*p.H != a.W*a.H {
			found = append(found, otherCamera.At(at, p.Name, p.W, p.H, a.W, a.H))
		}
		for _, id := range r.Twice {
			found = append(found, cardTwice.At(at, id.String()))
		}
		for _, id := range r.Unmeasured {
			found = append(found, cardFaint.At(at, id.String()))
		}
		for _, c := range r.Cards {
			seen = append(seen, camera.Seen{Photo: i, Card: c.Card, Px: c.Px})
		}
	}
	return seen, found
}

// joined looks whether there are cards enough, and whether the photos hang
// together by them.
func joined(photos []*photo.Photo, seen []camera.Seen) finding.List {
	var found finding.List
	var letters []string
	shown := map[cards.ID]int{}
	for _, s := range seen {
		if shown[s.Card] == 0 {
			letters = append(letters, s.Card.String())
		}
		shown[s.Card]++
	}
	if len(letters) < leastCards {
		found = append(found, fewCards.At(finding.Place{File: photos[0].Name}, len(letters), strings.Join(letters, ", ")))
	}
	for i, ok := range camera.Connected(seen, len(photos)) {
		shared := 0
		for _, s := range seen {
			if s.Photo == i && shown[s.Card] > 1 {
				shared++
			}
		}
		at := finding.Place{File: photos[i].Name}
		switch {
		case !ok:
			found = append(found, unconnected.At(at, photos[i].Name))
		case len(photos) > 1 && shared < 2:
			found = append(found, loose.At(at, photos[i].Name))
		}
	}
	return found
}

// tapesUsable looks whether every tape goes between cards that are seen.
func tapesUsable(seen []camera.Seen, tapes []Tape) finding.List {
	var found finding.List
	if len(tapes) == 0 {
		return finding.List{noTape.At(finding.Place{})}
	}
	for _, t := range tapes {
		if t.A == t.B {
			found = append(found, manyTapes.At(finding.Place{}, t.A.String()))
		}
		if mm := t.Length.MM(); !(mm >= cards.Cut && mm < 20_000) {
			found = append(found, tapeUnlikely.At(finding.Place{}, t.Length.String()))
		}
		for _, id := range []cards.ID{t.A, t.B} {
			there := false
			for _, s := range seen {
				there = there || s.Card == id
			}
			if !there {
				found = append(found, tapeCard.At(finding.Place{}, id.String()))
			}
		}
	}
	return found
}

// judged says what is to be thought of a solution.
func judged(s camera.Solution, photos []*photo.Photo, tapes []Tape) finding.List {
	var found finding.List
	switch {
	case s.WorstMM > 2*curlStop || s.RMSmm > curlStop:
		found = append(found, curlBad.At(finding.Place{}, s.Worst.String(), s.WorstMM, usualMiss))
	case s.WorstMM > 2*curlWarn || s.RMSmm > curlWarn:
		found = append(found, curl.At(finding.Place{}, s.Worst.String(), s.WorstMM))
	}
	found = append(found, tapesJudged(s, tapes)...)
	for i, v := range s.Views {
		at := finding.Place{File: photos[i].Name}
		mid := middleOf(s)
		if a := v.Slant(mid) * 180 / math.Pi; a > 40 {
			found = append(found, steep.At(at, photos[i].Name, a))
		}
		if g := v.Grain(mid); g > 0.8 {
			found = append(found, coarse.At(at, photos[i].Name, g))
		}
	}
	return found
}

func middleOf(s camera.Solution) geom.Pt {
	var mid geom.Pt
	for _, c := range s.Cards {
		mid = mid.Add(c.At.Mul(1 / float64(len(s.Cards))))
	}
	return mid
}

// How far the print may be off by the tape before it is told, and before a
// single tape is not believed: printers are true to about 0.3 %, a page that was
// fitted to the paper is off by three and more (common practice).
const printWarn, printStop = 0.006, 0.012

func tapesJudged(s camera.Solution, tapes []Tape) finding.List {
	var found finding.List
	longest, apart := 0.0, 0.0
	for i, t := range tapes {
		miss, sd := math.Abs(s.TapeMiss[i]), camera.TapeSD(t.Length.MM())
		longest = max(longest, t.Length.MM())
		switch {
		case miss > max(4*sd, 2):
			found = append(found, tapeWrong.At(finding.Place{}, t.A.String(), t.B.String(), t.Length.String(), miss))
		case miss > max(2.5*sd, 1):
			found = append(found, tapeOff.At(finding.Place{}, t.A.String(), t.B.String(), t.Length.String(), miss))
		}
	}
	for _, a := range s.Cards {
		for _, b := range s.Cards {
			apart = max(apart, a.At.Dist(b.At))
		}
	}
	if longest < 0.6*apart {
		found = append(found, tapeShort.At(finding.Place{}, longest, apart, 100*2*s.ScaleSD))
	}
	word := "large"
	if s.Scale < 1 {
		word = "small"
	}
	switch off := math.Abs(s.Scale - 1); {
	case off > printStop && len(tapes) < 2:
		found = append(found, printWrong.At(finding.Place{}, 100*off, word))
	case off > printWarn:
		found = append(found, printOff.At(finding.Place{}, 100*off, word))
	}
	if len(tapes) == 1 {
		found = append(found, oneTape.At(finding.Place{}))
	}
	return found
}
