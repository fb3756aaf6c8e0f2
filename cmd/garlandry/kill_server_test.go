package main

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	killRounds  = 6
	killClients = 4
	killEntity  = "card/make/door"
)

// sender posts batches and keeps unacknowledged operations, as a phone does.
type sender struct {
	client *http.Client
	device string
	luck   *rand.Rand
	number uint64
	outbox []job.Op
	acked  map[string]bool
	sent   map[string]bool
	deltas int64 // sum of what was sent
}

func (s *sender) fill() {
	for range 1 + s.luck.IntN(40) {
		s.number++
		op := job.Op{ID: fmt.Sprintf("%s-%d", s.device, s.number), Device: s.device, Number: s.number, Version: 1,
			Kind: job.Add, Entity: killEntity, Delta: int64(1 + s.luck.IntN(5)), Wall: time.Now().UnixMilli()}
		s.outbox = append(s.outbox, op)
	}
}

// post sends the outbox once. It returns false if the server is gone.
func (s *sender) post(address, log string, heard func(int)) (bool, error) {
	for _, op := range s.outbox {
		if !s.sent[op.ID] {
			s.sent[op.ID] = true
			s.deltas += op.Delta
		}
	}
	answer, status, err := exchange(s.client, address, log,
		wire.Request{Device: s.device, Now: time.Now().UnixMilli(), Ops: s.outbox, Max: 1})
	switch {
	case err != nil:
		return false, nil
	case status == http.StatusTooManyRequests:
		return false, nil // rate-limited
	case status != http.StatusOK:
		return false, fmt.Errorf("status %d", status)
	case len(answer.Acks) != len(s.outbox):
		return false, fmt.Errorf("%d operations, %d answers", len(s.outbox), len(answer.Acks))
	}
	for _, a := range answer.Acks {
		if a.Result != wire.OK {
			return false, fmt.Errorf("%s: %s %s", a.ID, a.Result, a.Why)
		}
		s.acked[a.ID] = true
	}
	heard(len(s.outbox))
	s.outbox = nil
	return true, nil
}

// TestKilledServerUnderLoadLosesNothing kills the real server with SIGKILL while phones post to it, restarts it on the
// same data, and counts. It cannot show what a lost disk cache does. The seed is logged; GARLANDRY_KILL_SEED=N repeats
// a run.
func TestKilledServerUnderLoadLosesNothing(t *testing.T) {
	file, dir := binary(t, ""), t.TempDir()
	seed := rand.Uint64()
	if text := os.Getenv("GARLANDRY_KILL_SEED"); text != "" {
		var err error
		seed, err = strconv.ParseUint(text, 10, 64)
		require.NoError(t, err)
	}
	t.Logf("seed %d", seed)
	luck := rand.New(rand.NewPCG(seed, 1))
	server := startProcess(t, file, dir, "", "--demo")
	address := server.address
	reader := visitor(t, server.link, "")
	log := anyJob(t, reader, address)
	senders := make([]*sender, killClients)
	for i := range senders {
		senders[i] = &sender{client: visitor(t, invite(t, file, dir, address), ""), device: fmt.Sprintf("phone%d", i),
			luck: rand.New(rand.NewPCG(seed, uint64(i+2))), acked: map[string]bool{}, sent: map[string]bool{}}
	}
	before := len(records(t, reader, address, log))
	inFlight := 0
	for range killRounds {
		inFlight += loadAndKill(t, server, senders, address, log, 1+luck.IntN(600),
			time.Duration(luck.IntN(20000))*time.Microsecond)
		server = startProcess(t, file, dir, server.host())
		require.Equal(t, address, server.address)
		checkAcknowledged(t, records(t, reader, address, log), senders)
	}
	for _, s := range senders { // phones resend unacknowledged operations
		if len(s.outbox) > 0 {
			ok, err := s.post(address, log, func(int) {})
			require.NoError(t, err)
			require.True(t, ok)
		}
		assert.Equal(t, len(s.sent), len(s.acked))
	}
	recs := records(t, reader, address, log)
	checkAcknowledged(t, recs, senders)
	sent, want, got := 0, int64(0), int64(0)
	for _, s := range senders {
		sent += len(s.sent)
		want += s.deltas
	}
	for _, r := range recs {
		if r.Entity == killEntity && r.Kind == job.Add {
			got += r.Delta
		}
	}
	assert.Equal(t, want, got, "the tally is the sum of all additions, each counted once")
	assert.Equal(t, before+sent, len(recs))
	server.stop()
	// The backup checks every record.
	code, _, complaint := cli("backup", "--data", dir, filepath.Join(t.TempDir(), "copy.db"))
	assert.Equal(t, 0, code, complaint)
	t.Logf("%d rounds, %d operations from %d phones, %d posts were cut off", killRounds, sent, killClients, inFlight)
}

// loadAndKill has every phone post, and kills the server a moment after the given number of operations were
// acknowledged. It returns how many posts were cut off.
func loadAndKill(t *testing.T, server *process, senders []*sender, address, log string, after int,
	moment time.Duration) int {
	t.Helper()
	enough := make(chan struct{})
	var mu sync.Mutex
	heard := 0
	count := func(n int) {
		mu.Lock()
		defer mu.Unlock()
		if heard += n; heard >= after && heard-n < after {
			close(enough)
		}
	}
	var phones sync.WaitGroup
	failed := make(chan error, len(senders))
	for _, s := range senders {
		phones.Go(func() {
			for {
				s.fill()
				ok, err := s.post(address, log, count)
				if err != nil {
					failed <- err
				}
				if !ok {
					return
				}
			}
		})
	}
	silent := make(chan struct{})
	go func() { phones.Wait(); close(silent) }()
	select {
	case <-enough:
		select {
		case <-time.After(moment): // the server dies at a random moment
		case <-silent:
		}
	case <-silent:
	}
	server.kill()
	<-silent
	close(failed)
	for err := range failed {
		require.NoError(t, err)
	}
	cut := 0
	for _, s := range senders {
		if len(s.outbox) > 0 {
			cut++
		}
	}
	return cut
}

func checkAcknowledged(t *testing.T, recs []job.Rec, senders []*sender) {
	t.Helper()
	there := map[string]bool{}
	for _, r := range recs {
		there[r.ID] = true
	}
	for _, s := range senders {
		for id := range s.acked {
			require.True(t, there[id], "%s was acknowledged but is lost", id)
		}
	}
}
