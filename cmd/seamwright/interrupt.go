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
func onInterrupt() (interrupted func() bool, done func()) {
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
