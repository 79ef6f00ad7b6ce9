package web

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Work behind the pages may take every processor for minutes, and pages are to
// come at once all the same. So in a program that serves pages (MakeRoom) it runs
// on threads that the system lets wait for those of the pages, where it can be told
// so (lower), and only so many of them at once.

// quiet runs work behind the pages.
type quiet struct {
	lanes chan struct{}
	back  bool // it stands back
}

func newQuiet() quiet {
	back := roomMade.Load()
	n := runtime.NumCPU()
	if back && !lowers {
		n = max(1, n-1) // since the system cannot be told that they may wait
	}
	return quiet{make(chan struct{}, n), back}
}

// do does some work behind the pages and waits for it.
func (q quiet) do(work func()) {
	var wait sync.WaitGroup
	wait.Go(func() {
		q.hush()
		work()
	})
	wait.Wait()
}

// lane does part of a search when there is a lane for it: making.Effort.Within.
func (q quiet) lane(work func()) {
	q.lanes <- struct{}{}
	defer func() { <-q.lanes }()
	q.hush()
	work()
}

// hush lets the goroutine wait for those of the pages from now on. Its thread ends
// with it, since a thread that has stood back cannot come forward again.
func (q quiet) hush() {
	if q.back && lowers {
		runtime.LockOSThread()
		lower()
	}
}

var roomMade atomic.Bool

// MakeRoom has the work behind the pages stand back for them in every server made
// from now on. More threads then run at once than there are processors, so that
// one which stands back and is kept waiting by the system does not hold up those
// of the pages. It is for a program that does nothing but serve pages.
func MakeRoom() {
	if !roomMade.Swap(true) && lowers {
		runtime.GOMAXPROCS(2*runtime.GOMAXPROCS(0) + 1)
	}
}
