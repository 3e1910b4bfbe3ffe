//go:build unix

package watch

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// Between builds nothing is done at all.
func TestIdle(t *testing.T) {
	name := filepath.Join(t.TempDir(), "boat.seam")
	os.WriteFile(name, []byte("x"), 0o666)
	b := begin(t, name)
	b.sees("x")
	time.Sleep(3 * quiet)
	used := func() time.Duration {
		var u syscall.Rusage
		b.must(syscall.Getrusage(syscall.RUSAGE_SELF, &u))
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	begun := used()
	time.Sleep(time.Second)
	if spent := used() - begun; spent > 5*time.Millisecond {
		t.Errorf("a second of waiting took %v of the processor", spent)
	}
}
