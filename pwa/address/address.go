// Package address holds the addresses of the app: one [Page] for each page and each act. Views, pages, the phone and
// the server build and read addresses here and nowhere else.
package address

import "strings"

// A Page is the pattern of an address. One star stands for one part of the path, two stars for all that is left. The
// first star of a page under /jobs is the job's id.
type Page string

// The pages outside of jobs.
const (
	Home        Page = "/"
	New         Page = "/new"
	Archive     Page = "/away"
	Deleted     Page = "/deleted"
	Import      Page = "/import"
	Calculators Page = "/calc"
	Calculator  Page = "/calc/*"
	Phone       Page = "/phone"
	SignOut     Page = "/phone/out"
	Unsent      Page = "/phone/unsent" // unsent operations, as a file
	Devices     Page = "/phone/devices"
	AppCode     Page = "/phone/code" // makes a short code for the installed app
	NameDevice  Page = "/phone/name"
	EndOwn      Page = "/phone/end" // ends another device of the owner
	Join        Page = "/j"
	JoinOpen    Page = "/j/open" // where the installed app starts
	JoinTyped   Page = "/j/code" // takes the short code
	Scan        Page = "/scan"
	Out         Page = "/out"
	OutLater    Page = "/out/later"
	Shell       Page = "/shell" // what the service worker answers with when there is no signal
	Security    Page = "/security"
	ClientPage  Page = "/look/*" // what a client's link opens
	Gallery     Page = "/dev/gallery"
	GalleryPage Page = "/dev/gallery/*"
)

// The pages of a job.
const (
	Job        Page = "/jobs/*"
	Next       Page = "/jobs/*/next"
	Clock      Page = "/jobs/*/clock"
	Counts     Page = "/jobs/*/counts"
	Pack       Page = "/jobs/*/pack"
	Shop       Page = "/jobs/*/shop"
	Cards      Page = "/jobs/*/cards"
	Card       Page = "/jobs/*/cards/**"
	ChangeCard Page = "/jobs/*/change/**"
	History    Page = "/jobs/*/history"
	Do         Page = "/jobs/*/do"
	Brief      Page = "/jobs/*/brief"
	Colours    Page = "/jobs/*/colours"
	Crew       Page = "/jobs/*/crew"
	Kit        Page = "/jobs/*/kit"
	Added      Page = "/jobs/*/added"
	Figures    Page = "/jobs/*/figures"
	Pieces     Page = "/jobs/*/pieces"
	NewPiece   Page = "/jobs/*/pieces/new"
	Piece      Page = "/jobs/*/pieces/*"
	Layers     Page = "/jobs/*/pieces/*/layers"
	Photos     Page = "/jobs/*/photos"
	SendPhoto  Page = "/jobs/*/photos/send" // for browsers that keep none themselves
	Photo      Page = "/jobs/*/photos/*"
	BuildSheet Page = "/jobs/*/sheet" // for paper
	Look       Page = "/jobs/*/look"  // what the client sees, for the owner
	Room       Page = "/jobs/*/room"  // where the pieces stand
	Boxes      Page = "/jobs/*/boxes" // doors, tables, steps of the room
	Share      Page = "/jobs/*/share"
	Aside      Page = "/jobs/*/share/aside"
	NewLink    Page = "/jobs/*/share/new"
	EndLink    Page = "/jobs/*/share/end"
	NewClient  Page = "/jobs/*/share/look" // makes a link to the client's page
	EndClient  Page = "/jobs/*/share/look/end"
	LinkRoom   Page = "/jobs/*/share/room"
	KeepHeld   Page = "/jobs/*/share/keep"
	DropHeld   Page = "/jobs/*/share/drop"
	OwnerLink  Page = "/jobs/*/share/owner"
	EndDevice  Page = "/jobs/*/share/device"
	Calendar   Page = "/jobs/*/calendar.ics"
	Export     Page = "/jobs/*/export"
	Copy       Page = "/jobs/*/copy"
	ArchiveJob Page = "/jobs/*/away"
	Unarchive  Page = "/jobs/*/back"
	RemoveJob  Page = "/jobs/*/remove" // from this phone
	DeleteJob  Page = "/jobs/*/delete" // for everybody
)

