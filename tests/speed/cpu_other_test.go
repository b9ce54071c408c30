//go:build !unix

package speed

import "time"

var start = time.Now()

// cpu returns the time since the program started, where its processor time cannot be had.
func cpu() time.Duration { return time.Since(start) }
