package sync_test

import (
	"encoding/json"
	"errors"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
)

// Whatever is posted, the server answers or returns a known error, and the log stays valid.
func FuzzServe(f *testing.F) {
	f.Add(
		[]byte(`{"v":1,"d":"phone","now":1800000000000,"ops":[{"i":"operation1","d":"phone","n":1,"k":"set","e":"card/x",` +
			`"f":"done","v":true,"w":5,"p":["operation0"]}]}`),
	)
	f.Add(
		[]byte(
			`{"v":1,"d":"phone","cur":{"e":"epoch1","s":1,"h":"x"},"heal":[{"i":"operation1","d":"phone","n":1,"k":"add",` +
				`"e":"card/x","dx":3,"eff":9e15,"s":4,"by":{"r":"owner"}}]}`,
		),
	)
	f.Add(
		[]byte(`{"v":1,"d":"phone","closed":true,"max":-1,"now":-9223372036854775808,"ops":[{"i":"operation1","d":"phone",` +
			`"n":18446744073709551615,"k":"stocktake","e":"card/x","v":{"count":3,"covers":["a"]},"w":9223372036854775807}]}`),
	)
	f.Add([]byte(`{"v":1,"d":"phone","ops":[null,{}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		req, err := sync.DecodeRequest(data)
		if err != nil {
			if !errors.Is(err, sync.ErrRequest) && !errors.Is(err, sync.ErrTooLarge) && !errors.Is(err, sync.ErrTooOld) &&
				!errors.Is(err, sync.ErrTooNew) {
				t.Fatalf("an unknown error: %v", err)
			}
			return
		}
		for _, session := range []server.Session{
			{ID: "o", Author: job.Author{Role: job.Owner}}, {ID: "h", Author: job.Author{Role: job.Helper}},
			{ID: "r", Author: job.Author{Role: job.Lead}, Closed: sync.Revoked},
			{ID: "e", Author: job.Author{Role: job.Lead}, Closed: sync.Ended, ClosedAt: start + day}} {
			records := newServer()
			first, err := server.Serve(records, session, req, start+day)
			if err != nil {
				t.Fatal(err)
			}
			again, err := server.Serve(records, session, req, start+2*day)
			if err != nil {
				t.Fatal(err)
			}
			if a, b := mustJSON(first.Acks), mustJSON(again.Acks); a != b && !again.Rewound {
				t.Fatalf("acknowledged %s, then %s", a, b)
			}
			sound(t, records)
		}
	})
}

// sound checks that a log's head, sums and seals match its records.
func sound(t *testing.T, records *memory.Ledger) {
	head, err := records.Head()
	if err != nil {
		t.Fatal(err)
	}
	recs, err := records.Read(1, 1<<20)
	if err != nil || uint64(len(recs)) != head.Seq || head.Count != head.Seq {
		t.Fatalf("%d records, head at %d: %v", len(recs), head.Seq, err)
	}
	sum := uint64(0)
	for i, r := range recs {
		sum += sync.Digest(r)
		if r.Seq != uint64(i+1) || r.Effective < start || r.Pending() || r.Check() != nil ||
			!server.Verify(records.Key(), records.Log(), r) {
			t.Fatalf("record %d: %+v", i, r)
		}
	}
	if sum != head.Digest {
		t.Fatalf("sum %x, head says %x", sum, head.Digest)
	}
	job.Fold(recs...)
}

func mustJSON(value any) string {
	raw, err := json.Marshal(value)
	if err != nil {
		panic(err)
	}
	return string(raw)
}

// Whatever a server answers, the phone keeps its unsent operations, and a later exchange with a good server sends them.
func FuzzReceive(f *testing.F) {
	f.Add(
		[]byte(
			`{"v":1,"e":"epoch1","head":1,"s":1,"recs":[{"i":"operation1","d":"a","n":1,"k":"add","e":"card/make/door",`+
				`"dx":3,"eff":5,"s":1}],"ack":[{"i":"x","r":"ok"}]}`,
		),
		true,
	)
	f.Add([]byte(`{"v":1,"rewound":true,"e":"other"}`), true)
	f.Add([]byte(`{"v":1,"closed":"revoked","ack":[{"i":"x","r":"quarantined"},{"i":"x","r":"fork"}]}`), false)
	f.Add([]byte(`{"v":1,"e":"epoch1","head":3,"s":3,"h":"x","dig":"zz","cnt":99,"open":true}`), false)
	f.Fuzz(func(t *testing.T, data []byte, fresh bool) {
		resp, err := sync.DecodeResponse(data)
		if err != nil {
			return
		}
		d := newDevice(t, newServer())
		d.as.Author.Role = job.Owner
		if !fresh {
			d.act(t, job.Count(door, 1), job.Put(door, "done", true))
			d.exchange(t)
		}
		ops := d.act(t, job.Count(door, 7), job.Put(door, "taken", "Bea"))
		for i, a := range resp.Acks { // let some acknowledge existing operations
			if len(a.ID)%3 > 0 {
				resp.Acks[i].ID = ops[i%2].ID
			}
		}
		gone := map[string]bool{}
		for _, a := range resp.Acks {
			gone[a.ID] = a.Result == sync.Denied || a.Result == sync.Invalid || gone[a.ID]
		}
		for _, r := range resp.Recs {
			gone[r.ID] = true
		}
		req := d.request(t)
		step, err := d.Receive(log, req, resp, d.clock)
		if err != nil {
			if !step.Empty() || len(d.Unsent(log)) != 2 {
				t.Fatalf("refused and yet changed: %v", err)
			}
			return
		}
		d.save(t, step)
		d.load(t)
		d.open(t)
		d.exchange(t)
		for _, op := range ops {
			if _, there, _ := d.records.ByID(op.ID); !there && !gone[op.ID] {
				t.Fatalf("operation %s is gone after %s", op.ID, data)
			}
		}
	})
}
