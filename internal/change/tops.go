package change

import "gusset/internal/docket"

// topChanges are the changes of tops.
var topChanges = map[docket.ChangeKind]func(j *job) string{
	docket.ShoulderSlope: shoulderSlope,
	docket.ShoulderWidth: shoulderWidth,
	docket.RoundBack:     roundBack,
	docket.UpperArm:      upperArm,
	docket.FullBust:      fullBust,
	docket.ArmholeDepth:  armholeDepth,
	docket.AddPocket:     addPocket,
	docket.Face:          face,
	docket.Overlap:       overlap,
	docket.Shrinkage:     shrinkage,
}
