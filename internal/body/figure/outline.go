package figure

import (
	"gusset/internal/geom"
)

// View is a side the figure is seen from.
type View int

// The views, in the order they are drawn from the left.
const (
	Front View = iota
	Back
	Side
	Sitting
)

// Titles are the views' names.
var Titles = [...]string{Front: "from the front", Back: "from the back", Side: "from the side", Sitting: "sitting"}

// Heights of the figure's landmarks above the floor: all but the chin are the
// means of the women's and men's means of the survey; the waist is put 5 cm above
// the survey's navel, where a belt settles.
const (
	crown    = 1692.0
	chin     = 1478.0
	nape     = 1456.0
	shoulder = 1388.0
	armpit   = 1284.0
	bust     = 1231.0
	waist    = 1068.0
	hip      = 861.0
	fork     = 814.0
	knee     = 469.0
	seat     = 440.0 // of the stool, a usual chair's height
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

// Half the outline seen from the front: the side of the body from the neck down
// to the foot and up the inner leg, and the arm. The other half is its mirror
// image.
var (
	neckLine  = []geom.Pt{pt(52, 1500), pt(54, 1466), pt(72, 1440), pt(130, 1412), pt(178, 1394)}
	arm       = []geom.Pt{pt(178, 1394), pt(214, 1368), pt(232, 1310), pt(252, 1200), pt(275, 1090), pt(312, 960), pt(338, 850), pt(354, 800), pt(362, 752), pt(356, 716), pt(342, 706), pt(328, 718), pt(318, 756), pt(312, 800), pt(304, 852), pt(264, 965), pt(222, 1095), pt(190, 1200), pt(166, 1284)}
	bodySide  = []geom.Pt{pt(166, 1284), pt(158, 1225), pt(140, 1140), pt(131, 1068), pt(146, 980), pt(170, 880), pt(173, 820), pt(168, 740), pt(148, 580), pt(135, 469), pt(143, 350), pt(128, 200), pt(116, 92), pt(122, 40), pt(150, 14)}
	footFront = []geom.Pt{pt(150, 14), pt(146, 3), pt(136, 0), pt(76, 0), pt(66, 3), pt(62, 14)}
	legInner  = []geom.Pt{pt(62, 14), pt(58, 50), pt(56, 92), pt(46, 200), pt(28, 350), pt(36, 469), pt(22, 600), pt(8, 740), pt(0, 814)}
)

// The outline seen from the side, the figure looking left: down the front and
// the back, and the foot.
var (
	profileFront = []geom.Pt{pt(-52, 1492), pt(-50, 1450), pt(-74, 1400), pt(-120, 1310), pt(-146, 1231), pt(-128, 1150), pt(-112, 1068), pt(-116, 980), pt(-110, 880), pt(-102, 800), pt(-100, 700), pt(-86, 560), pt(-72, 469), pt(-62, 400), pt(-58, 300), pt(-48, 180), pt(-50, 100), pt(-110, 52), pt(-176, 22)}
	profileFoot  = []geom.Pt{pt(-176, 22), pt(-178, 8), pt(-166, 0), pt(48, 0), pt(58, 8), pt(62, 40)}
	profileBack  = []geom.Pt{pt(62, 40), pt(42, 110), pt(56, 220), pt(84, 340), pt(70, 420), pt(56, 480), pt(80, 640), pt(92, 770), pt(112, 800), pt(134, 861), pt(122, 940), pt(86, 1010), pt(72, 1068), pt(88, 1160), pt(106, 1270), pt(102, 1360), pt(72, 1430), pt(52, 1470), pt(48, 1520)}
)

// The outline of the figure that sits looking left, from the waist down: over
// the thigh and down the shin, and from the back over the seat.
var (
	sitFront = []geom.Pt{pt(-52, 1170), pt(-50, 1128), pt(-74, 1078), pt(-120, 988), pt(-146, 909), pt(-128, 828), pt(-118, 746), pt(-130, 660), pt(-170, 606), pt(-330, 588), pt(-470, 580), pt(-520, 540), pt(-514, 440), pt(-508, 300), pt(-498, 180), pt(-500, 100), pt(-560, 52), pt(-626, 22)}
	sitFoot  = []geom.Pt{pt(-626, 22), pt(-628, 8), pt(-616, 0), pt(-402, 0), pt(-392, 8), pt(-388, 40)}
	sitBack  = []geom.Pt{pt(-388, 40), pt(-408, 110), pt(-394, 220), pt(-366, 340), pt(-376, 420), pt(-300, 440), pt(-80, 440), pt(70, 440), pt(128, 486), pt(134, 560), pt(104, 660), pt(72, 746), pt(88, 838), pt(106, 948), pt(102, 1038), pt(72, 1108), pt(52, 1148), pt(48, 1198)}
)

// standing returns the outline from the front or the back, each run once and
// once mirrored.
func standing() []geom.Curve {
	var out []geom.Curve
	for _, run := range [][]geom.Pt{neckLine, arm, bodySide, legInner} {
		c := geom.Smooth(run, geom.Pt{}, geom.Pt{})
		out = append(out, c, mirrored(c))
	}
	sole := geom.Polyline(footFront...)
	return append(out, sole, mirrored(sole))
}

func mirrored(c geom.Curve) geom.Curve { return c.Transform(geom.Affine{A: -1, D: 1}) }

// profile returns the outline from the side, standing or sitting.
func profile(v View) []geom.Curve {
	front, foot, back := profileFront, profileFoot, profileBack
	if v == Sitting {
		front, foot, back = sitFront, sitFoot, sitBack
	}
	return []geom.Curve{geom.Smooth(front, geom.Pt{}, geom.Pt{}), geom.Polyline(foot...), geom.Smooth(back, geom.Pt{}, geom.Pt{})}
}
