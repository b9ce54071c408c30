package main

import (
	"runtime"
	"sync/atomic"
	"testing"
)

func TestOrdered(t *testing.T) {
	for _, workers := range []int{1, 2, 7, 100} {
		const n = 50
		var running, most atomic.Int32
		var got []int
		ordered(n, workers, func(i int) int {
			now := running.Add(1)
			for m := most.Load(); now > m && !most.CompareAndSwap(m, now); m = most.Load() {
			}
			for range (n - i) % 7 { // later work is often ready earlier
				runtime.Gosched()
			}
			running.Add(-1)
			return i * i
		}, func(i, result int) {
			if result != i*i {
				t.Errorf("%d workers: result %d for %d", workers, result, i)
			}
			got = append(got, i)
		})
		for i := range n {
			if len(got) != n || got[i] != i {
				t.Fatalf("%d workers: emitted %v", workers, got)
			}
		}
		if int(most.Load()) > workers {
			t.Errorf("%d at a time, want at most %d", most.Load(), workers)
		}
	}
	ordered(0, 4, func(int) int { return 0 }, func(int, int) { t.Error("nothing to do, but something was emitted") })
}

// Results must not pile up behind a slow one: memory would grow with the number of files.
func TestOrderedKeepsFewResults(t *testing.T) {
	const n, workers = 200, 2
	var begun atomic.Int32
	release := make(chan struct{})
	ordered(n, workers, func(i int) int {
		begun.Add(1)
		if i == 0 {
			<-release
		}
		if i == 2*workers-1 {
			close(release) // the last for which there is room while the first is not done
		}
		return i
	}, func(i, _ int) {
		if ahead := int(begun.Load()) - i; ahead > 2*workers+1 {
			t.Errorf("%d begun ahead of number %d, want at most %d", ahead, i, 2*workers+1)
		}
	})
}
