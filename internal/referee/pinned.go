package referee

import (
	"math"

	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/finish"
	"gusset/internal/lay"
	"gusset/internal/piece"
)

// CheckWritten is Check for a lay made by a file: besides the rules of cutting
// out, every piece that is pinned there lies where it was written, to the
// micrometre.
func CheckWritten(cuts []finish.Cut, c cloth.Cloth, l lay.Lay, f lay.File) finding.List {
	out := Check(cuts, c, l)
	for _, p := range f.Pieces {
		if !p.Pinned {
			continue
		}
		if k, wrong := strayed(c, l, f, p); wrong {
			out = append(out, pinMoved.At(p.Place.OnPiece(k.Piece, string(k.Copy), ""), p.ID))
		}
	}
	return out
}

// strayed tells that a pinned piece does not lie as it was written.
func strayed(c cloth.Cloth, l lay.Lay, f lay.File, p lay.FilePiece) (finish.Cut, bool) {
	for _, q := range l.Placed {
		if q.Cut.ID != p.ID {
			continue
		}
		if q.Section < 0 || q.Section >= len(l.Sections) || p.Section >= len(f.Sections) {
			return q.Cut, true
		}
		s := l.Sections[q.Section]
		plies := p.Plies
		if plies == 0 {
			if plies = 2; s.Fold == lay.Flat {
				plies = 1
			}
		}
		top := -90.0
		if p.Turned {
			top = 90
		}
		across := micron(p.Across.MM())
		if s.Fold != lay.Along {
			across -= micron(c.Selvedge.MM() * (1 - c.ShrinkWeft))
		}
		at := point{X: micron(p.Along.MM()) + squaring, Y: across}
		return q.Cut, s.Fold != f.Sections[p.Section].Fold || q.Layers != plies || q.Flip != p.FaceDown ||
			math.Abs(q.Degrees-top-p.Tilt) > 1e-9 || !near(gripped(q), at, p.Tilt)
	}
	return finish.Cut{Piece: p.ID}, true
}

// squaring is the cloth lost at the cut end, micrometres.
const squaring = lay.Squaring * 1000

// near allows for the rounding of a point that is turned off the grain.
func near(a, b point, tilt float64) bool {
	most := int64(0)
	if tilt != 0 {
		most = rounding
	}
	return max(a.X-b.X, b.X-a.X, a.Y-b.Y, b.Y-a.Y) <= most
}

// gripped is where the point lies that written distances lead to: the top of
// the grain line, of the fold line on the fold, or else the middle of the upper
// side.
func gripped(q lay.Placed) point {
	at := topOf(q.Cut)
	if quarters, ok := quarterTurns(q.Degrees); ok {
		return ring{at}.put(q.Flip, quarters, point{X: q.AtX, Y: q.AtY})[0]
	}
	x, y := float64(at.X), float64(at.Y)
	if q.Flip {
		x = -x
	}
	s, c := math.Sincos(q.Degrees * math.Pi / 180)
	return point{X: int64(math.Round(x*c-y*s)) + q.AtX, Y: int64(math.Round(x*s+y*c)) + q.AtY}
}

func topOf(k finish.Cut) point {
	if k.OnFold {
		if k.Fold[0].Y > k.Fold[1].Y {
			return k.Fold[0]
		}
		return k.Fold[1]
	}
	for _, line := range k.Sewn.Lines {
		if line.Kind != piece.Grain || len(line.Curve) == 0 {
			continue
		}
		a, b := line.Curve.Start(), line.Curve.End()
		if a.Y < b.Y {
			a = b
		}
		return point{X: micron(a.X), Y: micron(a.Y)}
	}
	b := boxOf(k.Outline...)
	return point{X: (b.lo.X + b.hi.X) / 2, Y: b.hi.Y}
}
