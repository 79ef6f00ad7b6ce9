package machine

import "gusset/internal/source"

// Minute says what is timed at a place of work, in minutes.
type Minute string

// What may be timed.
const (
	To       Minute = "to"     // going there, the machine ready to work
	Rethread Minute = "thread" // changing the thread, with its needle
	Restitch Minute = "stitch" // setting another stitch
	Refoot   Minute = "foot"   // changing the foot
	Handling Minute = "step"   // getting hold of the work, once for each step
	Metre    Minute = "metre"  // working along one metre
)

// AllMinutes lists what may be timed.
var AllMinutes = []Minute{To, Rethread, Restitch, Refoot, Handling, Metre}

// mostMinutes is more than any change or metre takes: beyond it is a slip.
const mostMinutes = 240

func minutes(m *source.Map) map[Minute]float64 {
	out := map[Minute]float64{}
	for _, what := range AllMinutes {
		if m.Has(string(what)) {
			out[what] = m.Float(string(what), 0, mostMinutes)
		}
	}
	m.Done()
	return out
}
