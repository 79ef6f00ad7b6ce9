package web

import "syscall"

// lowers says that lower does something.
const lowers = true

// back is how far a thread stands back, in steps of nice.
const back = 10

// lower lets the thread wait for others (setpriority(2): on Linux a thread has a
// nice value of its own, from -20 to 19, which the system call gives as 20 less
// it). Where that is refused, the thread goes on as it is.
func lower() {
	id := syscall.Gettid()
	if raw, err := syscall.Getpriority(syscall.PRIO_PROCESS, id); err == nil {
		_ = syscall.Setpriority(syscall.PRIO_PROCESS, id, min(19, 20-raw+back))
	}
}
