// Package parallel spreads work over the processors.
package parallel

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// Worth is how many pieces make it worth while to start other threads: they take
// some 50 microseconds to begin, as long as all of a small pattern takes.
const Worth = 500

// Do does n tasks, in any order and at the same time; alone if it is not worth it.
// They must not touch what another one changes. A panic in one of them becomes one
// of the caller's.
func Do(n int, worth bool, task func(i int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	if !worth || workers < 2 {
		for i := range n {
			task(i)
		}
		return
	}
	var next atomic.Int64
	var fault atomic.Pointer[string]
	work := func() {
		defer func() {
			if r := recover(); r != nil {
				told := fmt.Sprintf("%v\n%s", r, debug.Stack())
				fault.CompareAndSwap(nil, &told)
			}
		}()
		for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
			task(int(i))
		}
	}
	var others sync.WaitGroup
	for range workers - 1 {
		others.Go(work)
	}
	work()
	others.Wait()
	if told := fault.Load(); told != nil {
		panic(*told)
	}
}
