package finding

import "fmt"

// Severity is how much a finding weighs, in rising order.
type Severity int

// The severities: Advice may be ignored, Warn should be looked at before
// cutting, Stop means that no sheet to cut from is made.
const (
	Advice Severity = iota
	Warn
	Stop
)

var severityNames = [...]string{"advice", "warn", "stop"}

// String is "advice", "warn" or "stop".
func (s Severity) String() string {
	if s < 0 || int(s) >= len(severityNames) {
		return fmt.Sprintf("severity(%d)", int(s))
	}
	return severityNames[s]
}
