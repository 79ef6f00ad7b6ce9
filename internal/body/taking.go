package body

// Taking says how one measure is taken.
type Taking struct {
	Measure Measure
	Title   string
	How     string
	Slip    string // what goes wrong most often; empty when nothing stands out
	Source  string // of how it is taken
}

const (
	isoSeen   = "ISO 8559-1"
	enSeen    = "EN 13402-1"
	isoMemory = "ISO 8559-1, from memory"
	practice  = "common practice"
)

// Takings lists how each measure is taken, from the head down; a measure's
// number on drawings and sheets is its place in this list, counted from 1.
var Takings = []Taking{
	{
		Height, "height", "without shoes, heels together and against a wall; a book held level on the crown, down from its lower edge to the floor",
		"", isoMemory,
	},
	{
		Neck, "neck", "round the neck, over the bone at the nape and 2 cm below the Adam's apple",
		"a tape that climbs at the back", isoSeen,
	},
	{
		Shoulder, "shoulder length", "from where neck and shoulder meet to the outer edge of the shoulder bone, along the top",
		"the edge is the bone, not where a sleeve falls", isoMemory,
	},
	{
		BackWidth, "back width", "level across the back from arm crease to arm crease, arms hanging",
		"shoulders drawn back", isoMemory,
	},
	{
		HighBust, "high bust", "round the body high under the arms, over the shoulder blades and above the fullest part in front",
		"a tape that sags at the back", practice,
	},
	{
		Bust, "bust or chest", "level round the fullest part, under the arms, breathing quietly, over what is worn under the garment",
		"a tape that sags at the back, or a breath held", enSeen,
	},
	{
		BackWaist, "back waist length", "from the bone at the nape down the middle of the back to the waist",
		"head bent forward", isoSeen,
	},
	{
		UpperArm, "upper arm", "round the fullest part of the upper arm, arm hanging",
		"a muscle tensed", isoMemory,
	},
	{
		ArmLength, "arm length", "from the outer edge of the shoulder bone over the bent elbow to the wrist bone, fist on hip",
		"an arm held straight reads shorter", isoMemory,
	},
	{
		Waist, "waist", "tie a cord round and bend from side to side; natural: where the cord settles; midway: level, between the lowest rib and the hip bone",
		"stomach drawn in; a waist where trousers are worn, which is lower", isoSeen,
	},
	{
		Hip, "hip", "level round the fullest part of the seat, feet together, pockets empty",
		"a tape above the fullest part: look from the side, and slide it up and down for the most", isoMemory,
	},
	{
		CrotchTotal, "crotch length", "from the waist in front between the legs to the waist at the back, close but not tight; keys on a string at the fork part front from back",
		"a tape pulled tight", practice,
	},
	{
		BodyRise, "body rise", "sitting upright on a hard seat, at the side from the waist down to the seat",
		"a soft chair", isoMemory,
	},
	{
		Thigh, "thigh", "level round the fullest part of one thigh, high up, weight on both feet",
		"weight on the other leg", isoMemory,
	},
	{
		Knee, "knee", "round the middle of the knee cap, leg straight",
		"", isoMemory,
	},
	{
		Calf, "calf", "level round the fullest part of the calf, weight on both feet",
		"", isoMemory,
	},
	{
		Ankle, "ankle", "round the smallest part, just above the ankle bones",
		"", isoMemory,
	},
	{
		InsideLeg, "inside leg", "from the fork straight down to the floor, feet a little apart, without shoes; a thin book pressed up marks the fork",
		"measured down trousers that hang low", isoMemory,
	},
	{
		OutsideLeg, "outside leg", "at the side from the waist over the hip to the floor",
		"another waist than the one measured", isoMemory,
	},
}

// NumberOf returns the place of a measure in Takings, counted from 1; 0 for
// none.
func NumberOf(m Measure) int {
	for i, t := range Takings {
		if t.Measure == m {
			return i + 1
		}
	}
	return 0
}

// Preparing says what comes before the first measure.
const Preparing = "Measure over what will be worn underneath, standing as you always stand, with a tape that has not stretched: " +
	"hold it against a steel rule first. Tie a cord where the waist settles and leave it there. The tape lies flat and level, " +
	"close enough not to slip and loose enough for one finger. Have someone else read it if you can: bending to look moves it. " +
	"Where there are two blanks, take the tape off in between."
