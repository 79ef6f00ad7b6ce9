package main

// size is one row of the pattern's body chart, with the drafting measures that
// the chart does not print. All in mm.
type size struct {
	label     string
	step      int // position in the size list
	waist     float64
	hip       float64
	thigh     float64
	insideLeg float64
	rise      float64 // body rise: waist to seat, sitting, at the side
}

const inch = 25.4

// chart rows in inches, as printed in pattern.yaml. Our own numbers.
var (
	labels         = []string{"8", "10", "12", "14", "16", "18", "20"}
	chartWaist     = []float64{26.5, 28, 29.5, 31.5, 33.5, 36, 38.5}
	chartHip       = []float64{35.5, 37, 38.5, 40.5, 42.5, 45, 47.5}
	chartThigh     = []float64{20.75, 21.5, 22.25, 23.5, 24.75, 26.5, 28}
	chartInsideLeg = []float64{29.5, 29.75, 30, 30.25, 30.5, 30.75, 31}
	bodyRise       = []float64{265, 271, 277, 284, 291, 300, 309}
)

var sizes = sizeList()

func sizeList() []size {
	out := make([]size, len(labels))
	for i, l := range labels {
		out[i] = size{
			label: l, step: i,
			waist: chartWaist[i] * inch, hip: chartHip[i] * inch,
			thigh: chartThigh[i] * inch, insideLeg: chartInsideLeg[i] * inch,
			rise: bodyRise[i],
		}
	}
	return out
}

// Wearing ease built into the draft, in mm round the body: room to sit and
// climb a ladder in cloth that does not stretch.
const (
	waistEase = 40
	hipEase   = 64
)
