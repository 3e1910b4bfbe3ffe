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
	one := func(i int) (o outcome) {
		defer func() {
			if r := recover(); r != nil {
				o.panic = fmt.Sprintf("%v\n%s", r, debug.Stack())
			}
		}()
		o.done = work(i)
		return o
	}
	some := max(1, min(mostAtOnce, n/leastRounds))
	outcomes := make([]chan []outcome, (n+some-1)/some)
	for i := range outcomes {
		outcomes[i] = make(chan []outcome, 1)
	}
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(outcomes)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(outcomes); i = int(next.Add(1)) - 1 {
				var done []outcome
				for k := i * some; k < min((i+1)*some, n); k++ {
					done = append(done, one(k))
				}
				outcomes[i] <- done
			}
		})
	}
	defer wait.Wait()
	for i := range outcomes {
		for k, o := range <-outcomes[i] {
			if o.panic != "" {
				panic(o.panic)
			}
			tell(i*some+k, o.done)
		}
	}
}

// Of very many, some are done before any is told: waking whoever tells costs
// more than finding that a pattern is as before.
const (
	mostAtOnce  = 8
	leastRounds = 64
)
