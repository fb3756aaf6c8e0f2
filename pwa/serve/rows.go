package serve

import (
	"sync"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/pwa/view"
)

// rowsKept bounds the rows in memory.
const rowsKept = 2000

// rowKeeper keeps the rows of the list of jobs, each as long as nothing happens in its job.
type rowKeeper struct {
	mu   sync.Mutex
	rows map[rowKey]keptRow
}

type rowKey struct {
	id   string
	role job.Role
}

type keptRow struct {
	shared, own store.LogEnd
	row         view.JobRow
}

// get gives the row of a job as far as it goes now.
func (k *rowKeeper) get(role job.Role, info store.JobInfo) (view.JobRow, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	kept, known := k.rows[rowKey{info.ID, role}]
	return kept.row, known && kept.shared == info.Shared && kept.own == info.Own
}

// keep remembers the row of a job, drawn at least as far as the info says.
func (k *rowKeeper) keep(role job.Role, info store.JobInfo, row view.JobRow) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.rows == nil || len(k.rows) >= rowsKept {
		k.rows = map[rowKey]keptRow{}
	}
	k.rows[rowKey{info.ID, role}] = keptRow{info.Shared, info.Own, row}
}
