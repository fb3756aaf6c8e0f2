package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

// Progress adds the job's progress to a design and computes the window. What was packed or worked on but is no longer
// in the design comes back as a line with Need 0 or a card that is Gone. The design itself does not change.
func Progress(j job.Job, design Plan) Plan {
	if j.State == nil {
		j.State = job.NewState()
	}
	p := design
	p.Pack = packing.Progress(j, design.Pack)
	p.Cards = task.Progress(j, design.Cards, design.Balloons, p.Pack)
	madeByKind(j, p.Pieces, p.Cards)
	p.Window = window(j, p.Cards)
	return p
}
