package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/rigging"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
)

// Make computes the whole plan of a job: its [Design] with its [Progress]. It never fails: a note says what is missing
// or contradictory.
func Make(j job.Job) Plan { return Progress(j, Design(j)) }

// Design computes a job's counts, pack list, cards, notes and figures, without any progress. It depends only on the
// brief, palette, crew, kit, pieces, layers, boxes, added lines, overrides and choices, so it can be cached until one
// of them changes.
func Design(j job.Job) Plan { return Counted(j).fitted(j) }

// Counted is [Design] without the notes about the room, for which all pieces would have to be drawn.
func Counted(j job.Job) Plan { return design(j, count.Kinds()) }

func design(j job.Job, kinds []*count.Kind) Plan {
	rig := rigging.New(count.New(j, kinds))
	car := transport.New(rig.Draft)
	p := Plan{Balloons: rig.Balloons, Ties: rig.Ties, HeliumLead: rig.HeliumLead(), builtOnSite: car.BuiltOnSite(),
		Drive: car.Drive, floats: floats(rig.Draft)}
	p.looks = &looks{how: look.FiguresOf(rig.Draft), hall: hallOf(j), done: map[string]*look.Look{}}
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

// CheckSizes returns a [*job.FieldError] for the first oversized piece of a job, or nil.
func CheckSizes(j job.Job) error {
	for _, c := range Counted(j).Pieces {
		if why := c.Oversized(); why != "" {
			return &job.FieldError{Path: "piece " + c.Piece.ID,
				Message: c.Piece.Name + ": " + why + "; make it smaller or split it into several pieces"}
		}
	}
	return nil
}
