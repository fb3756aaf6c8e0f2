package plan

import "garlandry/app/job"

// colourNotes says where no colour was chosen, or one that was chosen has left the palette.
func colourNotes(d *noteDraft) {
	for _, c := range d.pieces {
		p := c.Piece
		for _, s := range append(append([]job.Share{}, p.Colours...), p.AccentShares...) {
			if _, known := d.job.Colour(s.Colour); !known {
				d.warn(
					p.ID,
					p.Name+": "+text(
						d.job,
						"colour/"+s.Colour,
						"name",
						s.Colour,
					)+" is no longer in the palette; the other colours take its share.",
				)
			}
		}
		for _, b := range c.By {
			if b.Colour.ID == undecided().ID {
				d.warn(p.ID, p.Name+": no colours yet. Its balloons are counted as “"+undecided().Name+"”.")
				break
			}
		}
	}
	for _, colour := range d.job.Colours {
		if len(colour.Sizes) == 0 {
			d.warn("", "Write down in which sizes "+colour.Name+" can be had: none is named.")
		}
	}
}
