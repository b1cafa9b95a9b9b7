// Package parallel does the same work for many things at once, on all processors,
// and returns the results in their order.
//
// It never shares work between calls and keeps no goroutine afterwards. It imports
// nothing of ours.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Map does work for each of the things and returns the results in their order. The
// work must not change anything that the things share.
func Map[T, U any](things []T, work func(T) U) []U {
	out := make([]U, len(things))
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(things)) {
		all.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(things)); i = next.Add(1) - 1 {
				out[i] = work(things[i])
			}
		})
	}
	all.Wait()
	return out
}
