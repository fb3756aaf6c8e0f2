package serve

import (
	"runtime"
	"sync"
	"sync/atomic"

	"garlandry/calc/cluster"
)

// relaxer computes recipes that are in no table, one after another in the background. Pages show an estimate until it
// is done.
type relaxer struct {
	model cluster.Model
	busy  atomic.Bool
	work  sync.WaitGroup
}

// start computes in the background until nothing is left or stop is closed. It returns at once.
func (r *relaxer) start(stop <-chan struct{}) {
	if r.model.Wants() == "" || !r.busy.CompareAndSwap(false, true) {
		return
	}
	r.work.Go(func() {
		defer r.busy.Store(false)
		r.model.Work(func() {
			select {
			case <-stop:
				runtime.Goexit()
			default:
			}
		})
	})
}
