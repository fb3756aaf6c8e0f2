package crew_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// named limits some tasks of a random job to one or two of its people.
func named(job crew.Job, seed uint64) crew.Job {
	r := rand.New(rand.NewPCG(seed, 11))
	for i := range job.Tasks {
		if t := &job.Tasks[i]; r.IntN(3) == 0 {
			for len(t.By) < t.Least {
				t.By = append(t.By, job.People[len(t.By)].Key)
			}
			t.By = append(t.By, job.People[r.IntN(len(job.People))].Key)
		}
	}
	return job
}

// TestOnlyThoseNamedDoATask checks plans of random jobs, whole and carried to jobs with less and more work.
func TestOnlyThoseNamedDoATask(t *testing.T) {
	limited := 0
	for seed := range uint64(60) {
		job := named(randomJob(seed, 4+int(seed%12), true), seed)
		found, _ := settle(t, job, seed)
		checkCrew(t, job, found, true)
		for _, times := range []float64{1, 0.5, 3} {
			other := job
			other.Tasks = append([]crew.Task(nil), job.Tasks...)
			for i := range other.Tasks {
				other.Tasks[i].Minutes *= times
			}
			kept, err := crew.Carry(found, other)
			require.NoError(t, err, "seed %d", seed)
			for i, slot := range kept.Slots {
				for _, spell := range slot.Spells {
					if by := job.Tasks[i].By; len(by) > 0 {
						limited++
						assert.Contains(t, by, spell.Person, "seed %d, %s", seed, slot.Task)
					}
				}
			}
		}
	}
	assert.Greater(t, limited, 300)
}

// TestAPlanIsNotCarriedToPeopleWhoMayNot gives a task to somebody else than in the plan.
func TestAPlanIsNotCarriedToPeopleWhoMayNot(t *testing.T) {
	job := tight()
	job.Tasks[0].By = []string{"ines"}
	plan, _ := settle(t, job, 1)
	job.Tasks = append([]crew.Task(nil), job.Tasks...)
	job.Tasks[0].By = []string{"bea"}
	_, err := crew.Carry(plan, job)
	require.ErrorIs(t, err, crew.ErrChanged)
	job.Tasks[0].By = []string{"nobody"}
	_, err = crew.NewSearch(job, 1, 10)
	require.ErrorIs(t, err, crew.ErrTooFew)
}

// TestADriverWhoLeavesEarlyStaysOn checks that a task of one person ends, late, with that person: otherwise it would
// wait for a week.
func TestADriverWhoLeavesEarlyStaysOn(t *testing.T) {
	job := tight()
	job.People[0].Free = []crew.Interval{{From: 0, To: 60}}
	job.Tasks[0].By = []string{"ines"}
	job.Tasks[0].Minutes = 100
	job.Tasks[0].Splittable = false
	plan, _ := settle(t, job, 1)
	slot, found := plan.Slot("garland")
	require.True(t, found)
	assert.Less(t, slot.End, 24*60)
	assert.Contains(t, plan.StaysOn, "ines")
}

// TestAPlanIsNotCarriedToLesserSkill turns people into beginners and back: a plan with practised hands would go on at
// their speed. One with beginners holds for practised hands too.
func TestAPlanIsNotCarriedToLesserSkill(t *testing.T) {
	lesser := tight()
	lesser.People = append([]crew.Person(nil), lesser.People...)
	better := lesser
	better.People = append([]crew.Person(nil), lesser.People...)
	for i := range lesser.People {
		lesser.People[i].Practised, better.People[i].Practised = false, true
	}
	plan, _ := settle(t, better, 1)
	_, err := crew.Carry(plan, lesser)
	require.ErrorIs(t, err, crew.ErrChanged)
	plan, _ = settle(t, lesser, 1)
	kept, err := crew.Carry(plan, better)
	require.NoError(t, err)
	assert.Equal(t, plan.Finish, kept.Finish, "at a beginner's speed")
}
