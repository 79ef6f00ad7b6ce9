package docket

import (
	"gusset/internal/cloth"
	"gusset/internal/piece"
	"gusset/internal/source"
	"gusset/internal/unit"
)

// The changes of tops.
const (
	ShoulderSlope ChangeKind = "shoulder-slope" // square shoulders; negative for sloping ones
	ShoulderWidth ChangeKind = "shoulder-width" // wider shoulders; negative for narrower ones
	RoundBack     ChangeKind = "round-back"     // a longer upper back; negative for an erect one
	UpperArm      ChangeKind = "upper-arm"      // a wider sleeve at the upper arm; negative for a narrower one
	FullBust      ChangeKind = "full-bust"      // a fuller bust by cut and spread; negative for a smaller one
	ArmholeDepth  ChangeKind = "armhole-depth"  // a deeper armhole with its sleeve; negative for a shallower one
	AddPocket     ChangeKind = "add-pocket"     // a patch pocket and its place
	Face          ChangeKind = "face"           // shaped facings in place of a hem or another finish
	Overlap       ChangeKind = "overlap"        // a wider extension of a button front; negative for a narrower one
	Shrinkage     ChangeKind = "shrinkage"      // pieces drawn larger for cloth that is cut unwashed
)

var topKinds = []ChangeKind{ShoulderSlope, ShoulderWidth, RoundBack, UpperArm, FullBust, ArmholeDepth, AddPocket, Face, Overlap, Shrinkage}

// mostShrinkage is the most that washing takes from any cloth worth cutting.
const mostShrinkage = 0.25

// leastPocket is the least width and depth of a pocket, in mm.
const leastPocket = 40

// leastFacing is the least width of a facing, in mm, and usualFacing the method
// that sews it unless the docket names another.
const (
	leastFacing = 15
	usualFacing = "facing"
)

// usualDart is how far below the armhole the bust dart opens in the side when
// the docket does not say (common practice).
var usualDart = unit.Of(6, unit.Centimetre)

// topSteps read the changes of tops.
var topSteps = map[ChangeKind]step{
	ShoulderSlope: shoulderBy,
	ShoulderWidth: shoulderBy,
	RoundBack: func(_ reader, m *source.Map, c *Change) {
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
		c.At = m.StringOr("at", "blade")
		c.Edge = m.StringOr("armhole", "armhole")
	},
	UpperArm: func(_ reader, m *source.Map, c *Change) {
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
		c.At = m.StringOr("at", "upper-arm")
	},
	FullBust: func(r reader, m *source.Map, c *Change) {
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
		c.At = m.StringOr("apex", "apex")
		c.Edge = m.StringOr("armhole", "armhole")
		c.Item = m.StringOr("side", "side")
		c.Where = m.LengthOr("dart", "", 1, mostPiece, usualDart)
		c.Method = "dart"
		if m.Has("method") {
			c.Method = nameOf(m.Key("method"), r.out)
		}
	},
	ArmholeDepth: shoulderBy,
	AddPocket: func(r reader, m *source.Map, c *Change) {
		c.Piece = nameOf(m.Required().Key("piece"), r.out)
		c.Edge = r.edge(m.Required().Key("from"))
		c.Where = m.Required().Length("in", "", 0, mostPiece)
		c.At = m.Required().String("level")
		c.By = m.Required().Length("below", "", -mostPiece, mostPiece)
		c.Wide = m.Required().Length("wide", "", leastPocket, mostPiece)
		c.Deep = m.Required().Length("deep", "", leastPocket, mostPiece)
		if m.Has("hand") {
			c.Hand = piece.Copy(m.Word("hand", string(piece.Left), string(piece.Right)))
		}
		c.Method = "patch-pocket"
		if m.Has("method") {
			c.Method = nameOf(m.Key("method"), r.out)
		}
	},
	Face: func(r reader, m *source.Map, c *Change) {
		c.Item = nameOf(m.Required().Key("finish"), r.out)
		c.By = m.Required().Length("width", "", leastFacing, mostHem)
		c.Method = usualFacing
		if m.Has("method") {
			c.Method = nameOf(m.Key("method"), r.out)
		}
	},
	Overlap: func(_ reader, m *source.Map, c *Change) {
		c.Edge = m.StringOr("edge", "edge")
		c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
	},
	Shrinkage: func(_ reader, m *source.Map, c *Change) {
		c.Cloth = cloth.Role(m.WordOr("cloth", string(cloth.Main), clothWords()...))
		c.Warp = m.Required().Percent("warp", 0, mostShrinkage)
		c.Weft = m.Required().Percent("weft", 0, mostShrinkage)
	},
}

// shoulderBy reads an amount at the shoulder, and the seams that make it.
func shoulderBy(_ reader, m *source.Map, c *Change) {
	c.By = m.Required().Length("by", "", -mostSeam, mostSeam)
	c.Item = m.StringOr("seam", "shoulder")
	c.Edge = m.StringOr("armhole", "armhole")
}

func clothWords() []string {
	words := make([]string, len(cloth.Roles))
	for i, r := range cloth.Roles {
		words[i] = string(r)
	}
	return words
}
