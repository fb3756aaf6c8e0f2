package crew_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// ranked gives the tasks on site priorities in turn. Tasks that may be interrupted need one pair of hands at a time,
// since a carried plan does not keep more together on them.
func ranked(job crew.Job, seed uint64) crew.Job {
	for i := range job.Tasks {
		t := &job.Tasks[i]
		if t.Place == crew.Site {
			t.Priority = crew.Priority((i + int(seed)) % 3)
		}
		if t.Splittable {
			t.Least = 1
		}
	}
	return job
}

// onlyMusts keeps the tasks that a job without shoulds and coulds would have: musts that do not wait for any of these.
func onlyMusts(job crew.Job) map[string]bool {
	free := map[string]bool{}
	for _, task := range job.Tasks {
		free[task.Key] = task.Priority == crew.Must
	}
	for range job.Tasks { // as long as any chain
		for _, task := range job.Tasks {
			for _, before := range task.Before {
				if waits, known := free[before]; known && !waits {
					free[task.Key] = false
				}
			}
		}
	}
	return free
}

// TestNothingKeepsMustsBack leaves all but the musts out of plans of random jobs and keeps their order and teams. The
// musts end no sooner: so no should or could begins while a must waits for its people, unless that costs the musts
// nothing.
func TestNothingKeepsMustsBack(t *testing.T) {
	mixed := 0
	for seed := range uint64(200) {
		job := ranked(randomJob(seed, 6+int(seed%12), true), seed)
		plan, _ := settle(t, job, seed)
		musts := onlyMusts(job)
		alone, err := crew.Carry(plan, crew.LeaveOut(func(t crew.Task) bool { return !musts[t.Key] })(job))
		require.NoError(t, err, "seed %d", seed)
		all, err := crew.Carry(plan, job)
		require.NoError(t, err, "seed %d", seed)
		last, sooner := 0, 0
		for _, slot := range alone.Slots {
			with, _ := all.Slot(slot.Task)
			last, sooner = max(last, with.End), max(sooner, slot.End)
		}
		if len(alone.Slots) < len(plan.Slots) && len(alone.Slots) > 0 {
			mixed++
		}
		assert.GreaterOrEqual(t, sooner, last, "seed %d", seed)
	}
	assert.Greater(t, mixed, 120)
}
