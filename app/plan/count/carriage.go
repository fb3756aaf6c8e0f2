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
func (d *Draft) Recount(c *Counted, how Carriage) { *c = *d.Carry(c, how) }

// Carry returns what [Draft.Recount] would count, and leaves the draft as it is.
func (d *Draft) Carry(c *Counted, how Carriage) *Counted {
	notes := d.Notes
	d.Notes = nil
	counted := d.countCarried(c.Piece, how)
	d.Notes = notes
	return counted
}

// InSections reports whether the piece travels as sections of a base that was joined at home.
func (c *Counted) InSections() bool { return c.Joined && !c.JoinOnSite() && len(c.Sections) > 0 }

// JoinOnSite reports whether a base is joined at the venue.
func (c *Counted) JoinOnSite() bool { return c.OnSite || c.Carried == InClusters }
