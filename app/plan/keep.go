package plan

import (
	"encoding/json"
	"hash/fnv"
	"sync"

	"garlandry/app/job"
)

// Keeper keeps the design part of the plans of the jobs last looked at, so that a tick does not compute it again. The
// zero Keeper is ready; its methods may be called from many goroutines.
type Keeper struct {
	mu   sync.Mutex
	kept map[string]keptDesign
}

type keptDesign struct {
	mark   uint64
	design Plan
}

// mostKept is how many jobs a [Keeper] holds at once.
const mostKept = 64

// Plan gives what [Make] gives for the job. Mark must differ whenever the job's design does; [DesignMark] gives one.
func (k *Keeper) Plan(j job.Job, mark uint64) Plan {
	k.mu.Lock()
	kept, there := k.kept[j.ID]
	k.mu.Unlock()
	if !there || kept.mark != mark {
		kept = keptDesign{mark, Design(j)}
		k.mu.Lock()
		if k.kept == nil || len(k.kept) >= mostKept {
			k.kept = map[string]keptDesign{}
		}
		k.kept[j.ID] = kept
		k.mu.Unlock()
	}
	return Progress(j, kept.design)
}

// DesignMark gives a hash over everything that the design part of a plan depends on.
func DesignMark(j job.Job) uint64 {
	h := fnv.New64a()
	var names []string // JSON leaves the ids out
	for _, c := range j.Colours {
		names = append(names, c.ID)
	}
	for _, m := range j.Crew {
		names = append(names, m.ID)
	}
	for _, k := range j.Kit {
		names = append(names, k.ID)
	}
	for _, p := range j.Pieces {
		names = append(names, p.ID)
	}
	for _, a := range j.Added {
		names = append(names, a.ID)
	}
	_ = json.NewEncoder(h).
		Encode([]any{names, j.Brief, j.Colours, j.Crew, j.Kit, j.Pieces, j.Added, j.Overrides, j.Choices})
		// plain values into a hash do not fail
	return h.Sum64()
}
