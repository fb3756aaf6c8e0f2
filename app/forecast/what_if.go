package forecast

import (
	"strconv"
	"time"

	"garlandry/app/plan/figures"

	"garlandry/app/job"
)

// WhatIf is the job with so many more beginners' hands from when the venue lets the crew in, and let in so many minutes
// sooner. Its cards stay as they are. The job that is handed in is not changed.
func WhatIf(j job.Job, hands, sooner int) job.Job {
	j.Crew = append([]job.Member(nil), j.Crew...)
	if len(j.Crew) == 0 && hands > 0 {
		j.Crew = append(j.Crew, job.Member{ID: "you", Name: "Whoever runs the job", Skill: string(figures.Practised), Home: true})
	}
	for i := range hands {
		n := strconv.Itoa(i + 1)
		j.Crew = append(j.Crew, job.Member{ID: "more-" + n, Name: "Helper " + n, Skill: string(figures.Beginner)})
	}
	if in, known := j.Brief.In.Time(); known {
		j.Brief.In = job.MomentOf(in.Add(-time.Duration(sooner) * time.Minute))
	}
	return j
}
