package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/internal/ledgertest"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBoltLedger(t *testing.T) {
	ledgertest.Run(t, func(t *testing.T, log string) ledgertest.Transact {
		dir := t.TempDir()
		key := []byte("one key for all logs of the suite, 32 bytes or more")
		require.NoError(t, os.WriteFile(filepath.Join(dir, store.KeyName), key, 0o600))
		s, err := store.Open(dir, store.Options{})
		require.NoError(t, err)
		t.Cleanup(func() {
			assert.NoError(t, s.Close())
			assert.NoError(t, store.VerifyPages(dir), "bbolt's own check")
		})
		transact, err := s.NewLog(log, ledgertest.Created)
		require.NoError(t, err)
		return transact
	})
}
