package server

import (
	"garlandry/app/job"

	"garlandry/app/sync"
)

// A device id is a phone's own: it is bound, for all logs of the server, to the family of sessions that first writes
// under it, and nobody else's operations are taken under it. A foreign id is answered by [sync.Fork], as a number
// clash is: the phone takes a new id and sends again, so that an honest one loses nothing. Such phones are:
//
//   - one whose person opened their link again, or a new one: a new session, the old id in the phone's storage;   -
// an owner's who joins again after the device was ended;   - a copy of another phone;   - one whose id somebody else
// took in a database of an older build, where ids are bound at their first use from now on.
//
// A session that an install code let in is of the same family as the one that asked for the code, because the installed
// app may share the browser's storage. What the log has already is acknowledged before this is asked, so that no answer
// that was lost makes a phone fork. What waits in quarantine binds its id too.
//
// A server put back to an earlier time may have forgotten whose an id is. A record that heals it names its author, so
// an id that is nobody's then is bound to whoever is let in as that author: the owner, or by the same link.

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
