package plan

// cableTieRule packs cable ties for frames.
func cableTieRule() packRule {
	return thing("supply/cable-ties", "bag/fixings", "Cable ties", "ties", false, func(d *draft) (int, string, Source) {
		each := d.figures.row("supply/cable-ties")
		frames := len(d.framesUsed())
		return up(float64(float64(frames) * each.Value)), number(each.Value) + " for each of " + count(frames, "frame"), each.Source
	})
}
