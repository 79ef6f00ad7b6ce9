package reach

// Level says how well a line can be got at. A higher one is worse.
type Level int

// The levels.
const (
	Easy       Level = iota // laid open under the foot
	RoundArm                // slipped round the free arm, or sewn inside the ring on the flat bed
	Awkward                 // the cloth has to be bunched up on the arm
	ByHand                  // no machine gets there, a hand does
	Impossible              // nothing does
)

var levelWords = [...]string{"easy", "round the arm", "awkward", "by hand", "impossible"}

// String is the level in words.
func (l Level) String() string { return levelWords[l] }
