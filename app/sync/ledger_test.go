package sync_test

import (
	"testing"

	"garlandry/app/sync"
	"garlandry/app/sync/ledgertest"
)

func TestMemoryIsALedger(t *testing.T) {
	ledgertest.Run(t, func(_ *testing.T, log string) ledgertest.Transact {
		memory := sync.NewMemory(log, "epoch", []byte("the key of the suite"), ledgertest.Created)
		return func(do func(sync.Ledger) error) error { return do(memory) }
	})
}
