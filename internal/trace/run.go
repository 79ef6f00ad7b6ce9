package trace

import (
	"gusset/internal/finding"
	"gusset/internal/geom"
	"gusset/internal/trace/outline"
	"gusset/internal/trace/photo"
)

// Tolerance is how near the lines and curves of a traced piece come to the
// measured edge, mm, unless another is asked for.
const Tolerance = 0.25

// Traced is a piece as found on the table, in the frame of the cards.
type Traced struct {
	Table Table
	Edge  outline.Edge
	Shape outline.Shape
	Lines []outline.Ruled // straight printed lines inside, the longest first
}

// Run traces the piece in the photos. With Stop findings there is none to be
// used, but what was found up to there is returned, to be looked at.
func Run(photos []*photo.Photo, tapes []Tape, tolerance float64) (Traced, finding.List) {
	var t Traced
	if len(photos) == 0 {
		return t, finding.List{noCards.At(finding.Place{})}
	}
	var found finding.List
	t.Table, found = solveTable(photos, tapes)
	if found.Stops() > 0 {
		return t, found
	}
	at := finding.Place{File: photos[0].Name}
	rough, ok := outline.Find(t.Table.Shots, t.Table.Cards)
	if !ok {
		return t, append(found, noPiece.At(at))
	}
	found = append(found, placed(rough, at)...)
	t.Edge = outline.Measure(t.Table.Shots, rough)
	found = append(found, sharp(t.Edge, at)...)
	if found.Stops() > 0 {
		return t, found
	}
	found = append(found, flat(t, at)...)
	t.Shape = outline.Fit(t.Table.Shots, t.Edge, tolerance)
	found = append(found, smoothEnough(t.Shape, at)...)
	t.Lines = outline.Lines(t.Table.Shots, t.Edge.Points)
	return t, append(found, notchesTold(t.Shape, at)...)
}

// placed says where the piece lies badly.
func placed(r outline.Rough, at finding.Place) finding.List {
	var found finding.List
	if r.Cropped > 3 {
		found = append(found, cropped.At(at, r.Cropped))
	}
	if r.CardTouch > 8 {
		found = append(found, cardTouch.At(at, r.CardTouch))
	}
	if r.Outside > 25 && len(found) == 0 {
		found = append(found, outsideBy.At(at, r.Outside))
	}
	return found
}

// Parts of the edge that may be weak.
const weakWarn, weakStop = 0.02, 0.10

func sharp(e outline.Edge, at finding.Place) finding.List {
	switch {
	case e.Weak > weakStop:
		return finding.List{lowEdgeBad.At(at, 100*e.Weak)}
	case e.Weak > weakWarn:
		return finding.List{lowEdge.At(at, 100*e.Weak)}
	}
	return nil
}

// Distances in mm between the edges of two photos. Flat paper leaves 0.1.
const liftWarn, liftStop = 0.5, 0.9

// flat compares the photos with each other.
func flat(t Traced, at finding.Place) finding.List {
	if len(t.Table.Shots) < 2 {
		return finding.List{onePhoto.At(at)}
	}
	apart, _, compared := outline.Disagreement(t.Table.Shots, t.Edge)
	var found finding.List
	switch {
	case apart > liftStop:
		found = append(found, liftedBad.At(at, apart))
	case apart > liftWarn:
		found = append(found, lifted.At(at, apart))
	}
	if compared < 0.9 {
		found = append(found, littleSeen.At(at, 100*compared))
	}
	return found
}

// smoothEnough refuses an outline that takes many more pieces than a drafted
// one does: it follows noise.
func smoothEnough(s outline.Shape, at finding.Place) finding.List {
	n := 0
	var length float64
	for _, e := range s.Edges {
		n += len(e)
		length += e.Length()
	}
	if n > 20+int(length/60) {
		return finding.List{jagged.At(at, n, len(s.Edges))}
	}
	return nil
}

func notchesTold(s outline.Shape, at finding.Place) finding.List {
	unsure := 0
	for _, n := range s.Notches {
		if !n.Cut && !n.Out {
			unsure++
		}
	}
	if unsure == 0 {
		return nil
	}
	return finding.List{confirm.At(at, unsure, len(s.Notches))}
}

// Loop is the outline as points every tolerance mm or nearer.
func (t Traced) Loop() []geom.Pt {
	var out []geom.Pt
	for _, e := range t.Shape.Edges {
		pts := e.Flatten(0.05)
		out = append(out, pts[:len(pts)-1]...)
	}
	return out
}
