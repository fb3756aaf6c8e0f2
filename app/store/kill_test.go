package store_test

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	stdsync "sync"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	killDir  = "GARLANDRY_KILL_TEST_DIR" // set in the child: the data directory
	killJob  = "readingroom"
	killRuns = 20
)

// TestMain runs the child process of a test if its environment says so.
func TestMain(m *testing.M) {
	if dir := os.Getenv(killDir); dir != "" {
		fmt.Fprintln(os.Stderr, writeUntilKilled(dir))
		os.Exit(1)
	}
	if dir := os.Getenv(fullDir); dir != "" {
		if err := writeUntilFull(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	if dir := os.Getenv(spendDir); dir != "" {
		if err := redeemOnAFullDisk(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// writeUntilKilled writes under load and prints the id of each operation once the store has acknowledged it.
func writeUntilKilled(dir string) error {
	s, err := store.Open(dir, store.Options{})
	if err != nil {
		return err
	}
	ctx, owner := context.Background(), s.System("Owner")
	if _, err := s.CreateJob(ctx, owner, killJob, nil); err != nil && !strings.Contains(err.Error(), "already") {
		return err
	}
	fmt.Println("open")
	failed := make(chan error)
	var printing stdsync.Mutex
	acknowledged := func(ids ...string) {
		printing.Lock()
		defer printing.Unlock()
		fmt.Println(strings.Join(ids, "\n"))
	}
	go func() {
		for { // forms
			ops, err := s.Write(ctx, owner, killJob,
				[]job.Change{job.Count("card/make/door", 1), job.Put("brief", "notes", "x")})
			if err != nil {
				failed <- err
				return
			}
			acknowledged(ops[0].ID, ops[1].ID)
		}
	}()
	for device := range 3 { // phones
		go func() { failed <- syncUntilKilled(s, owner, fmt.Sprintf("p%d%d", device, os.Getpid()), acknowledged) }()
	}
	return <-failed
}

func syncUntilKilled(s *store.Store, owner store.Session, device string, acknowledged func(...string)) error {
	for number := uint64(1); ; {
		req := sync.Request{V: sync.WireVersion, Device: device, Now: 1}
		var ids []string
		for range 20 {
			op := job.Op{ID: fmt.Sprintf("op-%s-%d", device, number), Device: device, Number: number, Version: 1,
				Kind: job.Add, Entity: "card/make/door", Delta: 1, Wall: 1}
			req.Ops = append(req.Ops, op)
			ids = append(ids, op.ID)
			number++
		}
		resp, err := s.Sync(context.Background(), owner, killJob, req)
		if err != nil {
			return err
		}
		for _, a := range resp.Acks {
			if a.Result != sync.OK {
				return fmt.Errorf("%s: %s %s", a.ID, a.Result, a.Why)
			}
		}
		acknowledged(ids...)
	}
}

// A server killed at any moment loses nothing that it had acknowledged, and opens again.
func TestAKilledServerLosesNothing(t *testing.T) {
	dir := t.TempDir()
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	acknowledged := map[string]bool{}
	for run := range killRuns {
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), killDir+"="+dir)
		out, err := child.StdoutPipe()
		require.NoError(t, err)
		var complaint strings.Builder
		child.Stderr = &complaint
		require.NoError(t, child.Start())
		lines := bufio.NewScanner(out)
		if killAt := rng.IntN(400); run%5 > 0 { // every fifth is killed while it starts
			for n := 0; n <= killAt && lines.Scan(); n++ {
				if n == 1 && run == 1 {
					_, err := store.Open(dir, store.Options{})
					assert.ErrorIs(t, err, store.ErrInUse)
				}
				acknowledged[lines.Text()] = true
			}
		}
		require.NoError(t, child.Process.Kill())
		for lines.Scan() { // printed before it was killed
			acknowledged[lines.Text()] = true
		}
		require.Error(t, child.Wait())
		require.Empty(t, complaint.String(), "run %d", run)
	}
	delete(acknowledged, "open")
	require.Greater(t, len(acknowledged), killRuns)
	require.NoError(t, store.Verify(dir), "bbolt's own check")
	s, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	defer s.Close()
	var recs []job.Rec
	require.NoError(t, s.Look(killJob, func(l server.Ledger) (err error) {
		recs, err = l.Read(1, 1<<30)
		return err
	}))
	adds := 0
	for _, r := range recs {
		delete(acknowledged, r.ID)
		if r.Kind == job.Add {
			adds++
		}
	}
	assert.Empty(t, acknowledged, "acknowledged and lost")
	shared, _, err := s.State(killJob)
	require.NoError(t, err)
	assert.EqualValues(t, adds, shared.Tally("card/make/door").Total())
	t.Logf("%d runs killed, %d operations stored", killRuns, len(recs))
}
