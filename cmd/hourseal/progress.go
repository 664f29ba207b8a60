package main

import (
	"fmt"
	"sync"
)

// progressEvery is how many inputs pass between two progress lines.
const progressEvery = 50

// showProgress keeps a line on the terminal while there are many inputs.
func (p *program) showProgress(done, all int) {
	if !p.progress || all < 2*progressEvery {
		return
	}
	switch {
	case done == all:
		p.clearProgress()
	case done%progressEvery == 0:
		fmt.Fprintf(p.stderr, "\r%d of %d", done, all)
		p.progressStays = true
	}
}

// clearProgress takes the line away before another is printed.
func (p *program) clearProgress() {
	if p.progressStays {
		fmt.Fprint(p.stderr, "\r\x1b[K")
		p.progressStays = false
	}
}

// counting is showProgress for work that several hands do: step is called when a piece is
// done, and done when all are.
func (p *program) counting(all int) (step, done func()) {
	var mu sync.Mutex
	n := 0
	step = func() {
		mu.Lock()
		defer mu.Unlock()
		if n++; n < all {
			p.showProgress(n, all)
		}
	}
	return step, func() { p.showProgress(all, all) }
}
