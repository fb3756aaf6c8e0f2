package serve_test

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// asks sends a phone's request for several logs. Requests without operations only pull.
func (p *phone) asks(logs ...wire.LogRequest) (answer, map[string]wire.LogAnswer) {
	p.t.Helper()
	body, err := json.Marshal(wire.Batch{V: wire.WireVersion, Logs: logs})
	require.NoError(p.t, err)
	got := p.sync("/api/v1/sync", string(body))
	if got.StatusCode != 200 {
		return got, nil
	}
	told, err := wire.DecodeBatchAnswer([]byte(got.body))
	require.NoError(p.t, err)
	byLog := map[string]wire.LogAnswer{}
	for _, a := range told.Logs {
		_, twice := byLog[a.Log]
		require.False(p.t, twice, "answered twice: %s", a.Log)
		byLog[a.Log] = a
	}
	return got, byLog
}

func (p *phone) forLog(log string, ops ...job.Op) wire.LogRequest {
	body, err := json.Marshal(
		wire.Request{V: wire.WireVersion, App: "test", Device: "phone1", Now: p.nowMS.Load(), Ops: ops},
	)
	require.NoError(p.t, err)
	return wire.LogRequest{Log: log, Request: body}
}

func response(t *testing.T, a wire.LogAnswer) wire.Response {
	t.Helper()
	require.Equal(t, 200, a.Status, "%+v", a)
	resp, err := wire.DecodeResponse(a.Response)
	require.NoError(t, err)
	return resp
}

// TestSeveralLogsAreAnsweredTogether checks that a request for many logs gives the same answers as single requests, and
// that a bad one does not stop the others.
func TestSeveralLogsAreAnsweredTogether(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	_, told := owner.asks(
		owner.forLog("reading"),
		wire.LogRequest{Log: "bad", Request: json.RawMessage(`{"v":1,"d":"!"}`)},
		wire.LogRequest{Log: "a b"},
		owner.forLog("reading"+wire.OwnSuffix),
		owner.forLog("other", s.op(1, "card/load", "done", "true")),
		wire.LogRequest{Log: "late", Request: json.RawMessage(`{"v":99,"d":"phone1"}`)})
	require.Equal(t, 6, len(told))
	alone := owner.exchange("reading")
	assert.Equal(t, alone, response(t, told["reading"]))
	assert.Equal(t, owner.exchange("reading/own"), response(t, told["reading"+wire.OwnSuffix]))
	assert.Equal(t, 400, told["a b"].Status)
	assert.Equal(t, 400, told["bad"].Status)
	assert.Equal(t, wire.OK, response(t, told["other"]).Acks[0].Result)
	assert.Equal(t, 426, told["late"].Status)
	assert.Equal(t, "update", told["late"].Code)
}

func TestOneLogThatIsRefusedStopsNoOther(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	ops := []job.Op{s.op(1, "card/load", "done", "true")}
	_, told := helper.asks(helper.forLog("other", ops...), helper.forLog("reading"+wire.OwnSuffix, ops...),
		helper.forLog("nothere"), helper.forLog("reading", ops...))
	require.Len(t, told, 4)
	assert.Equal(t, 404, told["other"].Status, "another job must look as if it did not exist")
	assert.Equal(t, 403, told["reading"+wire.OwnSuffix].Status)
	assert.Equal(t, 404, told["nothere"].Status)
	for _, refused := range []string{"other", "nothere", "reading" + wire.OwnSuffix} {
		assert.Empty(t, told[refused].Response, refused)
		assert.NotEmpty(t, told[refused].Message, refused)
	}
	resp := response(t, told["reading"])
	require.Len(t, resp.Acks, 1)
	assert.Equal(t, wire.OK, resp.Acks[0].Result)
	recs := owner.exchange("reading").Recs
	assert.Equal(t, ops[0].ID, recs[len(recs)-1].ID, "it must be in the log before the answer is sent")
}

