package serve

import (
	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/calc/cache"
	"garlandry/pwa/view"
)

// rowCache holds the rows of the list of jobs. A row is valid until something happens in its job.
type rowCache struct {
	rows cache.Cache[rowKey, cachedRow]
}

// rowCacheSize is the number of rows in memory.
const rowCacheSize = 2000

type rowKey struct {
	id   string
	role job.Role
}

type cachedRow struct {
	shared, own store.LogEnd
	row         view.JobRow
}

// get returns the row of a job if nothing happened in the job since it was drawn.
func (c *rowCache) get(role job.Role, info store.JobInfo) (view.JobRow, bool) {
	cached, found := c.rows.Get(rowKey{info.ID, role})
	return cached.row, found && cached.shared == info.Shared && cached.own == info.Own
}

// put stores the row of a job, drawn at least as far as the info says.
func (c *rowCache) put(role job.Role, info store.JobInfo, row view.JobRow) {
	c.rows.Put(rowKey{info.ID, role}, cachedRow{info.Shared, info.Own, row})
}
