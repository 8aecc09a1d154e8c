package worst

import (
	"runtime"
	"sync"
	"sync/atomic"

	"puffproof/limits/search"
)

// SideBySide does n tasks that do not depend on each other on all cores, and
// gives the error of the first in their order that has one. A task's panic is
// raised again in the caller's goroutine.
func SideBySide(n int, task func(i int) error) error {
	var (
		next   atomic.Int64
		group  sync.WaitGroup
		once   sync.Once
		raised any
		errs   = make([]error, n)
	)
	for range min(n, runtime.GOMAXPROCS(0)) {
		group.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					once.Do(func() { raised = search.Caught(p) })
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				errs[i] = task(i)
			}
		})
	}
	group.Wait()
	if raised != nil {
		panic(raised)
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
