package view

import (
	"garlandry/app/job"
	"garlandry/app/plan"
)

// OpWords gives the words of the history for operations that are in no job yet: "Ticked: Load the car".
func OpWords(j job.Job, p plan.Plan) func(job.Op) string {
	names := entityNames(j, p)
	return func(op job.Op) string {
		of := ": " + nameOf(names, op.Entity)
		switch {
		case op.Kind == job.Add:
			return signed(int(op.Delta)) + of
		case op.Kind == job.Undo:
			return "Took back a count" + of
		case op.Kind == job.Stocktake:
			return "Counted by eye" + of
		case op.Kind != job.Set:
			return "Something a newer version knows about" + of
		case op.Field == "stands" || op.Field == "have" && job.IsCard(op.Entity):
			return "How many a tick stands for" + of
		case op.Field == "done" || op.Field == "have" || op.Field == "taken" || op.Field == "back":
			return registerWords(op.Field, op.Value) + of
		}
		x := thingHappening(j, p, job.Owner,
			[]edit{{entity: op.Entity, field: op.Field, Reading: job.Reading{Value: op.Value}}}, names, "-")
		if x.Detail == "" {
			return x.What + ": " + x.Of
		}
		return x.What + ": " + x.Of + ", " + x.Detail
	}
}
