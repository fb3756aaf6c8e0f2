package page

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
)

// who says who may open an address.
type who int

const (
	crew  who = iota // everybody of the job
	edits            // those who may change pieces and cards
	owner
)

func (w who) allows(r job.Role) bool {
	switch w {
	case owner:
		return r == job.Owner
	case edits:
		return r.May(job.Set, "piece/x")
	}
	return r == job.Owner || r == job.Lead || r == job.Helper
}

// route says who may open a page and what answers it.
type route struct {
	page      address.Page
	who       who // for both
	whoPosts  who // for posts, if narrower
	get, post func(*request) *Reply
	list      *list // in place of get and post
	server    bool  // only the server answers it
}

// routes holds the route of each page.
var routes = map[address.Page]*route{}

// init fills in the routes, whose handlers look addresses up in them.
func init() {
	for i := range table {
		routes[table[i].page] = &table[i]
	}
}

// table lists all pages.
var table = [...]route{
	{page: address.Home, get: home},
	{page: address.New, who: owner, get: newJob, post: makeJob},
	{page: address.Archive, who: owner, get: archivedJobs},
	{page: address.Import, who: owner, get: importPage, post: importFile},
	{page: address.Calculators, get: calcList},
	{page: address.Calculator, get: calculator},
	{page: address.Phone, get: phone, post: phoneAct},
	{page: address.SignOut, get: leave, post: stay},
	{page: address.Unsent, get: unsentFile},
	{page: address.Job, get: overview},
	{page: address.Next, get: next},
	{page: address.Clock, whoPosts: owner, get: clockPage, post: clockAct},
	{page: address.Counts, get: counts},
	{page: address.Pack, get: pack},
	{page: address.Shop, whoPosts: owner, get: shop, post: saveShop},
	{page: address.Cards, get: cards},
	{page: address.Card, get: card},
	{page: address.ChangeCard, who: edits, get: changeCard, post: saveCard},
	{page: address.History, get: history},
	{page: address.Do, post: do},
	{page: address.Brief, who: owner, get: brief, post: saveBrief},
	{page: address.Colours, who: owner, list: &coloursList},
	{page: address.Crew, who: owner, list: &membersList},
	{page: address.Kit, who: owner, list: &kitList},
	{page: address.Added, who: edits, list: &addedList},
	{page: address.Figures, who: owner, get: figuresPage, post: saveFigures},
	{page: address.Pieces, whoPosts: edits, get: pieces, post: movePiece},
	{page: address.NewPiece, who: edits, get: newPiece, post: addPiece},
	{page: address.Piece, whoPosts: edits, get: piece, post: savePiece},
	{page: address.Layers, who: edits, get: layersPage, post: changeLayers},
	{page: address.Photos, whoPosts: edits, get: photos, post: addPhoto},
	{page: address.SendPhoto, server: true},
	{page: address.Photo, whoPosts: edits, get: photo, post: savePhoto},
	{page: address.BuildSheet, get: buildSheet},
	{page: address.Look, who: owner, get: clientLook},
	{page: address.Room, whoPosts: edits, get: room, post: saveRoom},
	{page: address.Boxes, who: edits, list: &boxesList},
	{page: address.Share, server: true},
	{page: address.Aside, server: true},
	{page: address.NewLink, server: true},
	{page: address.EndLink, server: true},
	{page: address.NewClient, server: true},
	{page: address.EndClient, server: true},
	{page: address.LinkRoom, server: true},
	{page: address.KeepHeld, server: true},
	{page: address.DropHeld, server: true},
	{page: address.OwnerLink, server: true},
	{page: address.EndDevice, server: true},
	{page: address.Calendar, server: true},
	{page: address.Export, who: owner, get: exportFile},
	{page: address.Copy, who: owner, post: copyJob},
	{page: address.ArchiveJob, who: owner, post: archiveJob},
	{page: address.Unarchive, who: owner, post: unarchiveJob},
	{page: address.RemoveJob, get: removeJob, post: stay},
	{page: address.DeleteJob, server: true},
	{page: address.Deleted, server: true},
	{page: address.Join, server: true},
	{page: address.Out, server: true},
	{page: address.OutLater, server: true},
	{page: address.JoinOpen, server: true},
	{page: address.JoinTyped, server: true},
	{page: address.Devices, server: true},
	{page: address.AppCode, server: true},
	{page: address.NameDevice, server: true},
	{page: address.EndOwn, server: true},
	{page: address.Scan, server: true},
	{page: address.ClientPage, server: true},
	{page: address.Security, server: true},
	{page: address.Gallery, server: true},
	{page: address.GalleryPage, server: true},
}

// find returns the route of a path, nil if there is none, and the parsed path.
func find(path string) (*route, address.Address) {
	at, known := address.Parse(path)
	if !known {
		return nil, at
	}
	return routes[at.Page], at
}

// answers returns the handler for a GET or a POST, nil if there is none.
func (r *route) answers(post bool) func(*request) *Reply {
	switch {
	case r.list != nil && post:
		return r.list.act
	case r.list != nil:
		return r.list.page
	case post:
		return r.post
	}
	return r.get
}
