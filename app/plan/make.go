package plan

import "garlandry/app/job"

// Make is the whole plan of a job: [Progress] laid over [Design]. It never fails: what is missing or does not go
// together becomes a note.
func Make(j job.Job) Plan { return Progress(j, Design(j)) }

// Design is what the job's design asks for: counts, pack list, cards, notes and figures, without anything that was
// ticked, packed or counted. It depends on the brief, palette, crew, kit, pieces, added lines, overrides and choices
// alone, so it may be kept until one of these changes.
func Design(j job.Job) Plan {
	rig := newRig(newDraft(j))
	haul := transport(rig.Draft)
	p := Plan{Balloons: rig.Balloons, Ties: rig.Ties, stays: haul.stays}
	for _, c := range rig.pieces {
		p.Pieces = append(p.Pieces, c.PieceCount)
	}
	p.Pack = packList(rig)
	p.Cards = cardList(rig, haul, p.Pack)
	p.Notes = noteList(rig, haul, p.Cards)
	rig.figures.useClock()
	p.Figures = rig.figures.list()
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
