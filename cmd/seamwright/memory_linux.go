package main

import (
	"syscall"
	"unsafe"
)

const (
	largePage = 2 << 20
	// populate makes pages at once instead of when they are touched first
	// (MADV_POPULATE_WRITE, Linux 5.14; older ones refuse).
	populate = 23
	// filledAhead is how much is made so. Measured on two processors: with more, the
	// other one has no time left for its half of the text.
	filledAhead = 4 * largePage
)

// takeLargePages asks the system to give so many bytes of the heap in pages of
// 2 MB. Where it has none, or will not, everything is as it was. What it returns
// makes the first pages, before they are needed; what is in them by then stays.
func takeLargePages(n int) (fill func()) {
	stretch := make([]byte, n)
	if syscall.Madvise(stretch, syscall.MADV_HUGEPAGE) != nil {
		return func() {}
	}
	from := uintptr(unsafe.Pointer(&stretch[0])) // a number, which does not hold the stretch
	return func() {
		for at := from; at < from+uintptr(min(n, filledAhead)); at += largePage {
			if _, _, refused := syscall.Syscall(syscall.SYS_MADVISE, at, largePage, populate); refused != 0 {
				return
			}
		}
	}
}
