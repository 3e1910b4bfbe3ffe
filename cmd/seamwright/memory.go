package main

import (
	"runtime"
	"runtime/debug"
	"sync"
)

const (
	// someText is the size of a text from which on garbage would be collected, if the
	// collector were not told to wait; a smaller one is done before.
	someText = 5 << 10
	// largeText is the size from which on large pages pay.
	largeText = 12 << 10
	// usualText is the size of a pattern in a large collection.
	usualText = 2 << 10
	// heapGrowth lets the heap of a middling build grow to five times what is in use
	// before garbage is collected: a build ends soon, and its garbage with it.
	heapGrowth = 400
	// heapGoal is where garbage is collected in a large build, in bytes, and not
	// before. It is no limit: what needs more gets it, but a booklet of 10,000 pieces
	// stays below 64 MB.
	heapGoal = 54 << 20
	// lightGoal is that of a build that makes nothing but sheets, diagrams and tables
	// as SVG. Those of 10,000 pieces allocate 56 MB in all, so collecting garbage
	// shortly before the end took a tenth of the time and spared 2 MB of 63.
	lightGoal = 72 << 20
	// heapPerText is what a build allocates for each byte of its text, measured on
	// blocks of 1,000 and of 10,000 pieces, and mostRoom as much of it as is had in
	// large pages.
	heapPerText = 200
	mostRoom    = 48 << 20
)

// A memory is that of the process, which is tuned once.
type memory struct {
	once  sync.Once
	light bool // little is made of a pattern: see lightGoal
}

// tune tells the garbage collector that this is a short-lived process, if there
// are so many bytes of text that it matters. GOGC and GOMEMLIMIT in the
// environment are left aside.
//
// A third of the time of a large build was lost to the system handing out memory, a page
// of 4 KB at a time. So a stretch is taken from the heap, made one of large pages
// and given back at once: what is allocated next lies in it. The first pages are made by another
// processor while the text is read.
func (m *memory) tune(text int) {
	if text < someText {
		return
	}
	m.once.Do(func() {
		if text < largeText {
			debug.SetGCPercent(heapGrowth)
			return
		}
		debug.SetGCPercent(-1)
		fill := takeLargePages(min(text*heapPerText, mostRoom))
		runtime.GC()
		goal := int64(heapGoal)
		if m.light {
			goal = lightGoal
		}
		debug.SetMemoryLimit(goal)
		go fill()
	})
}
