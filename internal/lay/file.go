package lay

import (
	"gusset/internal/cloth"
	"gusset/internal/finding"
	"gusset/internal/unit"
)

// Version is the newest version of lay files that is read.
const Version = 1

// File is a lay written down: by hand, to be judged and gone on from, or kept.
// Distances are those of the lay chart: along the cloth from the line squared
// inside its cut end, across it from the outer edge of the near selvedge, or
// from the fold where a section is folded lengthwise.
type File struct {
	Name     string // file name without ending
	Title    string
	Docket   string     // name of the docket it was laid for
	Cloth    string     // name of the cloth
	Role     cloth.Role // what the cloth is for
	Digest   string     // of what it was made from, as Digest gives it; empty in files written by hand
	Sections []FileSection
	Pieces   []FilePiece
	Place    finding.Place
}

// FileSection is how a stretch of the cloth lies.
type FileSection struct {
	Fold Fold
	// From and To are along the cloth; without HasFrom the section begins where
	// the one before ends, without HasTo it ends where its pieces do.
	From, To       unit.Length
	HasFrom, HasTo bool
	// Depth is how far the near selvedge is folded over, from its inner border;
	// without HasDepth the cloth is folded selvedge to selvedge.
	Depth    unit.Length
	HasDepth bool
	Place    finding.Place
}

// FilePiece is where one piece is to lie.
type FilePiece struct {
	ID      string // "front@left"
	Section int    // from 0
	// Placed tells that it has a place; without, one is to be found.
	Placed bool
	// Along and Across find the top of its grain line; of its fold line where it
	// lies on the fold, or is half of a piece without a grain line and lies opened
	// out; without either, the middle of its upper side.
	Along, Across unit.Length
	Turned        bool    // the top points to the cut end
	FaceDown      bool    // the cut piece lies turned over, as one of a pair may
	Tilt          float64 // degrees off the grain, counter-clockwise
	Plies         int     // 1 or 2; 0 for as many as the section has
	Pinned        bool    // stays where it is
	Place         finding.Place
}

// AllPinned is the file with every written piece pinned.
func (f File) AllPinned() File {
	pieces := make([]FilePiece, len(f.Pieces))
	for i, p := range f.Pieces {
		p.Pinned = p.Placed
		pieces[i] = p
	}
	f.Pieces = pieces
	return f
}

// PlaceOf is where the file speaks of a piece; the file itself where it does
// not.
func (f File) PlaceOf(id string) finding.Place {
	for _, p := range f.Pieces {
		if p.ID == id {
			return p.Place
		}
	}
	return f.Place
}

// Holds tells that the file has a piece pinned.
func (f File) Holds(id string) bool {
	for _, p := range f.Pieces {
		if p.ID == id {
			return p.Pinned
		}
	}
	return false
}
