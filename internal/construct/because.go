package construct

import "fmt"

// Reasons why one work comes before another, in trade words: %[1]s is the
// earlier, %[2]s the later.
const (
	sameEdge      = "%[1]s and %[2]s take the same edge, and %[2]s covers it"
	runsAcross    = "%[2]s runs across the end of %[1]s"
	setWhileFlat  = "%[1]s is set while its piece lies flat, and %[2]s closes that"
	setOverDart   = "%[2]s is set across %[1]s"
	finishedFirst = "%[2]s closes up the end of %[1]s"
	closesOn      = "%[2]s works on the edge that %[1]s closes"
	madeIn        = "%[2]s is made in the finished %[1]s"
	closesOff     = "%[2]s closes off the end of %[1]s"
	finishedOn    = "%[2]s ends on the finished %[1]s"
	turnedFirst   = "%[2]s holds a ply that %[1]s turns in"
	catches       = "%[2]s catches the end of %[1]s"
)

// because fills the names of two works into a reason.
func (b *builder) because(reason string, earlier, later *work) string {
	return fmt.Sprintf(reason, b.itemWords(earlier), b.itemWords(later))
}
