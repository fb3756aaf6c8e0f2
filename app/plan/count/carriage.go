package count

// Carriage is how what is made at home for a piece travels.
type Carriage uint8

// These are the ways. A base that travels in sections is joined at home, one that travels in clusters at the venue.
const (
	AsMeant    Carriage = iota // in sections if it has a base, else in bags
	InClusters                 // loose in bags
	NotCarried                 // it does not: all of it is made at the venue
)

// Recount counts a piece anew for another carriage. Its notes stay as they were.
func (d *Draft) Recount(c *Counted, how Carriage) {
	notes := d.Notes
	d.Notes = nil
	*c = *d.countCarried(c.Piece, how)
	d.Notes = notes
}

// InSections reports whether the piece travels as sections of a base that was joined at home.
func (c *Counted) InSections() bool { return c.Joined && !c.JoinOnSite() && len(c.Sections) > 0 }

// JoinOnSite reports whether a base is joined at the venue.
func (c *Counted) JoinOnSite() bool { return c.OnSite || c.Carried == InClusters }
