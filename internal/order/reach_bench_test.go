//go:build unix

package order

import (
	"slices"
	"syscall"
	"testing"
	"time"

	"gusset/internal/construct"
	"gusset/internal/reach"
)

// BenchmarkReach plans random garments of 80 and 120 operations with conditions
// of reach, merging openings among them: garments made by the program's own
// methods, and the harder ones of chains at random. It reports how many of ten are
// proved to be the best, and the median and the longest time on a core, as the
// system counts it.
func BenchmarkReach(b *testing.B) {
	type maker func(seed uint64) ([]construct.Operation, []reach.Condition)
	bySewing := func(n int) maker {
		return func(seed uint64) ([]construct.Operation, []reach.Condition) {
			ops := sewn(b, n, seed)
			return ops, closed(ops, n/8, seed)
		}
	}
	byChains := func(n, chains int) maker {
		return func(seed uint64) ([]construct.Operation, []reach.Condition) { return chained(n, chains, seed) }
	}
	for _, c := range []struct {
		name string
		make maker
	}{
		{"sewn/80", bySewing(80)}, {"sewn/120", bySewing(120)},
		{"chains/80in8", byChains(80, 8)}, {"chains/80in12", byChains(80, 12)},
		{"chains/120in8", byChains(120, 8)}, {"chains/120in12", byChains(120, 12)}, {"chains/120in16", byChains(120, 16)},
	} {
		b.Run(c.name, func(b *testing.B) {
			proved := 0
			var took []float64
			for b.Loop() {
				proved, took = 0, nil
				for seed := range uint64(10) {
					ops, conditions := c.make(seed)
					start := onCore(b)
					s, _ := Plan(ops, conditions, nil, Costs{})
					took = append(took, (onCore(b) - start).Seconds())
					if s.Cost() == s.Least() {
						proved++
					}
				}
			}
			slices.Sort(took)
			b.ReportMetric(float64(proved)/10, "proved")
			b.ReportMetric(1000*(took[4]+took[5])/2, "ms-median")
			b.ReportMetric(1000*took[9], "ms-longest")
		})
	}
}

func onCore(b *testing.B) time.Duration {
	var r syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &r); err != nil {
		b.Fatal(err)
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