// API is the prefix of the addresses for programs.
const API = "/api/v1"

// The addresses for programs.
const (
	Me      Page = API + "/me"
	SyncAll Page = API + "/sync"
	Sync    Page = API + "/jobs/*/sync"
	SyncOwn Page = API + "/jobs/*/own/sync"
	Events  Page = API + "/jobs/*/events"

	PhotosWanted Page = API + "/photos"
	PhotoFile    Page = API + "/jobs/*/photos/*" // by its hash
	PhotoParts   Page = API + "/jobs/*/photos/*/parts"
)

// pages lists every page. Where two patterns fit a path, the first one counts.
var pages = [...]Page{
	Home, New, Archive, Deleted,
	Import, Calculators, Calculator, Phone, SignOut, Unsent, Devices, AppCode, NameDevice, EndOwn,
	Join, JoinOpen, JoinTyped, Scan, Out, OutLater,
	Shell, Security, ClientPage, Gallery, GalleryPage,
	Job, Next, Clock, Counts, Pack, Shop, Cards, Card, ChangeCard, History, Do, Brief, Colours, Crew, Kit, Added, Figures,
	Photos, SendPhoto, Photo,
	Pieces, NewPiece, Piece, Layers, Room, Boxes, Look, BuildSheet,
	Share, Aside, NewLink, EndLink, NewClient, EndClient, LinkRoom, KeepHeld, DropHeld, OwnerLink, EndDevice, Calendar,
	Export, Copy, ArchiveJob, Unarchive, RemoveJob, DeleteJob,
	Me, SyncAll, Sync, SyncOwn, Events,
	PhotosWanted, PhotoFile, PhotoParts,
}

// Path builds the address of a page: each part takes the place of a star, in order. Pack.Path("J") is "/jobs/J/pack".
func (p Page) Path(parts ...string) string {
	pattern := strings.Replace(string(p), "**", "*", 1)
	var path strings.Builder
	for _, part := range parts {
		before, after, _ := strings.Cut(pattern, "*")
		path.WriteString(before)
		path.WriteString(part)
		pattern = after
	}
	path.WriteString(pattern)
	return path.String()
}

// OwnerInvite returns the address that opens an owner link, whose token no server sees.
func OwnerInvite(token string) string { return Join.Path() + "?as=owner#" + token }

// Route returns the pattern as echo writes it: "/jobs/:job/pack".
func (p Page) Route() string {
	return strings.Replace(strings.Replace(string(p), "/jobs/*", "/jobs/:job", 1), "**", "*", 1)
}

// An Address is a path that has been read.
type Address struct {
	Page Page
	Job  string // the id; empty outside of jobs
	Item string // what the last star of the page stands for; empty if the page has none
}

// longest is how long a path may be, in bytes.
const longest = 400

// Parse reads a decoded path without its query. It reports false for a path that no page has.
func Parse(path string) (Address, bool) {
	if len(path) > longest || !strings.HasPrefix(path, "/") {
		return Address{}, false
	}
	parts := split(path)
	for _, p := range pages {
		stars, fits := p.match(parts)
		if !fits {
			continue
		}
		a := Address{Page: p}
		if JobOf(string(p)) != "" {
			a.Job, stars = stars[0], stars[1:]
		}
		if len(stars) > 0 {
			a.Item = stars[0]
		}
		return a, true
	}
	return Address{}, false
}

// JobOf returns the id of the job that a path lies in, whether or not the path is a page. It is empty outside of jobs.
func JobOf(path string) string {
	rest, inJob := strings.CutPrefix(strings.TrimPrefix(path, API), "/jobs/")
	if !inJob {
		return ""
	}
	id, _, _ := strings.Cut(rest, "/")
	return id
}

// match reports whether the parts of a path fit the pattern, and gives what its stars stand for.
func (p Page) match(parts []string) (stars []string, fits bool) {
	pattern := split(string(p))
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

func split(path string) []string {
	trimmed := strings.Trim(path, "/")
	if trimmed == "" {
		return nil
	}
	return strings.Split(trimmed, "/")
}
