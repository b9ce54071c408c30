package main

import (
	"fmt"
	"io"
	"time"
)

// A progress tells on a terminal how many files are done, once the work has taken longer than a second.
// Nothing is written where the output is no terminal.
type progress struct {
	w     io.Writer // nil for none
	total int
	began time.Time
	shown bool
}

func newProgress(w io.Writer, total int) *progress {
	p := &progress{total: total, began: time.Now()}
	if isTerminal(w) {
		p.w = w
	}
	return p
}

func (p *progress) done(n int) {
	if p.w == nil || time.Since(p.began) < time.Second {
		return
	}
	p.shown = true
	fmt.Fprintf(p.w, "\r%d of %d files", n, p.total)
}

// clear takes the line away, so that what follows does not stand behind it.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.shown = false
	}
}
