package main

import "sync"

// ordered does n pieces of work on some workers at once and hands the results to emit in the order of their numbers,
// from the goroutine that called it. No more than two results a worker wait to be emitted.
func ordered[T any](n, workers int, work func(i int) T, emit func(i int, result T)) {
	workers = max(1, min(workers, n))
	results := make([]chan T, n)
	for i := range results {
		results[i] = make(chan T, 1)
	}
	next := make(chan int)
	room := make(chan struct{}, 2*workers)
	go func() {
		for i := range n {
			room <- struct{}{}
			next <- i
		}
		close(next)
	}()
	var running sync.WaitGroup
	for range workers {
		running.Go(func() {
			for i := range next {
				results[i] <- work(i)
			}
		})
	}
	for i, result := range results {
		emit(i, <-result)
		<-room
	}
	running.Wait()
}
