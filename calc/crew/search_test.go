package crew_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

func TestSchedulesOfRandomJobsAreFeasible(t *testing.T) {
	for seed := range uint64(150) {
		job := randomJob(seed, 3+int(seed%15), true)
		search, err := crew.NewSearch(job, seed, 100)
		require.NoError(t, err, "seed %d", seed)
		first := search.Improve(1)
		checkCrew(t, job, first, true)
		later := search.Improve(99)
		checkCrew(t, job, later, true)
		kept, err := crew.Carry(later, job)
		require.NoError(t, err, "seed %d", seed)
		require.LessOrEqual(t, kept.Finish, later.Finish, "seed %d", seed)
		checkCrew(t, job, kept, false)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func TestReadingRoom(t *testing.T) {
	job := readingRoom(50)
	begun := time.Now()
	search, err := crew.NewSearch(job, 1, 1000)
	require.NoError(t, err)
	s := search.Improve(1)
	t.Log("first", s.Finish, time.Since(begun))
	s = search.Improve(999)
	t.Log("1000", s.Finish, s.Proven, s.Tried, time.Since(begun))
	checkCrew(t, job, s, true)
	begun = time.Now()
	f := crew.Odds(s, 1, 0)
	t.Log(f.Done, f.Half, f.Ninety, time.Since(begun))
	for _, slot := range s.Slots {
		line := fmt.Sprintf("%-18s %4d %4d %v %v", slot.Task, slot.Start, slot.End, slot.Spells, slot.WaitedFor)
		t.Log(line)
	}
	t.Log(s.StaysOn)
}
