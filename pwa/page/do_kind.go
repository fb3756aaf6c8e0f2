package page

import "garlandry/pwa/view"

// kindFilled says that an addition to a card makes the last cluster of its kind; "" if it does not.
func (r *request) kindFilled(d action) string {
	p := r.plan()
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		layer, makes := pc.LayerOf(d.entity)
		if !makes {
			continue
		}
		laid, _ := pc.LaidOf(layer)
		made := p.Made(pc, layer)
		for kind := range laid.Kinds {
			k, had := &laid.Kinds[kind], 0
			if made.ByKind != nil {
				had = made.ByKind[kind]
			}
			if k.Key() == d.text && had < k.Clusters && had+d.n >= k.Clusters {
				return view.AllOfKind(k) + " made."
			}
		}
	}
	return ""
}
