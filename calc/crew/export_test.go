package crew

// Search exports the single steps of Settle to tests.
type Search = search

func NewSearch(job Job, seed uint64, budget int) (*Search, error) {
	return newSearch(&job, seed, budget, nil, nil)
}

func (s *search) Improve(schedules int) Schedule { return *s.improve(schedules) }

func Odds(s Schedule, seed uint64, runs int) Forecast { return *s.odds(seed, runs, nil) }
