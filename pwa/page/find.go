package page

import "garlandry/pwa/view"

// mostFind is how long a text a list is searched for, in characters.
const mostFind = 80

// find reads what the page's list is searched for. Carried is another choice of the page, as a query.
func (r *request) find(carried string) {
	r.frame.Finder = view.Finder{Find: truncate(r.in.Get(view.FieldFind), mostFind), Carried: carried,
		Typed: r.in.Has(view.FieldFind)}
}
