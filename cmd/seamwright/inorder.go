package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// inOrder does work on all processors and tells of each in order, as soon as it
// and those before it are done. A panic in the work becomes one here, where run
// meets it.
func inOrder[T any](n int, work func(int) T, tell func(int, T)) {
	if n == 1 {
		tell(0, work(0)) // starting others would only cost time
		return
	}
	type outcome struct {
		done  T
		panic string
	}
	outcomes := make([]chan outcome, n)
	for i := range outcomes {
		outcomes[i] = make(chan outcome, 1)
	}
	one := func(i int) (o outcome) {
		defer func() {
			if r := recover(); r != nil {
				o.panic = fmt.Sprintf("%v\n%s", r, debug.Stack())
			}
		}()
		o.done = work(i)
		return o
	}
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				outcomes[i] <- one(i)
			}
		})
	}
	defer wait.Wait()
	for i := range outcomes {
		o := <-outcomes[i]
		if o.panic != "" {
			panic(o.panic)
		}
		tell(i, o.done)
	}
}