func TestARequestForSeveralLogsIsBounded(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	for _, row := range []struct {
		name, body string
		status     int
	}{
		{"no JSON", `{`, 400},
		{"no version", `{"logs":[{"l":"reading"}]}`, 400},
		{"no logs", `{"v":1}`, 400},
		{"a newer version", `{"v":2,"logs":[{"l":"reading"}]}`, 426},
		{"too many logs", `{"v":1,"logs":[{"l":"x"}` + strings.Repeat(`,{"l":"x"}`, wire.MaxLogs) + `]}`, 413},
		{"too many bytes", `{"v":1,"logs":[{"l":"` + strings.Repeat("x", wire.MaxBatchBytes) + `"}]}`, 413},
	} {
		before := s.standing()
		got := owner.sync("/api/v1/sync", row.body)
		assert.Equal(t, row.status, got.StatusCode, "%s: %s", row.name, got.body)
		assert.Equal(t, before, s.standing(), row.name)
	}
	assert.Equal(t, 401, s.stranger().sync("/api/v1/sync", `{"v":1,"logs":[{"l":"reading"}]}`).StatusCode)
	r := owner.request("POST", "/api/v1/sync", strings.NewReader(`{"v":1,"logs":[{"l":"reading"}]}`))
	r.Header.Set("Content-Type", "text/plain")
	assert.Equal(t, 415, owner.send(r).StatusCode)
	r = owner.request("POST", "/api/v1/sync", strings.NewReader(`{"v":1,"logs":[{"l":"reading"}]}`))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	assert.Equal(t, 403, owner.send(r).StatusCode)
}

// TestARequestForSeveralLogsCountsForWhatItDoes checks that a phone with forty jobs wakes with few of its allowed
// requests, and that sending changes to many logs costs as many as single requests.
func TestARequestForSeveralLogsCountsForWhatItDoes(t *testing.T) {
	s := newSite(t)
	owner, eager := s.owner(), s.owner()
	var logs, writes []wire.LogRequest
	for i := range 40 {
		id := fmt.Sprintf("many%d", i)
		_, err := s.store.CreateJob(context.Background(), s.store.System("test"), id,
			[]job.Change{job.Put("brief", "title", fmt.Sprintf("Title %d.", i))})
		require.NoError(t, err)
		logs = append(logs, owner.forLog(id), owner.forLog(id+wire.OwnSuffix))
		writes = append(writes, eager.forLog(id, s.op(uint64(i+1), "card/load", "done", "true")))
	}
	for range 6 {
		got, told := owner.asks(logs...)
		require.Equal(t, 200, got.StatusCode, got.body)
		require.Len(t, told, 80)
	}
	got, told := eager.asks(writes...)
	require.Equal(t, 200, got.StatusCode)
	require.Len(t, told, wire.MaxWritten, "the phone must ask for the others again")
	passed := 1
	for ; passed < 10; passed++ {
		if got, _ = eager.asks(writes...); got.StatusCode != 200 {
			break
		}
	}
	assert.Equal(t, 429, got.StatusCode)
	assert.Equal(t, 2, passed, "sixty logs at once: two requests of twenty-five, not a third")
	assert.Equal(t, "3", got.Header.Get("Retry-After"))
	s.later(3 * time.Second)
	got, _ = eager.asks(writes...)
	assert.Equal(t, 200, got.StatusCode)
}

