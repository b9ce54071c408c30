//go:build unix

package speed

import (
	"syscall"
	"time"
)

// cpu returns the processor time that the program has used, its garbage collection included. Unlike the clock it does not count what else the machine does.
func cpu() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
