package docket

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gusset/internal/cloth"
	"gusset/internal/unit"
)

// Written is a step as it stands in a docket, on one line: what Load makes the
// same step of. What may be left out and is as usual is left out.
func Written(c Change) string {
	return fmt.Sprintf("{id: %s, %s: {%s}}", c.ID, c.Kind, strings.Join(writers[c.Kind](c), ", "))
}

// writers have one function for each kind, which writes its fields in the order
// of the loader.
var writers = map[ChangeKind]func(Change) []string{
	Lengthen: func(c Change) []string { return said("at", c.At, "by", c.By.String()) },
	HemGirth: func(c Change) []string { return said("edge", c.Edge, "to", c.To.String(), "from", c.From) },
	MoveHem:  func(c Change) []string { return said("edge", c.Edge, "by", c.By.String()) },
	CopyEdge: func(c Change) []string { return said("edge", quoted(c.Edge), "from", quoted(c.From)) },
	CutFrom:  func(c Change) []string { return said("piece", c.Piece, "cloth", string(c.Cloth)) },
	Divide: func(c Change) []string {
		return said("piece", c.Piece, "at", c.Where.String(), "method", unless(c.Method, pressedOpen))
	},
	SlantPocket: func(c Change) []string {
		return said("side", quoted(c.Edge), "in", c.Where.String(), "down", c.By.String(), "wide", c.Wide.String(), "deep", c.Deep.String(),
			"bag", unless(string(c.Cloth), string(cloth.Pocketing)), "instead-of", c.Other, "method", unless(c.Method, usualMouth))
	},
	TakeIn: func(c Change) []string {
		return said("seam", c.Item, "by", c.By.String(), "at", c.At, "from", c.From, "to", c.Upto)
	},
	ShoulderSlope: shoulderWritten,
	ShoulderWidth: shoulderWritten,
	ArmholeDepth:  shoulderWritten,
	RoundBack: func(c Change) []string {
		return said("by", c.By.String(), "at", unless(c.At, "blade"), "armhole", unless(c.Edge, "armhole"))
	},
	UpperArm: func(c Change) []string { return said("by", c.By.String(), "at", unless(c.At, "upper-arm")) },
	FullBust: func(c Change) []string {
		return said("by", c.By.String(), "apex", unless(c.At, "apex"), "armhole", unless(c.Edge, "armhole"),
			"side", unless(c.Item, "side"), "dart", c.Where.String(), "method", unless(c.Method, "dart"))
	},
	AddPocket: func(c Change) []string {
		return said("piece", c.Piece, "from", quoted(c.Edge), "in", c.Where.String(), "level", c.At, "below", c.By.String(),
			"wide", c.Wide.String(), "deep", c.Deep.String(), "hand", string(c.Hand), "method", unless(c.Method, "patch-pocket"))
	},
	Face: func(c Change) []string {
		return said("finish", c.Item, "width", c.By.String(), "method", unless(c.Method, usualFacing))
	},
	Overlap: func(c Change) []string { return said("by", c.By.String(), "edge", unless(c.Edge, "edge")) },
	Shrinkage: func(c Change) []string {
		return said("cloth", unless(string(c.Cloth), string(cloth.Main)), "warp", percent(c.Warp), "weft", percent(c.Weft))
	},
	CrotchDepth:  func(c Change) []string { return said("at", c.At, "by", c.By.String()) },
	CrotchLength: func(c Change) []string { return said("seam", c.Item, "by", c.By.String(), "to", c.From) },
	FullSeat:     func(c Change) []string { return said("seam", c.Item, "by", c.By.String(), "at", c.At) },
	HollowBack:   func(c Change) []string { return said("seam", c.Item, "by", c.By.String(), "at", c.At) },
	RaiseEdge:    func(c Change) []string { return said("edge", c.Edge, "by", c.By.String()) },
	Straighten:   func(c Change) []string { return said("edge", c.Edge, "from", c.From, "to", length(c.To)) },
	PivotDart:    func(c Change) []string { return said("dart", c.Item, "to", c.Spot.written()) },
	MoveDart:     func(c Change) []string { return said("dart", c.Item, "by", c.By.String(), "towards", c.Edge) },
	DartLength:   func(c Change) []string { return said("dart", c.Item, "by", c.By.String()) },
	DivideDart: func(c Change) []string {
		return said("dart", c.Item, "to", c.Spot.written(), "share", percent(c.Share))
	},
	MergeDarts: func(c Change) []string { return said("keep", c.Item, "close", c.Other) },
	GatherDart: func(c Change) []string { return said("dart", c.Item, "method", unless(c.Method, usualGathers)) },
	Spread: func(c Change) []string {
		return said("open", c.Spot.written(), "hinge", c.Hinge.written(), "by", c.By.String(), "even", yes(c.Even), "gather", yes(c.Gather))
	},
	AddPleat: func(c Change) []string {
		return said("from", c.Spot.written(), "to", c.Hinge.written(), "depth", c.By.String(), "stitched", length(c.Where), "method", unless(c.Method, usualPleat))
	},
	SetAllowance: func(c Change) []string { return said("edge", quoted(c.Edge), "to", c.To.String()) },
	FoldToSeam: func(c Change) []string {
		return said("piece", c.Piece, "allowance", c.To.String(), "method", unless(c.Method, pressedOpen))
	},
	SeamToFold: func(c Change) []string { return said("piece", c.Piece) },
	JoinPieces: func(c Change) []string { return said("seam", c.Item) },
	Settle:     func(c Change) []string { return said("seam", c.Item, "how", string(c.How)) },
	RunOn:      func(c Change) []string { return said("across", c.Item, "reach", c.By.String()) },
	SmoothEdge: func(c Change) []string { return said("edge", quoted(c.Edge)) },
	SetFinish: func(c Change) []string {
		var values []string
		for _, name := range slices.Sorted(maps.Keys(c.Values)) {
			values = append(values, fmt.Sprintf("%s: %s", name, c.Values[name]))
		}
		list := ""
		if len(values) > 0 {
			list = "{" + strings.Join(values, ", ") + "}"
		}
		return said("item", c.Item, "method", c.Method, "values", list)
	},
}

func shoulderWritten(c Change) []string {
	return said("by", c.By.String(), "seam", unless(c.Item, "shoulder"), "armhole", unless(c.Edge, "armhole"))
}

func percent(share float64) string { return fmt.Sprintf("%.6g %%", 100*share) }

// said pairs keys with values and leaves out those without.
func said(pairs ...string) []string {
	var out []string
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			out = append(out, pairs[i]+": "+pairs[i+1])
		}
	}
	return out
}

func (s Spot) written() string {
	at := s.At
	if at == "" {
		at = s.Along.String()
	}
	return "{" + strings.Join(said("edge", quoted(s.Edge), "at", at, "from", s.From), ", ") + "}"
}

// String says a place in words: "hip of front:side".
func (s Spot) String() string {
	switch {
	case s.At != "":
		return s.At + " of " + s.Edge
	case s.From != "":
		return s.Along.String() + " from " + s.From + " on " + s.Edge
	}
	return s.Along.String() + " along " + s.Edge
}

func quoted(s string) string { return `"` + s + `"` }

func yes(b bool) string {
	if b {
		return "yes"
	}
	return ""
}

func unless(s, usual string) string {
	if s == usual {
		return ""
	}
	return s
}

func length(l unit.Length) string {
	if l.IsZero() {
		return ""
	}
	return l.String()
}
