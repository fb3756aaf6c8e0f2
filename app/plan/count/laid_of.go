package count

// LaidOf returns the clusters of the base, layer 0, or of what sits on it, as [PieceCount.On] lists it from 1; and the
// cards that make them, "" for none. It returns no clusters for a layer that the piece does not have.
func (c *PieceCount) LaidOf(layer int) (laid *Laid, makers [2]string) {
	on := c.On()
	switch {
	case layer == 0:
		return &c.Laid, [2]string{c.AheadKey, c.MakeKey}
	case layer > 0 && layer <= len(on):
		return &on[layer-1].Laid, [2]string{on[layer-1].MakeKey}
	}
	return &Laid{}, makers
}

// LayerOf returns which layer of the piece a card makes or puts on, 0 for the base and for other cards. Makes reports
// whether it makes it.
func (c *PieceCount) LayerOf(card string) (layer int, makes bool) {
	for i, on := range c.On() {
		if card == on.MakeKey || card == on.FixKey {
			return i + 1, card == on.MakeKey
		}
	}
	return 0, card != "" && (card == c.MakeKey || card == c.AheadKey)
}
