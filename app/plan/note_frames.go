package plan

// frameNotes warns about pieces whose frame is not in the kit.
func frameNotes(d *draft) {
	for _, c := range d.Pieces {
		p := c.Piece
		if p.Frame == "" {
			continue
		}
		if _, known := d.Job.KitItem(p.Frame); !known {
			d.Warn(p.ID, p.Name+": its frame is no longer in the kit.")
		}
	}
}
