package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/rigging"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
)

// Make computes the whole plan of a job: its [Design] with its [Progress]. It never fails: whatever is missing or
// contradictory becomes a note.
func Make(j job.Job) Plan { return Progress(j, Design(j)) }

// Design computes what the job's design asks for: counts, pack list, cards, notes and figures, without anything that
// was ticked, packed or counted. It depends only on the brief, palette, crew, kit, pieces, added lines, overrides and
// choices, so it can be cached until one of these changes.
func Design(j job.Job) Plan { return design(j, count.Kinds()) }

func design(j job.Job, kinds []*count.Kind) Plan {
	rig := rigging.New(count.New(j, kinds))
	car := transport.New(rig.Draft)
	p := Plan{Balloons: rig.Balloons, Ties: rig.Ties, builtOnSite: car.BuiltOnSite}
	for _, c := range rig.Pieces {
		p.Pieces = append(p.Pieces, c.PieceCount)
	}
	p.Pack = packing.List(rig)
	p.Cards = task.List(rig, car, p.Pack)
	p.Notes = noteList(rig, car, p.Cards)
	rig.Figures.UseClock()
	p.Figures = rig.Figures.List()
	return p
}

// CheckSizes reports the first piece of a job that is oversized, as a [*job.FieldError] naming it; nil if none is.
func CheckSizes(j job.Job) error {
	for _, c := range Design(j).Pieces {
		if why := c.Oversized(); why != "" {
			return &job.FieldError{Path: "piece " + c.Piece.ID,
				Message: c.Piece.Name + ": " + why + "; make it smaller, or several pieces of it"}
		}
	}
	return nil
}
