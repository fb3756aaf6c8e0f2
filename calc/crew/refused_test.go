package crew_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/crew"
)

// tight returns a job that cannot be done in time: two hours of work for two, in a window of one and a half, with a
// ladder that both need.
func tight() crew.Job {
	job := crew.Job{
		Doors: 90, People: []crew.Person{{Key: "ines", Practised: true}, {Key: "bea"}}, Things: []crew.Thing{{Key: "ladder",
			Count: 1}},
		Rates: []crew.Rate{{Kind: "fix", Factor: 1, Spread: 0.1}},
	}
	job.Windows[crew.Site] = []crew.Interval{{From: 0, To: 90}}
	add := func(key, piece string, minutes float64, p crew.Priority, before ...string) {
		job.Tasks = append(
			job.Tasks,
			crew.Task{Key: key, Piece: piece, Kind: "fix", Minutes: minutes, Beginner: 1.5,
				Most: 2, Spread: 0.2, Place: crew.Site, Splittable: true, Priority: p, Before: before},
		)
	}
	add("garland", "door", 60, crew.Must)
	add("accents", "door", 20, crew.Could, "garland")
	add("column", "column", 40, crew.Should)
	add("tables", "tables", 30, crew.Could)
	job.Tasks[0].Needs = []crew.Need{{Thing: "ladder", Serves: 1}}
	return job
}

func TestRefusedJobs(t *testing.T) {
	for name, row := range map[string]struct {
		change func(*crew.Job)
		want   error
	}{
		"circle":       {func(j *crew.Job) { j.Tasks[0].Before = []string{"accents"} }, crew.ErrCircle},
		"too few":      {func(j *crew.Job) { j.Tasks[0].Least = 3 }, crew.ErrTooFew},
		"no ladder":    {func(j *crew.Job) { j.Things[0].Count = 0 }, crew.ErrMissing},
		"which ladder": {func(j *crew.Job) { j.Tasks[0].Needs[0].Thing = "stool" }, crew.ErrMissing},
		"twice":        {func(j *crew.Job) { j.Tasks[1].Key = "garland" }, crew.ErrTwice},
		"minutes":      {func(j *crew.Job) { j.Tasks[1].Minutes = -1 }, crew.ErrAmount},
		"place":        {func(j *crew.Job) { j.Tasks[1].Place = 9 }, crew.ErrAmount},
	} {
		job := tight()
		row.change(&job)
		_, err := crew.NewSearch(job, 1, 10)
		assert.ErrorIs(t, err, row.want, name)
	}
}