// TestALongAnswerIsGivenInParts checks that a long answer is cut, and that the phone asks again for the rest.
func TestALongAnswerIsGivenInParts(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	var logs []wire.LogRequest
	for i := range 6 {
		id := fmt.Sprintf("long%d", i)
		changes := []job.Change{job.Put("brief", "title", "Long")}
		for n := range 60 {
			changes = append(changes, job.Put(fmt.Sprintf("piece/p%d", n), "notes", strings.Repeat("x", 3900)))
		}
		_, err := s.store.CreateJob(context.Background(), s.store.System("test"), id, changes)
		require.NoError(t, err)
		logs = append(logs, owner.forLog(id))
	}
	seen := map[string]bool{}
	rounds := 0
	for ; len(logs) > 0 && rounds < 10; rounds++ {
		got, told := owner.asks(logs...)
		require.Equal(t, 200, got.StatusCode)
		require.NotEmpty(t, told)
		assert.Less(t, len(got.body), 2*wire.MaxAnswer)
		var left []wire.LogRequest
		for _, l := range logs {
			if a, there := told[l.Log]; there {
				assert.Len(t, response(t, a).Recs, 61)
				seen[l.Log] = true
			} else {
				left = append(left, l)
			}
		}
		logs = left
	}
	assert.Len(t, seen, 6)
	assert.Equal(t, 2, rounds)
}

// TestPullsWriteNothing checks that reading many logs writes nothing, so a waking phone never waits for a disk
// flush.
func TestPullsWriteNothing(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	database := func() string { // a write transaction changes the file even if it writes no record
		data, err := os.ReadFile(filepath.Join(s.dir, "garlandry.db"))
		require.NoError(t, err)
		return fmt.Sprintf("%x", sha256.Sum256(data))
	}
	before := database()
	for range 3 {
		_, told := owner.asks(owner.forLog("reading"), owner.forLog("other"), owner.forLog("other"+wire.OwnSuffix))
		require.Len(t, told, 3)
	}
	assert.Equal(t, before, database())
	known := s.op(1, "card/load", "done", "true")
	owner.asks(owner.forLog("reading", known))
	before = database()
	owner.asks(owner.forLog("reading", known))
	assert.NotEqual(t, before, database(),
		"a known operation writes nothing but needs a write transaction")
}

// TestMeTellsAClosedSessionWhatWaits checks that a closed session learns only the state of its job's log and how much
// of its own work waits there.
func TestMeTellsAClosedSessionWhatWaits(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	me := func(p *phone) map[string]json.RawMessage {
		var told map[string]json.RawMessage
		require.NoError(t, json.Unmarshal([]byte(p.get("/api/v1/me").body), &told))
		return told
	}
	assert.NotContains(t, me(helper), "handed", "not while the session is open")
	handed := func() []wire.HandedLog {
		var logs []wire.HandedLog
		told := me(helper)
		require.Contains(t, told, "handed")
		require.JSONEq(t, "[]", string(told["jobs"]))
		require.NoError(t, json.Unmarshal(told["handed"], &logs))
		return logs
	}
	links, err := s.store.Links("reading")
	require.NoError(t, err)
	require.NoError(t, s.store.RevokeLink(context.Background(), s.store.System("test"), links[0].ID))
	s.later(time.Second)
	at := owner.exchange("reading")
	want := wire.HandedLog{Epoch: at.Epoch, Seq: at.Head, Hash: at.Hash}
	assert.Equal(t, []wire.HandedLog{want}, handed())
	resp := helper.exchange("reading", s.op(1, "card/load", "done", "true"), s.op(2, "card/pump", "done", "true"))
	require.Equal(t, wire.Revoked, resp.Closed)
	assert.Equal(t, 2, resp.Held)
	want.Held = 2
	assert.Equal(t, []wire.HandedLog{want}, handed())
	held, err := s.store.Quarantine("reading")
	require.NoError(t, err)
	require.Len(t, held, 2)
	require.Equal(t, 303, owner.post("/jobs/reading/share/drop", url.Values{"op": {held[0].Op.ID}}).StatusCode)
	assert.Equal(t, 2, handed()[0].Held, "ignored operations stay known")
	require.Equal(t, 303, owner.post("/jobs/reading/share/keep", url.Values{"op": {held[1].Op.ID}}).StatusCode)
	assert.Equal(t, 1, handed()[0].Held, "accepted operations no longer wait")
}
