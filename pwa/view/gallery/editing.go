package gallery

import (
	"garlandry/app/job"
	"garlandry/app/plan"
)

func editing(name string, j job.Job, p plan.Plan) []Page { return nil }

func calculators() []Page { return nil }
