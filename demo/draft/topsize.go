package main

// topSize is one row of the overshirt's body chart. All in mm.
type topSize struct {
	label     string
	step      int // position in the size list
	bust      float64
	hip       float64
	backWaist float64 // nape to natural waist
	arm       float64 // shoulder to wrist
	upperArm  float64
}

// chart rows in centimetres, as printed in pattern.yaml. Our own numbers.
var (
	topLabels    = []string{"8", "10", "12", "14", "16", "18", "20", "22"}
	topBust      = []float64{80, 84, 88, 92, 97, 102, 108, 114}
	topWaist     = []float64{62, 66, 70, 74, 79, 84, 90, 96}
	topHip       = []float64{88, 92, 96, 100, 105, 110, 115, 120}
	topBackWaist = []float64{39.5, 40, 40.5, 41, 41.5, 42, 42.5, 43}
	topArm       = []float64{57, 57.5, 58, 58.5, 59, 59.5, 60, 60.5}
	topUpperArm  = []float64{26, 27.2, 28.4, 29.6, 31.2, 32.8, 34.8, 36.8}
)

var topSizes = topSizeList()

func topSizeList() []topSize {
	out := make([]topSize, len(topLabels))
	for i, l := range topLabels {
		out[i] = topSize{
			label: l, step: i, bust: 10 * topBust[i], hip: 10 * topHip[i],
			backWaist: 10 * topBackWaist[i], arm: 10 * topArm[i], upperArm: 10 * topUpperArm[i],
		}
	}
	return out
}

// Wearing ease built into the overshirt, in mm round the body: it goes over
// other clothes.
const (
	topBustEase = 150
	topHipEase  = 110
)
