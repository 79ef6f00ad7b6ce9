package trace_test

import (
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"gusset/internal/trace"
	"gusset/internal/trace/photo"
	"gusset/internal/trace/scene"
)

// steepLeg is the costliest scene within the limits: a trouser leg on 12
// megapixels, leaned over so far that the far cards are looked for twice.
var steepLeg = scene.Condition{Panel: 0, Tilt: 33, Azimuth: 260, K1: 0.03, MorePixel: 4032, Table: scene.Oak, Wood: 0.3, Shadow: 0.3}

// One photo of 12 megapixels from the file to the piece, on one processor. At
// most 3 seconds of it and 350 MB of memory are asked for: run it by itself, as
//
//	GOMAXPROCS=1 go test ./internal/trace -run XXX -bench TracePhoto
func BenchmarkTracePhoto(b *testing.B) {
	s, _ := scene.Standard(1100, steepLeg)
	data := photoOf(b, s, "steep-leg")
	tapes := diagonals(s)
	forgetPeak()
	var before, after syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &before)
	for b.Loop() {
		p, found := photo.Load("steep-leg.jpg", data)
		if p == nil {
			b.Fatal(found.Codes())
		}
		if _, found := trace.Run([]*photo.Photo{p}, tapes, trace.Tolerance); found.Stops() > 0 {
			b.Fatal(found.Codes())
		}
	}
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &after)
	b.ReportMetric((seconds(after)-seconds(before))/float64(b.N), "cpu-s/op")
	b.ReportMetric(peak(b), "peak-MB")
}

func seconds(r syscall.Rusage) float64 {
	return float64(r.Utime.Nano()+r.Stime.Nano()) / 1e9
}

// forgetPeak gives memory back and begins to count anew (proc(5), clear_refs).
func forgetPeak() {
	debug.FreeOSMemory()
	_ = os.WriteFile("/proc/self/clear_refs", []byte("5"), 0)
}

// peak is the most memory that the process has held, in MB, as Linux counts it.
func peak(b *testing.B) float64 {
	data, err := os.ReadFile("/proc/self/status")
	if err != nil {
		b.Skip("memory is measured on Linux only")
	}
	for line := range strings.Lines(string(data)) {
		if rest, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			kb, _ := strconv.ParseFloat(strings.Fields(rest)[0], 64)
			return kb / 1024
		}
	}
	return 0
}
