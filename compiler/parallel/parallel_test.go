package parallel

import (
	"strings"
	"sync/atomic"
	"testing"
)

func TestDo(t *testing.T) {
	for _, worth := range []bool{false, true} {
		for _, n := range []int{0, 1, 2, 1000} {
			done := make([]atomic.Int32, n)
			Do(n, worth, func(i int) { done[i].Add(1) })
			for i := range done {
				if done[i].Load() != 1 {
					t.Errorf("task %d of %d was done %d times", i, n, done[i].Load())
				}
			}
		}
	}
}

func TestPanicIsTheCallers(t *testing.T) {
	defer func() {
		if told, ok := recover().(string); !ok || !strings.Contains(told, "leak") {
			t.Errorf("recovered %q", told)
		}
	}()
	Do(100, true, func(i int) {
		if i == 50 {
			panic("leak")
		}
	})
}
