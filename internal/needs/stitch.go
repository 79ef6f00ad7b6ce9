package needs

// Sources of the figures below.
const (
	textile101 = "formula 3N + 2T (textileblog.com, thread consumption)"
	textile301 = "formula 2N + 2T (textilecalculations.com, thread consumption)"
	bulletin   = "formula 4N + 2T (reproduces the 401 chart in a thread maker's technical bulletin)"
	single504  = "formula 3N + 4W + 4T, W 5 mm (one published source, constant not confirmed)"
	carrLatham = "ratio list after Carr & Latham, The Technology of Clothing Manufacture (second hand)"
)

// overedgeWidth is the width of an overedge seam in mm, needle to edge
// (common practice for woven cloth).
const overedgeWidth = 5

// figure is the thread in one stitch: along times the stitch length, through
// times the thickness of all plies, across times the width of the seam.
type figure struct {
	along, through, across float64
	source                 string
}

// stitch is what is known of one stitch type.
type stitch struct {
	ratio   float64 // published thread : seam, at ordinary densities
	source  string  // of ratio
	figure  figure  // zero when no formula was found
	needles int     // needle threads
	unders  int     // bobbin and looper threads
	// onNeedle is the part of the thread that the needles take (a thread
	// maker's stitch guide at 7 stitches a cm, from memory; 25 % for 401 is
	// confirmed by a published worked example of 220 cm).
	onNeedle float64
}

// stitches by ISO 4915 number. Published lists disagree (304 is 5.5 in another
// list, 101 is 5), so the ratio is only as good as the source it names.
var stitches = map[string]stitch{
	"101": {4, carrLatham, figure{3, 2, 0, textile101}, 1, 0, 1},
	"301": {2.5, carrLatham, figure{2, 2, 0, textile301}, 1, 1, 0.5},
	"304": {7, carrLatham, figure{}, 1, 1, 0.5},
	"401": {5.5, carrLatham, figure{4, 2, 0, bulletin}, 1, 1, 0.25},
	"406": {18, carrLatham, figure{}, 2, 1, 0.3},
	"503": {12, carrLatham, figure{}, 1, 1, 0.55},
	"504": {14, carrLatham, figure{3, 4, 4, single504}, 1, 2, 0.2},
	"512": {18, carrLatham, figure{}, 2, 2, 0.25},
	"516": {20, carrLatham, figure{}, 2, 3, 0.2},
}

// Ratio is thread length over seam length, for the needle threads together and
// for those under the cloth (bobbin, loopers) together.
type Ratio struct {
	Needle, Under float64
	Source        string
}

// Total is all thread over seam length.
func (r Ratio) Total() float64 { return r.Needle + r.Under }

// RatioOf gives the thread ratio of a stitch by its ISO 4915 number, for
// stitches of the given length through cloth of the given thickness, both in
// mm. With either of them 0 (not known) it is the published ratio. False for a
// stitch of which nothing is known.
func RatioOf(number string, length, thickness float64) (Ratio, bool) {
	s, ok := stitches[number]
	if !ok {
		return Ratio{}, false
	}
	total, source := s.ratio, s.source
	if f := s.figure; f.source != "" && length > 0 && thickness > 0 {
		total = f.along + (float64(f.through*thickness)+float64(f.across*overedgeWidth))/length
		source = f.source
	}
	needle := float64(total * s.onNeedle)
	return Ratio{Needle: needle, Under: total - needle, Source: source}, true
}
