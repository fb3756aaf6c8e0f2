package sync_test

import (
	"testing"

	"garlandry/app/internal/ledgertest"
	"garlandry/app/sync"
)

func TestMemoryIsALedger(t *testing.T) {
	ledgertest.Run(t, func(_ *testing.T, log string) ledgertest.Transact {
		memory := sync.NewMemory(log, "epoch", []byte("the key of the suite"), ledgertest.Created)
		return func(do func(sync.Ledger) error) error { return do(memory) }
	})
}
