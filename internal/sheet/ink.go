package sheet

import "gusset/internal/draw"

// The layers of a pattern sheet.
const (
	layerCut    = "cut line"
	layerSewn   = "stitching line"
	layerInside = "inside lines"
	layerMarks  = "notches and marks"
	layerLabels = "labels"
	layerScale  = "test squares and rules"
)

// Pens. What the shears follow is the heaviest line, what the machine follows
// is dashed, what only informs is thin or grey.
var (
	penCut       = draw.Pen(draw.Black, 0.5)
	penUncut     = draw.Pen(draw.Gray(150), 0.15) // the whole outline, below penCut
	penFold      = draw.DashPen(draw.Black, 0.5, 8, 2, 1.5, 2)
	penSewn      = draw.DashPen(draw.Black, 0.25, 4, 2)
	penGrain     = draw.Pen(draw.Black, 0.35)
	penTurn      = draw.DashPen(draw.Gray(60), 0.25, 7, 1.5, 1, 1.5)
	penLevel     = draw.Pen(draw.Gray(150), 0.15)
	penPlacement = draw.DashPen(draw.Gray(60), 0.3, 0.01, 1.2)
	penLengthen  = draw.DashPen(draw.Gray(90), 0.2, 3, 3)
	penStitch    = draw.DashPen(draw.Gray(60), 0.25, 2, 1)
	penNotch     = draw.Pen(draw.Black, 0.5)
	penMark      = draw.Pen(draw.Black, 0.25)
	penScale     = measure(0.2)
	penScaleFine = measure(0.12)
)

// measure returns a pen for lines that are themselves a measure.
func measure(width float64) draw.Style {
	p := draw.Pen(draw.Black, width)
	p.Cap = draw.CapButt
	return p
}
