package task

// coverRule adds the cards for hanging cloths and panels before the base goes up.
var coverRule = rule{family: FamilyCover, place: Site, noun: "kit", title: "Hang ", cards: func(d *draft, r *rule) {
	for _, k := range d.Hanging {
		if !k.Cover {
			continue
		}
		c := r.card(d, k.ID, k.Name)
		c.Steps = []string{
			"Hang it on the frame before any balloons. Clamp both ends first.",
			"Steam cloths from the top down, away from balloons.",
			"Check from the door: it hangs straight and clear of the floor.",
		}
		c.takes(d.together(Site, "cover", float64(k.Count)))
		d.hands(c, d.pair(), d.pair())
		c.After = append([]Ref{FamilyUnload.Only(), FamilyLook.Only()}, d.frameCards(k)...)
		c.care(lifting, ladder)
	}
}}

// coverCards refers to the cards of the cloths and panels that may hang on a frame.
func (d *draft) coverCards(frame string) []Ref {
	var refs []Ref
	for _, k := range d.CoversOn(frame) {
		refs = append(refs, FamilyCover.Of(k.ID))
	}
	return refs
}
