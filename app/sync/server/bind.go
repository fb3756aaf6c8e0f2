package server

import (
	"garlandry/app/job"

	"garlandry/app/sync"
)

// A device id belongs to one phone. The first session that writes under an id binds it, for all logs of the server, to
// its family of sessions. The server takes nobody else's operations under it: it answers a foreign id with [sync.Fork],
// as it does a number clash. The phone then takes a new id and sends again, so an honest phone loses nothing. Such
// phones are:
//
//   - one whose person opened their link again, or a new one: a new session with the old id in the phone's storage;
//   - an owner's that joins again after the device was ended;
//   - a copy of another phone;
//   - one whose id somebody else used first in a database of an older build, which bound no ids.
//
// A session that an install code let in is of the same family as the one that asked for the code, because the installed
// app may share the browser's storage. The server acknowledges what the log has before it checks the id, so a lost
// answer makes no phone fork. What waits in quarantine binds its id too.
//
// A server restored to an earlier time may have forgotten whose an id is. A record that heals it names its author, so
// an unbound id is then bound to whoever is let in as that author: the owner, or somebody by the same link.

// heirs is whom a device id is bound to by a record of the author's, "" if that does not tell.
func heirs(by job.Author) string {
	if as := sync.Identity(by); as != "" {
		return "as " + as
	}
	return ""
}

// family is whom a device id is bound to, "" for a session without an id, which binds nothing.
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
	if owner != family && owner != heirs(x.session.Author) {
		return true, nil
	}
	x.nowBound(device)
	return false, nil
}

// bind makes the device id the session's, in the transaction that takes its first operation.
func (x *exchange) bind(device string) error {
	family := x.family()
	if family == "" || x.bound[device] {
		return nil
	}
	x.nowBound(device)
	return x.ledger.BindDevice(device, family)
}

// inherit binds the device id of a record that heals.
func (x *exchange) inherit(rec job.Rec) error {
	if owner := heirs(rec.Author); owner != "" {
		return x.ledger.BindDevice(rec.Device, owner)
	}
	return nil
}

func (x *exchange) nowBound(device string) {
	if x.bound == nil {
		x.bound = map[string]bool{}
	}
	x.bound[device] = true
}
