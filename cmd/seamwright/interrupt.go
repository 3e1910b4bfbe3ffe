package main

import (
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"
)

// onInterrupt takes Ctrl-C and a request to end, so that files are not left half
// written: the writer asks between files whether one came. Done gives both
// signals their usual meaning back.
//
// Taking signals needs two more threads, which cost as much as compiling a small
// pattern does. So while files are written in brief, the last that a program does,
// both signals are left unheard: it ends before anybody could tell.
func onInterrupt(brief bool) (interrupted func() bool, done func()) {
	if brief {
		signal.Ignore(os.Interrupt, syscall.SIGTERM)
		return func() bool { return false }, func() {}
	}
	var came atomic.Bool
	signals := make(chan os.Signal, 1)
	end := make(chan struct{})
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	go func() {
		select {
		case <-signals:
			came.Store(true)
		case <-end:
		}
	}()
	return came.Load, func() { signal.Stop(signals); close(end) }
}
