package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/view"
)

// who may come to an address.
type who int

const (
	crew  who = iota // everybody of the job
	edits            // who may change pieces and cards
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

// route is one address: a star stands for one part, two for all the rest. Addresses below /jobs/* are within a job.
type route struct {
	pattern   string
	who       who // for both
	whoPosts  who // for posts, where that is narrower
	get, post func(*ask) *Reply
	list      *list // that the address shows and edits, in place of the two
	server    bool  // answered by the server alone
}

// routes is the one list of addresses.
var routes []route

// init fills in the routes, whose handlers look addresses up in them.
func init() { routes = table[:] }

var table = [...]route{
	{pattern: "/", get: home},
	{pattern: "/new", who: owner, get: newJob, post: makeJob},
	{pattern: "/away", who: owner, get: awayJobs},
	{pattern: "/import", who: owner, get: importPage, post: importFile},
	{pattern: "/calc", get: calcList},
	{pattern: "/calc/*", get: calculator},
	{pattern: "/phone", get: phone, post: phoneAct},
	{pattern: view.LeavePath, get: leave, post: stay},
	{pattern: view.UnsentPath, get: unsentFile},
	{pattern: "/jobs/*", get: overview},
	{pattern: "/jobs/*/next", get: next},
	{pattern: "/jobs/*/clock", whoPosts: owner, get: clockPage, post: clockAct},
	{pattern: "/jobs/*/counts", get: counts},
	{pattern: "/jobs/*/pack", get: pack},
	{pattern: "/jobs/*/shop", whoPosts: owner, get: shop, post: saveShop},
	{pattern: "/jobs/*/cards", get: cards},
	{pattern: "/jobs/*/cards/**", get: card},
	{pattern: "/jobs/*/change/**", who: edits, get: changeCard, post: saveCard},
	{pattern: "/jobs/*/history", get: history},
	{pattern: "/jobs/*/do", post: do},
	{pattern: "/jobs/*/brief", who: owner, get: brief, post: saveBrief},
	{pattern: "/jobs/*/colours", who: owner, list: &coloursList},
	{pattern: "/jobs/*/crew", who: owner, list: &membersList},
	{pattern: "/jobs/*/kit", who: owner, list: &kitList},
	{pattern: "/jobs/*/added", who: edits, list: &addedList},
	{pattern: "/jobs/*/figures", who: owner, get: figuresPage, post: saveFigures},
	{pattern: "/jobs/*/pieces", whoPosts: edits, get: pieces, post: movePiece},
	{pattern: "/jobs/*/pieces/new", who: edits, get: newPiece, post: addPiece},
	{pattern: "/jobs/*/pieces/*", whoPosts: edits, get: piece, post: savePiece},
	{pattern: "/jobs/*/share", server: true},
	{pattern: "/jobs/*/share/*", server: true},
	{pattern: "/jobs/*/calendar.ics", server: true},
	{pattern: "/jobs/*/export", who: owner, get: exportFile},
	{pattern: "/jobs/*/copy", who: owner, post: copyJob},
	{pattern: "/jobs/*/away", who: owner, post: putAway},
	{pattern: "/jobs/*/back", who: owner, post: takeOut},
	{pattern: "/jobs/*/remove", get: removeJob, post: stay},
	{pattern: "/j", server: true},
	{pattern: "/out", server: true},
	{pattern: "/out/later", server: true},
	{pattern: "/j/open", server: true},
	{pattern: "/scan", server: true},
	{pattern: "/security", server: true},
	{pattern: "/dev/gallery", server: true},
}

// longestPath is the longest address that is looked at.
const longestPath = 400

// find gives the route of an address and what its stars stand for.
func find(path string) (*route, []string, bool) {
	if len(path) > longestPath || !strings.HasPrefix(path, "/") {
		return nil, nil, false
	}
	parts := split(path)
	for i := range routes {
		r := &routes[i]
		if stars, fits := r.fits(parts); fits {
			return r, stars, true
		}
	}
	return nil, nil, false
}

func split(path string) []string {
	trimmed := strings.Trim(path, "/")
	if trimmed == "" {
		return nil
	}
	return strings.Split(trimmed, "/")
}

func (r *route) fits(parts []string) (stars []string, fits bool) {
	pattern := split(r.pattern)
	for i, want := range pattern {
		switch {
		case i >= len(parts) || parts[i] == "":
			return nil, false
		case want == "**":
			return append(stars, strings.Join(parts[i:], "/")), true
		case want == "*":
			stars = append(stars, parts[i])
		case want != parts[i]:
			return nil, false
		}
	}
	return stars, len(parts) == len(pattern)
}

// answers gives what answers a visit, nil for nothing.
func (r *route) answers(post bool) func(*ask) *Reply {
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

// inJob reports whether the first star of the route is a job.
func (r *route) inJob() bool { return strings.HasPrefix(r.pattern, "/jobs/*") }
