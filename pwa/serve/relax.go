package serve

import (
	"runtime"
	"sync"
	"sync/atomic"

	"garlandry/calc/cluster"
)

// relaxer works out recipes that pages have asked for and no table holds, one after another in the background. The
// pages that asked are drawn from an estimate; whoever looks again sees the better answer.
type relaxer struct {
	model cluster.Model
	busy  atomic.Bool
	work  sync.WaitGroup
}

// begin goes on until nothing is left or stop is closed. It returns at once.
func (r *relaxer) begin(stop <-chan struct{}) {
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
