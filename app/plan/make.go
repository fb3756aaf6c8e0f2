package plan

import "garlandry/app/job"

// Make is the whole plan of a job: [Progress] laid over [Design]. It never fails: what is missing or does not go
// together becomes a note.
func Make(j job.Job) Plan { return Progress(j, Design(j)) }

// Design is what the job's design asks for: counts, pack list, cards, notes and figures, without anything that was
// ticked, packed or counted. It depends on the brief, palette, crew, kit, pieces, added lines, overrides and choices
// alone, so it may be kept until one of these changes.
func Design(j job.Job) Plan {
	d := newDraft(j)
	for _, p := range j.Pieces {
		d.pieces = append(d.pieces, d.count(p))
	}
	d.balloons()
	d.packList()
	d.cardList()
	d.noteList()
	for _, c := range d.pieces {
		d.plan.Pieces = append(d.plan.Pieces, c.PieceCount)
	}
	for _, e := range append(strayEntries(), clockEntries()...) { // the clock reads them, so they stand among the figures that may be overruled
		d.figures.get(e.key)
	}
	d.plan.stays = d.haul().stays
	d.plan.Figures = d.figures.list()
	return d.plan
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
