package main

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"
	"garlandry/app/sync/server"
	"garlandry/testdata/long"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"
)

// between starts a proxy in front of a server and returns its address. The proxy may change answers.
func between(t *testing.T, server *running, change func(path string, body []byte) []byte) string {
	t.Helper()
	target, err := url.Parse(server.address)
	require.NoError(t, err)
	proxy := httputil.NewSingleHostReverseProxy(target)
	proxy.FlushInterval = -1
	proxy.ErrorHandler = func(w http.ResponseWriter, _ *http.Request, _ error) { w.WriteHeader(http.StatusBadGateway) }
	proxy.ModifyResponse = func(answer *http.Response) error {
		if strings.HasPrefix(answer.Header.Get("Content-Type"), "text/event-stream") {
			return nil
		}
		body, err := io.ReadAll(answer.Body)
		if err != nil {
			return err
		}
		if answer.Header.Get("Content-Encoding") == "" {
			body = change(answer.Request.URL.Path, body)
		}
		answer.Body = io.NopCloser(bytes.NewReader(body))
		answer.ContentLength = int64(len(body))
		answer.Header.Set("Content-Length", strconv.Itoa(len(body)))
		return nil
	}
	front := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "worker.js") || strings.HasPrefix(r.URL.Path, "/api/") {
			r.Header.Set("Accept-Encoding", "identity")
		}
		proxy.ServeHTTP(w, r)
	}))
	t.Cleanup(front.Close)
	return front.URL
}

// bring has the owner create a job with a title on the server.
func bring(t *testing.T, owner *http.Client, address, id, title string) {
	t.Helper()
	op := job.Op{ID: newID(), Device: "maker-" + id, Number: 1, Version: 1, Kind: job.Set, Entity: "brief",
		Field: "title", Value: json.RawMessage(strconv.Quote(title)), Wall: time.Now().UnixMilli()}
	answer, status, err := exchange(owner, address, id, wire.Request{Device: op.Device, Now: op.Wall, Ops: []job.Op{op}})
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, status)
	require.Equal(t, wire.OK, answer.Acks[0].Result, answer.Acks[0].Why)
}

// hostileOps returns operations that a malicious member may send, by name.
func hostileOps() map[string]job.Op {
	set := func(entity, field, value string) job.Op {
		return job.Op{Kind: job.Set, Entity: entity, Field: field, Value: json.RawMessage(value)}
	}
	nested := strings.Repeat("[", 9000) + strings.Repeat("]", 9000)
	keys := make([]string, 100_000)
	for i := range keys {
		keys[i] = `"k` + strconv.Itoa(i) + `":1`
	}
	return map[string]job.Op{
		"deep-unknown": {Kind: "wave", Entity: "card/look", Value: json.RawMessage(nested)},
		"deep-object": {
			Kind:   "wave",
			Entity: "card/look",
			Value:  json.RawMessage(strings.Repeat(`{"a":`, 9000) + "1" + strings.Repeat("}", 9000)),
		},
		"deep-field":   set("piece/x", "later", nested),
		"deep-done":    set("card/look", "done", nested),
		"long-text":    set("card/look", "note", `"`+strings.Repeat("x", 300<<10)+`"`),
		"long-number":  set("piece/x", "width", strings.Repeat("9", 5000)),
		"half-letter":  set("card/look", "note", `"\ud800"`),
		"many-keys":    {Kind: "wave", Entity: "card/look", Value: json.RawMessage("{" + strings.Join(keys, ",") + "}")},
		"wide-list":    set("piece/x", "later", "["+strings.Repeat("1,", 30_000)+"1]"),
		"huge-number":  set("piece/x", "width", "1e308"),
		"odd-letters":  set("brief", "venue", `"\u202etxet\u0000\u200f\ufeff\u0007<script>"`),
		"unknown-kind": {Kind: "wave", Entity: "card/look", Value: json.RawMessage(`{"a":[1,2]}`)},
		"unknown-noun": set("wave/"+strings.Repeat("w", 150), "later", `true`),
		"no-count": {
			Kind:   job.Stocktake,
			Entity: "card/look",
			Value:  json.RawMessage(`{"count":-9e15,"covers":[null,7]}`),
		},
		"huge-addition": {Kind: job.Add, Entity: "card/look", Delta: 1 << 62},
		"no-value":      {Kind: job.Set, Entity: "card/look", Field: "done"},
	}
}

// spoil writes operations into a stopped server's database without any check, as an older build may have done.
func spoil(t *testing.T, dir string, ops map[string]job.Op) {
	t.Helper()
	db, err := bbolt.Open(filepath.Join(dir, "garlandry.db"), 0o600, &bbolt.Options{Timeout: time.Second})
	require.NoError(t, err)
	defer db.Close()
	require.NoError(t, db.Update(func(tx *bbolt.Tx) error {
		for id, op := range ops {
			log := tx.Bucket([]byte("logs")).Bucket([]byte(id))
			require.NotNil(t, log, id)
			var head server.Head
			require.NoError(t, json.Unmarshal(log.Get([]byte("head")), &head))
			op.ID, op.Device, op.Number, op.Version = "hostile-"+id, "hostile", 1, 1
			rec := job.Rec{Op: op, Effective: head.Latest + 1, Seq: head.Seq + 1,
				Author: job.Author{Role: job.Helper, Name: "Mallory"}}
			raw, err := json.Marshal(rec)
			require.NoError(t, err)
			hash := strings.Repeat("f", 32)
			key := make([]byte, 8)
			key[7], key[6] = byte(rec.Seq), byte(rec.Seq>>8)
			require.NoError(t, log.Bucket([]byte("recs")).Put(key, append([]byte(hash), raw...)))
			require.NoError(t, log.Bucket([]byte("ids")).Put([]byte(rec.ID), key))
			head.Seq, head.Count, head.Hash, head.Digest = rec.Seq, head.Count+1, hash, head.Digest+wire.Digest(rec)
			raw, err = json.Marshal(head)
			require.NoError(t, err)
			require.NoError(t, log.Put([]byte("head"), raw))
		}
		return nil
	}))
}

