package figure

import (
	"gusset/internal/body"
	"gusset/internal/geom"
)

// course is where the tape goes for one measure: a ring round the body, or a
// line along it.
type course struct {
	measure body.Measure
	view    View
	// A ring lies between two ends on the outline.
	left, right geom.Pt
	// A line runs through its points.
	line []geom.Pt
	// tag is where the number stands, beside the figure.
	tag geom.Pt
}

// ringed reports whether the course goes round the body.
func (c course) ringed() bool { return len(c.line) == 0 }

// courses lists the course of every measure, from the head down in each view.
var courses = []course{
	{measure: body.Height, view: Front, line: []geom.Pt{pt(-400, 0), pt(-400, crown)}, tag: pt(-400, 1500)},
	{measure: body.Neck, view: Front, left: pt(-60, 1452), right: pt(60, 1452), tag: pt(230, 1500)},
	{measure: body.HighBust, view: Front, left: pt(-166, armpit), right: pt(166, armpit), tag: pt(420, 1385)},
	{measure: body.Bust, view: Front, left: pt(-159, bust), right: pt(159, bust), tag: pt(420, bust)},
	{measure: body.Waist, view: Front, left: pt(-131, waist), right: pt(131, waist), tag: pt(420, waist)},
	{measure: body.Hip, view: Front, left: pt(-172, hip), right: pt(172, hip), tag: pt(420, hip)},
	{measure: body.Thigh, view: Front, left: pt(4, 780), right: pt(171, 780), tag: pt(420, 660)},
	{measure: body.Knee, view: Front, left: pt(36, knee), right: pt(135, knee), tag: pt(420, knee)},
	{measure: body.Calf, view: Front, left: pt(28, 350), right: pt(143, 350), tag: pt(420, 330)},
	{measure: body.Ankle, view: Front, left: pt(56, 100), right: pt(116, 100), tag: pt(420, 100)},
	{measure: body.InsideLeg, view: Front, line: []geom.Pt{pt(0, fork), pt(0, 0)}, tag: pt(-230, 330)},
	{measure: body.Shoulder, view: Back, line: []geom.Pt{pt(66, 1446), pt(130, 1412), pt(182, 1392)}, tag: pt(330, 1470)},
	{measure: body.BackWidth, view: Back, line: []geom.Pt{pt(-170, 1320), pt(170, 1320)}, tag: pt(420, 1360)},
	{measure: body.BackWaist, view: Back, line: []geom.Pt{pt(0, nape), pt(0, waist)}, tag: pt(-420, 1450)},
	{measure: body.UpperArm, view: Back, left: pt(-242, 1250), right: pt(-180, 1236), tag: pt(-420, 1270)},
	{measure: body.ArmLength, view: Back, line: []geom.Pt{pt(182, 1392), pt(214, 1340), pt(236, 1210), pt(252, 1090), pt(288, 960), pt(322, 840)}, tag: pt(420, 1150)},
	{measure: body.OutsideLeg, view: Back, line: []geom.Pt{pt(-131, waist), pt(-150, 980), pt(-176, 860), pt(-182, 700), pt(-186, 400), pt(-188, 0)}, tag: pt(-420, 560)},
	{measure: body.CrotchTotal, view: Side, line: []geom.Pt{pt(-112, waist), pt(-116, 980), pt(-106, 890), pt(-60, 824), pt(0, 806), pt(66, 810), pt(116, 826), pt(135, 866), pt(122, 940), pt(86, 1010), pt(72, waist)}, tag: pt(270, 940)},
	{measure: body.BodyRise, view: Sitting, line: []geom.Pt{pt(-20, 746), pt(-20, seat)}, tag: pt(270, 620)},
}
