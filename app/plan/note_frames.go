package plan

// frameNotes says where a piece stands on a frame that is not in the kit.
func frameNotes(d *noteDraft) {
	for _, c := range d.pieces {
		p := c.Piece
		if p.Frame == "" {
			continue
		}
		if _, known := d.job.KitItem(p.Frame); !known {
			d.warn(p.ID, p.Name+": its frame is no longer in the kit.")
		}
	}
}
