package device_test

import (
	"encoding/json"
	"errors"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
	"garlandry/pwa/device"
)

// wire is one phone's connection to the server.
type wire struct {
	*world
	session server.Session
	offline bool          // nothing gets through
	lose    int           // answers that get lost from now on
	status  int           // what the server answers instead, if not 0
	hang    chan struct{} // every request waits for this to close, then fails
	asked   []string      // paths, in order
	flying  int           // requests in flight

	syncStatus int                      // status of the server's answers to sync requests, if not 0
	only       string                   // the one job that this session may see; "" for all
	refuses    string                   // the server is too busy to sync this log; "" for none
	instead    map[string]sync.Response // the server's answer to sync requests, by log
	deleted    map[string]bool          // jobs that the owner deleted; true: removed for good
	old        bool                     // an earlier build: accepts one log per request and sends no hashes
	role       string                   // role for which the server drew the next tab's first page
}

func (w *wire) set(change func(*wire)) {
	w.mu.Lock()
	defer w.mu.Unlock()
	change(w)
}

func (w *wire) Fetch(method, path, body string, _ time.Duration) device.Answer {
	w.mu.Lock()
	hang := w.hang
	w.flying++
	w.mu.Unlock()
	defer w.set(func(w *wire) { w.flying-- })
	if hang != nil {
		select {
		case <-hang:
		case <-w.ctx.Done():
		}
		return device.Answer{}
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.asked = append(w.asked, path)
	switch {
	case w.offline:
		return device.Answer{}
	case w.status != 0:
		return device.Answer{Status: w.status, RetryAfter: "2"}
	}
	if w.syncStatus != 0 && method == "POST" {
		return device.Answer{Status: w.syncStatus}
	}
	answer := w.serve(method, path, body)
	if w.lose > 0 {
		w.lose--
		return device.Answer{}
	}
	return answer
}

func (w *wire) serve(method, path, body string) device.Answer {
	if method == "GET" && path == "/api/v1/me" {
		return w.me()
	}
	if path == "/api/v1/sync" && method == "POST" {
		if w.old {
			return device.Answer{Status: 404}
		}
		return w.together(body)
	}
	log, isSync := strings.CutSuffix(strings.TrimPrefix(path, "/api/v1/jobs/"), "/sync")
	if id, own := strings.CutSuffix(log, "/own"); own {
		log = id + sync.OwnSuffix
	}
	if gone := w.deleted[strings.TrimSuffix(log, sync.OwnSuffix)]; isSync && gone {
		return device.Answer{Status: 410}
	}
	if isSync && w.refuses == log {
		return device.Answer{Status: 503}
	}
	if method != "POST" || !isSync || w.only != "" && w.only != log {
		return device.Answer{Status: 404}
	}
	if resp, is := w.instead[log]; is {
		return toAnswer(resp)
	}
	ledger := w.ledgers[log]
	if ledger == nil {
		if w.session.Author.Role != job.Owner {
			return device.Answer{Status: 404}
		}
		ledger = memory.New(log, "first", []byte("a key of thirty-two bytes or so.."), w.clock.Load())
		w.ledgers[log] = ledger
	}
	var req sync.Request
	if json.Unmarshal([]byte(body), &req) != nil {
		return device.Answer{Status: 400}
	}
	resp, err := server.Serve(ledger, w.session, req, w.clock.Load())
	if errors.Is(err, sync.ErrOther) {
		return device.Answer{Status: 409}
	}
	if err != nil {
		return device.Answer{Status: 400}
	}
	return toAnswer(resp)
}

// together answers a request for several logs, as the server does.
func (w *wire) together(body string) device.Answer {
	batch, err := sync.DecodeBatch([]byte(body))
	if err != nil {
		return device.Answer{Status: 400}
	}
	answer := sync.BatchAnswer{V: sync.WireVersion}
	for _, l := range batch.Logs {
		path := "/api/v1/jobs/" + l.Log + "/sync"
		if id, own := strings.CutSuffix(l.Log, sync.OwnSuffix); own {
			path = "/api/v1/jobs/" + id + "/own/sync"
		}
		one := w.serve("POST", path, string(l.Request))
		told := sync.LogAnswer{Log: l.Log, Status: one.Status}
		if one.Status == 200 {
			told.Response = json.RawMessage(one.Text)
		}
		answer.Logs = append(answer.Logs, told)
	}
	return toAnswer(answer)
}

func (w *wire) me() device.Answer {
	jobs := []map[string]any{}
	if w.session.Closed == "" {
		for log, ledger := range w.ledgers {
			if strings.HasSuffix(log, sync.OwnSuffix) || w.only != "" && w.only != log {
				continue
			}
			if _, deleted := w.deleted[log]; deleted {
				continue
			}
			row := map[string]any{"id": log}
			w.tellEnd(row, ledger, "e", "s", "h")
			if own := w.ledgers[log+sync.OwnSuffix]; own != nil && w.session.Author.Role == job.Owner {
				w.tellEnd(row, own, "oe", "os", "oh")
			}
			jobs = append(jobs, row)
		}
	}
	by := w.session.Author
	told := map[string]any{"role": by.Role, "name": by.Name, "link": by.Link, "closed": w.session.Closed,
		"jobs": jobs, "build": "test"}
	deleted := []map[string]any{}
	for id, gone := range w.deleted {
		deleted = append(deleted, map[string]any{"id": id, "gone": gone})
	}
	told["deleted"] = deleted
	if w.session.Closed != "" && !w.old {
		handed := []sync.HandedLog{}
		for log, ledger := range w.ledgers {
			held, _, _ := ledger.HeldBy(w.session.ID)
			if head, _ := ledger.Head(); held > 0 || w.only == log {
				handed = append(handed, sync.HandedLog{Log: log, Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash, Held: held})
			}
		}
		told["handed"] = handed
	}
	return toAnswer(told)
}

// tellEnd adds the end of a log to a row.
func (w *wire) tellEnd(row map[string]any, ledger *memory.Ledger, epoch, seq, hash string) {
	head, _ := ledger.Head() // cannot fail in memory
	row[epoch], row[seq] = head.Epoch, head.Seq
	if !w.old {
		row[hash] = head.Hash
	}
}

func toAnswer(v any) device.Answer {
	text, err := json.Marshal(v)
	if err != nil {
		return device.Answer{Status: 500}
	}
	return device.Answer{Status: 200, Text: string(text)}
}
