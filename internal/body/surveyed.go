package body

// offset is how much more one of our measures is than the survey's of that
// name, in mm, and its spread from body to body.
type offset struct{ mean, sd float64 }

// surveyed ties one of our measures to the survey's.
type surveyed struct {
	measure Measure
	key     string // in stats/adults.csv
	natural offset // with the waist where a belt settles
	midway  offset // with the waist between rib and hip bone
}

// The survey's waist lies at the navel, its upper arm is bent, its arm straight,
// and its knee is taken just above. Our measures differ from those by offsets
// that no open figures were at hand for: they are estimates from memory of
// older surveys, with spreads wide on purpose. A test holds them against the
// published tables that paper patterns print.
var survey = []surveyed{
	same(Height, "stature"), same(Bust, "bust"), same(Hip, "hip"), same(Neck, "neck"),
	same(Thigh, "thigh"), same(Calf, "calf"), same(Ankle, "ankle"), same(InsideLeg, "insideLeg"),
	same(Shoulder, "shoulderLen"), same(BackWidth, "backWidth"),
	{Waist, "waist", offset{-50, 35}, offset{-15, 20}},
	{BackWaist, "backWaistLen", offset{-30, 25}, offset{-10, 15}},
	{OutsideLeg, "waistHt", offset{45, 25}, offset{10, 15}},
	{CrotchTotal, "crotchLen", offset{90, 50}, offset{20, 30}},
	elsewhere(Knee, "lowerThigh", offset{-20, 15}),
	elsewhere(UpperArm, "upperArm", offset{-25, 15}),
	elsewhere(ArmLength, "armLen", offset{20, 15}),
}

func same(m Measure, key string) surveyed { return surveyed{measure: m, key: key} }
func elsewhere(m Measure, key string, o offset) surveyed {
	return surveyed{m, key, o, o}
}

// tapeSD is how far a careful reading of a home tape strays, in mm, besides
// what trained measurers do (common practice; the half of what two readings
// may differ by).
const tapeSD = 5.0

func (s surveyed) offset(waistAt string) offset {
	if waistAt == "midway" {
		return s.midway
	}
	return s.natural
}

// surveyOf returns what the survey knows a measure as; false when it has none.
func surveyOf(m Measure) (surveyed, bool) {
	for _, s := range survey {
		if s.measure == m {
			return s, true
		}
	}
	return surveyed{}, false
}
