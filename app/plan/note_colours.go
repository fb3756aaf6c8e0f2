package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// colourNotes says where no colour is chosen and where a chosen one has left the palette.
func colourNotes(d *draft) {
	for _, c := range d.Pieces {
		p := c.Piece
		for _, s := range append(append([]job.Share{}, p.Colours...), p.AccentShares...) {
			if _, known := d.Job.Colour(s.Colour); !known {
				gone := phrase.Field(d.Job, "colour/"+s.Colour, "name", s.Colour)
				d.Warn(p.ID, p.Name+": "+gone+" is no longer in the palette; the other colours take its share.")
			}
		}
		for _, b := range c.By {
			if b.Colour.ID == count.Undecided().ID {
				d.Warn(p.ID, p.Name+": no colours yet. Its balloons are counted as “"+count.Undecided().Name+"”.")
				break
			}
		}
	}
	for _, colour := range d.Job.Colours {
		if len(colour.Sizes) == 0 {
			d.Warn("", colour.Name+" has no sizes yet: add the sizes it comes in.")
		}
	}
}
