package view

import (
	"garlandry/app/job"
	"garlandry/app/plan"
)

// OpWords describes operations that are not in a job yet, as the history does: "Ticked: Load the car".
func OpWords(j job.Job, p plan.Plan) func(job.Op) string {
	names := entityNames(j, p)
	return func(op job.Op) string {
		of := ": " + nameOf(names, op.Entity)
		switch {
		case op.Kind == job.Add:
			return signed(int(op.Delta)) + of
		case op.Kind == job.Undo:
			return "Undid a count" + of
		case op.Kind == job.Stocktake:
			return "Counted by eye" + of
		case op.Kind != job.Set:
			return "A change from a newer version" + of
		case op.Field == "stands" || op.Field == "have" && job.IsCard(op.Entity):
			return "Amount ticked" + of
		case doneField(op.Field):
			return registerWords(op.Field, op.Value) + of
		}
		x := entityEvent(j, p, job.Owner,
			[]edit{{entity: op.Entity, field: op.Field, Reading: job.Reading{Value: op.Value}}}, names, "-")
		if x.Detail == "" {
			return x.What + ": " + x.Of
		}
		return x.What + ": " + x.Of + ", " + x.Detail
	}
}