// hostileServer returns a restarted server with a good job and one spoiled job for each hostile operation.
func hostileServer(t *testing.T) (server *running, owner *http.Client, good string) {
	dir := t.TempDir()
	server = startServer(t, dir, "", true)
	owner = visitor(t, server.link, "")
	good = anyJob(t, owner, server.address)
	for id := range hostileOps() {
		bring(t, owner, server.address, id, "Job "+id)
	}
	server.stop()
	spoil(t, dir, hostileOps())
	return startServer(t, dir, server.host(), true), owner, good
}

// TestBrowserAnOldDatabaseWithHostileOperations checks that a server with such a database renders every page, that
// phones receive what they can hold, and that all jobs work.
func TestBrowserAnOldDatabaseWithHostileOperations(t *testing.T) {
	long.Test(t, "a database that holds hostile operations")
	inBrowser(t)
	server, owner, good := hostileServer(t)
	p := newPhone(t, t.TempDir())
	p.join(server.link, "")
	p.ready()
	for id := range hostileOps() {
		p.until(`document.querySelector('a.row[href^="/jobs/` + id + `"]')`)
	}
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	for id := range hostileOps() {
		p.open(server.address + "/jobs/" + id)
		p.ready()
		p.sees("Job " + id)
	}
	goodJobWorks(p, server, owner, good, server.address)
}

// goodJobWorks ticks on the phone and checks that the server has the tick.
func goodJobWorks(p *phone, server *running, owner *http.Client, good, address string) {
	p.t.Helper()
	ticks := func() (n int) {
		for _, r := range records(p.t, owner, server.address, good) {
			if r.Tick() && r.Field == "done" {
				n++
			}
		}
		return n
	}
	before := ticks()
	p.open(address + "/jobs/" + good + "/cards/look")
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`) // rendered by the core
	p.tap(`#page form[data-core] button[type=submit]`)
	p.until(`document.querySelector('#flash > *') && document.documentElement.dataset.waiting === '0'`)
	assert.Equal(p.t, before+1, ticks())
}

// spoilAnswers adds a job's hostile operation to each answer, alone or among others.
func spoilAnswers(path string, body []byte) []byte {
	var batch wire.BatchAnswer
	if path != "/api/v1/sync" {
		return spoilAnswer(strings.TrimSuffix(strings.TrimPrefix(path, "/api/v1/jobs/"), "/sync"), body)
	}
	if json.Unmarshal(body, &batch) != nil {
		return body
	}
	for i, l := range batch.Logs {
		batch.Logs[i].Response = spoilAnswer(l.Log, l.Response)
	}
	changed, err := json.Marshal(batch)
	if err != nil {
		return body
	}
	return changed
}

func spoilAnswer(id string, body []byte) []byte {
	op, is := hostileOps()[id]
	var answer wire.Response
	if !is || json.Unmarshal(body, &answer) != nil || answer.More || len(answer.Recs) == 0 {
		return body
	}
	op.ID, op.Device, op.Number, op.Version = "hostile-"+id, "hostile", 1, 1
	rec := job.Rec{Op: op, Effective: answer.Now, Seq: answer.Seq + 1,
		Author: job.Author{Role: job.Helper, Name: "Mallory"}}
	stamps := map[string]int64{"unknown-kind": 1<<60 - 1, "no-value": -1 << 52}
	if stamp, is := stamps[id]; is {
		rec.Effective = stamp
	}
	digest, _ := strconv.ParseUint(answer.Digest, 16, 64)
	answer.Recs = append(answer.Recs, rec)
	answer.Seq, answer.Head, answer.Count = answer.Seq+1, answer.Head+1, answer.Count+1
	answer.Digest = wire.FormatDigest(digest + wire.Digest(rec))
	changed, err := json.Marshal(answer)
	if err != nil {
		return body
	}
	return changed
}

// TestBrowserHostileAnswers runs the real core against a server that checks nothing. The core refuses the jobs that it
// cannot hold, names them, and shows the rest.
func TestBrowserHostileAnswers(t *testing.T) {
	long.Test(t, "a core that receives hostile answers")
	inBrowser(t)
	dir := t.TempDir()
	server := startServer(t, dir, "", true)
	owner := visitor(t, server.link, "")
	good := anyJob(t, owner, server.address)
	for id := range hostileOps() {
		bring(t, owner, server.address, id, "Job "+id)
	}
	address := between(t, server, spoilAnswers)
	p := newPhone(t, t.TempDir())
	p.join(invite(t, binary(t, ""), dir, address), "")
	p.ready()
	for id, op := range hostileOps() {
		if op.Harmless() {
			p.until(`document.querySelector('a.row[href^="/jobs/` + id + `"]')`)
			continue
		}
		p.until(`document.querySelector('#page [data-again="` + id + `"]')`)
		p.sees("Job " + id)
	}
	p.sees("can’t open this job")
	for id := range hostileOps() {
		p.open(address + "/jobs/" + id)
		p.until(`document.documentElement.dataset.ready === 'yes'`)
		p.sees("Job " + id) // rendered by the core or by the server
	}
	p.open(address + "/")
	p.ready()
	p.shot("hostile-jobs")
	goodJobWorks(p, server, owner, good, address)
}
