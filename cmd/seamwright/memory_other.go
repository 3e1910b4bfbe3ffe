//go:build !linux

package main

// takeLargePages does nothing where the system gives large pages by itself, or
// none.
func takeLargePages(int) (fill func()) { return func() {} }
