package server

import (
	"garlandry/app/job"
	"garlandry/app/sync"
)

// A device id belongs to one phone. The first session that writes under an id binds it, for all logs of the server, to
// its family of sessions. The server refuses everybody else's operations under it: it answers a foreign id with
// [sync.Fork], as it does a number clash. The phone then takes a new id and sends again, so an honest phone loses
// nothing. This happens to:
//
//   - a phone whose person opened a link again: it has a new session and the old id in its storage;
//   - an owner's phone that joins again after the device was ended;
//   - a copy of another phone;
//   - a phone whose id somebody else used first, in a database of an older build, which bound no ids.
//
// A session from an install code belongs to the family of the session that asked for the code, because the installed
// app may share the browser's storage. The server acknowledges known operations before it checks the id, so no phone
// forks over a lost answer. Operations in quarantine bind their id too.
//
// A restored server may have forgotten the owner of an id. A record that heals it names its author. An unbound id is
// then bound to everyone let in as that author: the owner, or anyone by the same link.

// ownerByAuthor returns the owner to bind a device id to, given a record's author; "" if unknown.
func ownerByAuthor(by job.Author) string {
	if as := sync.Identity(by); as != "" {
		return "as " + as
	}
	return ""
}

// family returns the owner to bind the session's device ids to; "" for a session without an id, which binds none.
func (x *exchange) family() string {
	if x.session.Family != "" {
		return x.session.Family
	}
	return x.session.ID
}

// foreign reports whether the device id belongs to somebody else.
func (x *exchange) foreign(device string) (bool, error) {
	family := x.family()
	if family == "" || x.bound[device] {
		return false, nil
	}
	owner, err := x.ledger.DeviceOf(device)
	if err != nil || owner == "" {
		return false, err
	}
	if owner != family && owner != ownerByAuthor(x.session.Author) {
		return true, nil
	}
	x.rememberBound(device)
	return false, nil
}

// bind binds the device id to the session, in the transaction that stores its first operation.
func (x *exchange) bind(device string) error {
	family := x.family()
	if family == "" || x.bound[device] {
		return nil
	}
	x.rememberBound(device)
	return x.ledger.BindDevice(device, family)
}

// inherit binds the device id of a healed record.
func (x *exchange) inherit(rec job.Rec) error {
	if owner := ownerByAuthor(rec.Author); owner != "" {
		return x.ledger.BindDevice(rec.Device, owner)
	}
	return nil
}

func (x *exchange) rememberBound(device string) {
	if x.bound == nil {
		x.bound = map[string]bool{}
	}
	x.bound[device] = true
}
