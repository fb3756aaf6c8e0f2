package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
)

// frames counts the frames in use, without column stands and number frames. A kit item with several counts once.
func frames(d *rigging.Rig) int {
	n := 0
	for _, k := range d.Frames {
		if !rigging.Upright(k) {
			n++
		}
	}
	return n
}

// poleNeed packs a pole and a foot for each column that no column stand of the kit carries.
func poleNeed(d *rigging.Rig) (int, string, *figures.Source) {
	u := d.Uprights("pole")
	return u.Lacking, "one for each column of " + u.Pieces + "; your kit has " + of(u), &figures.Usual
}

// digitNeed packs a frame for each digit that no number frame of the kit carries.
func digitNeed(d *rigging.Rig) (int, string, *figures.Source) {
	u := d.Uprights("digits")
	return u.Lacking, "one for each digit of " + u.Pieces + "; your kit has " + of(u), &figures.Usual
}

// of says how many of the stands needed the kit has.
func of(u rigging.Uprights) string {
	if u.Lacking == u.Need {
		return "none"
	}
	return phrase.Number(float64(u.Need-u.Lacking)) + " of " + phrase.Number(float64(u.Need))
}

// wallNeed packs what carries each wall that hangs on nothing of the kit.
func wallNeed(d *rigging.Rig) (int, string, *figures.Source) {
	names := ""
	walls := d.Unhung()
	for _, c := range walls {
		names = phrase.AppendName(names, c.Piece.Name)
	}
	how := "a frame with weights for its feet, because nothing may be stuck to the walls here"
	switch d.Job.Brief.Fixing {
	case "removable":
		how = "a net on a line and hooks, or a frame with weights for its feet; ask what the hooks may carry"
	case "tie":
		how = "a frame with weights for its feet, or a net with cord to tie it to rails and posts"
	case "any":
		how = "a frame with weights for its feet, or a net on the venue's own fixings"
	}
	return len(walls), names + ": " + how, &figures.Usual
}

// cordNeed packs cord for what stands outdoors without a frame or stand, and says how hard the wind pushes it.
func cordNeed(d *rigging.Rig) (int, string, *figures.Source) {
	var parts []string
	for _, c := range d.Pieces {
		if pushN := d.PushN(c); pushN > 0 {
			parts = append(parts, c.Piece.Name+" ("+measure.FormatForce(pushN, d.Units)+")")
		}
	}
	if parts == nil {
		return 0, "", nil
	}
	return 1, "to tie what has no frame to posts or rails that the venue trusts with the push of the wind: " +
		phrase.And(parts), &figures.Usual
}

// levelNeed packs a spirit level for whatever has to stand upright.
func levelNeed(d *rigging.Rig) (int, string, *figures.Source) {
	if d.Standing() == 0 {
		return 0, "", nil
	}
	return 1, "what leans, tips: level each frame and stand both ways", &figures.Usual
}

// strapNeed packs two straps for each helium cylinder in the car, and one for each that stays where it is.
func strapNeed(d *rigging.Rig) (int, string, *figures.Source) {
	switch {
	case !(d.HeliumL() > 0):
		return 0, "", nil
	case !d.Travels():
		return cylinders(d), "one for each cylinder: it stands tied, so that nobody knocks it over", &figures.Usual
	}
	return 2 * cylinders(d), "two for each cylinder: it travels tied, cap on, and stands tied at the venue",
		&figures.Usual
}

// stakeNeed packs stakes, each with a line, for the stands on grass that they hold.
func stakeNeed(d *rigging.Rig) (int, string, *figures.Source) {
	var parts []string
	for _, s := range d.Stands {
		if s.Lines > 0 {
			parts = append(parts, phrase.Number(float64(2*s.Count*s.Lines))+" for "+s.Name)
		}
	}
	return d.Stakes(), phrase.And(parts) + "; with bright tape for the lines. Ask before you drive them in",
		&d.Figures.Row("stand/stake-n").Source
}

// malletNeed packs a mallet for the stakes.
func malletNeed(d *rigging.Rig) (int, string, *figures.Source) {
	if d.Stakes() == 0 {
		return 0, "", nil
	}
	return 1, "for the stakes; cables and pipes may run below", &figures.Usual
}

// shadeNeed packs a cover against sun and rain outdoors.
func shadeNeed(d *rigging.Rig) (int, string, *figures.Source) {
	reason := "sun bursts balloons and rain spoils pumps and cloths"
	switch {
	case !d.Outdoors() || !d.AnyBalloon():
		return 0, "", nil
	case d.Job.Brief.Rain == "rain":
		reason = "rain is expected: keep pumps, cloths and bags dry"
	case d.Job.Brief.Sun == "sun":
		reason = "in the sun balloons grow and burst: fill and keep them in the shade"
	}
	return 1, reason, &figures.Usual
}
