package sync_test

import (
	"testing"

	"garlandry/app/internal/ledgertest"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
)

func TestMemoryLedger(t *testing.T) {
	ledgertest.Run(t, func(_ *testing.T, log string) ledgertest.Transact {
		memory := memory.New(log, "epoch", []byte("the key of the suite"), ledgertest.Created)
		return func(do func(server.Ledger) error) error { return do(memory) }
	})
}
