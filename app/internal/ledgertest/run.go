package ledgertest

import (
	"encoding/json"
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/require"
)

// Created is when every job of the suite was created, in Unix milliseconds.
const Created = int64(1_800_000_000_000)

// Transact runs a function on a log in one transaction and rolls back if the function returns an error.
type Transact func(do func(server.Ledger) error) error

// Open makes an empty log with the given id, created at [Created].
type Open func(t *testing.T, log string) Transact

// Run runs the suite on a ledger.
func Run(t *testing.T, open Open) {
	for _, part := range []struct {
		name string
		test func(*testing.T, Open)
	}{
		{"records are found again", recordsAreFound},
		{"a number keeps its first operation", numbersKeepTheirOperation},
		{"the last operation of a device on a register", lastOnRegister},
		{"moved stamps are stored once", restamps},
		{"quarantine", quarantine},
		{"stamps", stamps},
		{"a server clock set back", serverClockSetBack},
		{"the same request again", sameRequestAgain},
		{"forks", forks},
		{"a device id belongs to one phone", devicesAreBound},
		{"owners of device ids", devices},
		{"operations set aside", aside},
		{"unsafe records of an older build", unsafeRecord},
		{"moved stamps of one register are bounded", restampsAreBounded},
		{"refused operations", refusals},
		{"pages", pages},
		{"rewound", rewound},
		{"healing", healing},
		{"healing keeps the order", healingKeepsOrder},
		{"closed links", closedLinks},
		{"the quarantine's limit", quarantineLimit},
		{"a closed link that is reopened", openAgain},
		{"use is counted", counted},
		{"bytes of a link in an hour", linkHourBytes},
		{"operations of a link in an hour", linkHourOps},
		{"all links in an hour", othersHour},
		{"a link's total", linkTotal},
		{"the total of all links, and the owner's", ownerRoom},
		{"healing has no hourly limit", healingHasNoHourlyLimit},
		{"phones of earlier builds are asked to wait", earlierPhones},
		{"many sessions of one closed link", heldByLink},
		{"a log from before limits", countedAgain},
	} {
		t.Run(part.name, func(t *testing.T) { part.test(t, open) })
	}
}

var (
	owner  = server.Session{ID: "s-owner", Author: job.Author{Role: job.Owner, Name: "Owner"}}
	lead   = server.Session{ID: "s-ines", Author: job.Author{Role: job.Lead, Name: "Ines", Link: "l-ines"}}
	helper = server.Session{ID: "s-bea", Author: job.Author{Role: job.Helper, Name: "Bea", Link: "l-bea"}}
)

// tick returns a device's operation that ticks a card.
func tick(id, device string, number uint64, wall int64, parents ...string) job.Op {
	return job.Op{ID: "operation-" + id, Device: device, Number: number, Version: 1, Kind: job.Set,
		Entity: "card/make/door", Field: "done", Value: json.RawMessage("true"), Wall: wall, Parents: ids(parents)}
}

func ids(names []string) []string {
	var all []string
	for _, n := range names {
		all = append(all, "operation-"+n)
	}
	return all
}

// post returns a request with operations, sent at the phone's time now.
func post(now int64, ops ...job.Op) sync.Request {
	req := sync.Request{V: sync.WireVersion, Device: "phone", Now: now, Ops: ops}
	if len(ops) > 0 {
		req.Device = ops[0].Device
	}
	return req
}

// serve answers a request in one transaction.
func serve(t *testing.T, in Transact, session server.Session, req sync.Request, now int64) sync.Response {
	t.Helper()
	var resp sync.Response
	require.NoError(t, in(func(l server.Ledger) (err error) {
		resp, err = server.Serve(l, session, req, now)
		return err
	}))
	return resp
}

// results returns the acknowledgements as text, such as "ok fork".
func results(resp sync.Response) string {
	text := ""
	for i, a := range resp.Acks {
		if i > 0 {
			text += " "
		}
		text += string(a.Result)
	}
	return text
}

// all reads every record.
func all(t *testing.T, in Transact) []job.Rec {
	t.Helper()
	var recs []job.Rec
	require.NoError(t, in(func(l server.Ledger) (err error) {
		recs, err = l.Read(1, 1<<20)
		return err
	}))
	return recs
}

// stampOf finds the stamp of an operation.
func stampOf(t *testing.T, in Transact, id string) int64 {
	t.Helper()
	for _, r := range all(t, in) {
		if r.ID == "operation-"+id {
			return r.Effective
		}
	}
	require.Fail(t, fmt.Sprintf("operation %s is not in the log", id))
	return 0
}
