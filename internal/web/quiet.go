package web

import (
	"runtime"
	"sync"
)

// Work behind the pages may take every processor for minutes, and pages are to
// come at once all the same. So it runs on threads that the system lets wait for
// those of the pages, where it can be told so (lower), and only so many of them
// at once.

// quiet runs work behind the pages.
type quiet struct{ lanes chan struct{} }

func newQuiet() quiet { return quiet{make(chan struct{}, quietLanes())} }

// quietLanes is how many lanes of searches run at once: one for each processor,
// or all but one where the system cannot be told that they may wait.
func quietLanes() int {
	if lowers {
		return runtime.NumCPU()
	}
	return max(1, runtime.NumCPU()-1)
}

// do does some work behind the pages and waits for it.
func (q quiet) do(work func()) {
	var wait sync.WaitGroup
	wait.Go(func() {
		hush()
		work()
	})
	wait.Wait()
}

// lane does part of a search when there is a lane for it: making.Effort.Within.
func (q quiet) lane(work func()) {
	q.lanes <- struct{}{}
	defer func() { <-q.lanes }()
	hush()
	work()
}

// hush lets the goroutine wait for those of the pages from now on. Its thread ends
// with it, since a thread that has stood back cannot come forward again.
func hush() {
	runtime.LockOSThread()
	lower()
}

var makeRoom = sync.OnceFunc(func() {
	if lowers {
		runtime.GOMAXPROCS(runtime.GOMAXPROCS(0) + quietLanes() + 1)
	}
})

// MakeRoom lets more threads of the program run at once than there are
// processors, so that one which stands back and is kept waiting by the system
// does not hold up those of the pages. It is for a program that serves pages, and
// does nothing the second time.
func MakeRoom() { makeRoom() }
