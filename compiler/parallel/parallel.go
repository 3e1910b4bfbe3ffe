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

// Do does n tasks, begun in order and done at the same time; one after the other if it
// is not worth it. They must not touch what another one changes. A panic in one of
// them becomes one of the caller's.
func Do(n int, worth bool, task func(i int)) {
	workers := runtime.GOMAXPROCS(0)
	if !worth {
		workers = 1
	}
	Share(n, workers, func() func(int) { return task })
}

// Share is Do for so many workers, of which each has something of its own: begin is
// called by each, and returns what does a task.
func Share(n, workers int, begin func() func(i int)) {
	workers = min(workers, n)
	if workers < 2 {
		task := begin()
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
		task := begin()
		for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
			task(int(i))
		}
	}
	var others sync.WaitGroup
	for range workers - 1 {
		others.Go(func() {
			GrowStack(workers)
			work()
		})
	}
	work()
	others.Wait()
	if told := fault.Load(); told != nil {
		panic(*told)
	}
}

// stackRoom, in bytes, lets a stack double up to 32 KB, which is enough for most work.
const stackRoom = 16 << 10

// GrowStack lets the stack grow to what much work needs while hardly anything is on
// it. Otherwise it doubles four times on the way down, and what is on it is moved each
// time: a twentieth of the time in which a small pattern is checked. A stack grows when
// a function is called that needs much of it, so this is one that does; what it returns
// means nothing.
//
//go:noinline
func GrowStack(n int) byte {
	var room [stackRoom]byte
	room[n%stackRoom] = 1
	return room[n/2%stackRoom]
}
