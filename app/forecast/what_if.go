package forecast

import (
	"strconv"
	"time"

	"garlandry/app/plan/figures"

	"garlandry/app/job"
)

// WhatIf returns the job with more beginners from the access time, and with access some minutes earlier. It does not
// change j or its cards.
func WhatIf(j job.Job, hands, sooner int) job.Job {
	j.Crew = append([]job.Member(nil), j.Crew...)
	if len(j.Crew) == 0 && hands > 0 {
		j.Crew = append(j.Crew, job.Member{ID: "you", Name: job.UnnamedOwner,
			Skill: string(figures.Practised), Home: true})
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
